package check

import (
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
)

// bracketOf drops the witness.
func bracketOf(v sweep.Bracket) result.Bracket { return result.Between(v.Lower, v.Upper) }

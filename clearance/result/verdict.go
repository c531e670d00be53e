package result

import "math"

// Verdict of a check. The zero value is Open: what nobody has decided does not
// pass.
type Verdict int

// The verdicts.
const (
	Open Verdict = iota
	Pass
	Fail
)

func (v Verdict) String() string { return [...]string{"open", "pass", "fail"}[v] }

// MarshalText writes the verdict as a word.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// Sense tells whether a value must not be less or not be more than its limit.
type Sense int

// The senses.
const (
	Min Sense = iota
	Max
)

func (s Sense) String() string { return [...]string{"min", "max"}[s] }

// MarshalText writes the sense as a word.
func (s Sense) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Bracket holds a value that is known to lie between two ends. An end that is
// infinite is unknown on that side.
type Bracket struct{ Lower, Upper float64 }

// Between is a value known to lie between two numbers.
func Between(lower, upper float64) Bracket { return Bracket{lower, upper} }

// Exactly is a value known to rounding.
func Exactly(v float64) *Bracket { return &Bracket{v, v} }

// Judge is the rule for every verdict. For a lower limit: pass if even the
// lower end, less the allowance, reaches it; fail if not even the upper end
// does; else open. Mirrored for an upper limit. The margin uses the worse end.
// A number that is not a number decides nothing.
func Judge(v Bracket, limit, allowance float64, s Sense) (Verdict, float64) {
	if s == Max {
		v, limit = Bracket{-v.Upper, -v.Lower}, -limit
	}
	margin := v.Lower - allowance - limit
	switch {
	case math.IsNaN(margin) || math.IsNaN(v.Upper) || v.Lower > v.Upper:
		return Open, math.Inf(-1)
	case v.Lower-allowance >= limit:
		return Pass, margin
	case v.Upper-allowance < limit:
		return Fail, margin
	}
	return Open, margin
}

// Overall is the verdict of many: any fail fails, else any open or none at all
// is open.
func Overall(checks []Entry) Verdict {
	if len(checks) == 0 {
		return Open
	}
	out := Pass
	for _, c := range checks {
		switch c.Verdict {
		case Fail:
			return Fail
		case Open:
			out = Open
		}
	}
	return out
}

// OfJob is the verdict on a job of which only some checks were asked for: what was
// not asked for is open, whatever the others say.
func OfJob(asked Verdict, only []string) Verdict {
	if asked == Pass && only != nil {
		return Open
	}
	return asked
}

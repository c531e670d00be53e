package check

import (
	"fmt"

	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// lagRow is what the crew keeps to so that lag holds: nil in steps that turn fewer
// than two adjusters.
func (b *bay) lagRow(s carrier.Step) *result.LagRow {
	if s.Stop != nil || len(b.Turned(s, culvert.Both)) < 2 {
		return nil
	}
	kept := b.Tol.Value("lag")
	return &result.LagRow{Kept: kept, Say: fmt.Sprintf("Turn the adjusters in passes so small that none gets more than %s, on its own reading, ahead of or behind where the others are on their way, on either side.", b.small(kept))}
}

package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
)

// tape is the least difference of level between jacks that a crew holds with a
// tape or a rule while they are turned; judgement.
const tape = 0.003

// levels tells each step in which jacks are turned while they carry how far one
// may get ahead of another: by the step's own entry of strip.level.
func (b *bay) levels(t *report) {
	for _, e := range t.still {
		if e.ID != "strip.level" || e.Value == nil || e.Limit == nil {
			continue
		}
		for i := range t.steps {
			if row := &t.steps[i]; row.Name == e.Where.Step && row.Level == nil {
				row.Level = b.levelRow(*e.Limit, math.Max(0, e.Value.Lower))
			}
		}
	}
}

// levelRow says what is safe. A crew is told the number that the checks are made
// with, the less of the two where that is not safe; and where a tape would not do for either.
func (b *bay) levelRow(kept, safe float64) *result.LevelRow {
	say := fmt.Sprintf("Turn the jacks in passes so small that none gets ahead of any other by more than %s, left, right or along; every plate bears. ", b.small(kept))
	if safe < kept {
		say = fmt.Sprintf("NOT SAFE with jacks %s apart. ", b.small(kept))
	}
	say += fmt.Sprintf("Up to %s the form runs into nothing.", b.small(safe))
	return &result.LevelRow{Kept: kept, Safe: safe, Say: say + b.tapeRemark(math.Min(kept, safe))}
}

// tapeRemark says with what a difference is watched that a tape does not show;
// empty where a tape does.
func (b *bay) tapeRemark(differ float64) string {
	if differ > tape-1e-9 {
		return ""
	}
	return fmt.Sprintf(" A tape shows %s at best, not %s: watch it with a water level or a straightedge and gauge blocks.", b.mm(tape), b.small(differ))
}

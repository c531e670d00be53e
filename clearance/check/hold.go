package check

import (
	"fmt"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/model"
)

// releaseHold stands before the first step: no step of the collapse begins because
// a calculation passes.
const releaseHold = "Written release. Strength or time required: ______ reached: ______ date and hour: ______ released by (name, signature): ______"

// outsideHold stands before the ties come out.
const outsideHold = "Outside panels and bulkhead slung or propped against falling, seen by (name): ______"

// hangersHold stands before them too, where hangers keep the roof: it is they that
// carry it from then on.
const hangersHold = "Hanger nuts snug (hand-tight), every hanger of the pour, seen by (name): ______"

// noHangersHold stands there where the job leaves nothing that keeps the roof.
const noHangersHold = "No hangers are left: shores stand, or the engineer of record has said in writing that the roof carries itself and what is on it, seen by (name): ______"

// jointsHold stands before the first step of a job that counts on its joints being
// closed: roll.support then takes somebody's word for it.
const jointsHold = "Joints of the invert closed flush where wheels, plates or pads come to stand or roll, seen by (name): ______"

// holdSteps puts before each step of a bay what a named person has to confirm before
// it begins.
func holdSteps(rows []result.StepRow, b *model.Bay, s *model.Study) {
	for i := range rows {
		rows[i].Hold = []string{}
		if i == 0 {
			rows[i].Hold = append(rows[i].Hold, releaseHold)
			if c := s.Job.Culvert; c.JointCover && c.JointGap > 0 {
				rows[i].Hold = append(rows[i].Hold, jointsHold)
			}
		}
		if slices.Contains(rows[i].Removes, "ties") {
			rows[i].Hold = append(append(rows[i].Hold, outsideHold), innerHolds(b, s)...)
			keep := noHangersHold
			if b.Carrier.Kept.Hangers != nil {
				keep = hangersHold
			}
			rows[i].Hold = append(rows[i].Hold, keep)
		}
	}
}

// innerHolds are those of the ties through an inner wall, which hold two carriers.
func innerHolds(b *model.Bay, s *model.Study) []string {
	var out []string
	for _, next := range [2]int{b.Cell.Number - 1, b.Cell.Number + 1} {
		if next >= 1 && next <= len(s.Culvert.Cells) {
			out = append(out, fmt.Sprintf("Ties through the wall to cell %d hold a carrier on each side: both crews know, and neither carrier has begun to move, seen by (name): ______", next))
		}
	}
	return out
}

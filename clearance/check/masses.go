package check

import (
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
)

// massRows are the masses of all carriers. One that does not come to stand on
// its wheels does not roll.
func massRows(s *model.Study) []result.MassRow {
	out := []result.MassRow{}
	for i := range s.Bays {
		b := &s.Bays[i]
		out = append(out, massRow(b, "raised", b.Carrier.WeighRaised()))
		if b.RollsAway() {
			last := b.Steps[len(b.Steps)-1]
			out = append(out, massRow(b, "rolling", b.Carrier.Weigh(last.PresentAfter, last.Pose)))
		}
	}
	return out
}

func massRow(b *model.Bay, state string, w carrier.Weighed) result.MassRow {
	row := result.MassRow{Cell: b.Cell.Number, Pour: b.Pour.Number, State: state, Mass: result.Between(w.Mass.Low, w.Mass.High), Guessed: w.Guessed}
	row.Centre.Least, row.Centre.Most = w.Least, w.Most
	return row
}

package clearance

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
		b := &bay{Bay: &s.Bays[i]}
		out = append(out, b.massRow("raised", b.Carrier.WeighRaised()))
		if b.rollsAway() {
			last := b.Steps[len(b.Steps)-1]
			out = append(out, b.massRow("rolling", b.Carrier.Weigh(last.PresentAfter, last.Pose)))
		}
	}
	return out
}

func (b *bay) massRow(state string, w carrier.Weighed) result.MassRow {
	row := result.MassRow{Cell: b.Cell.Number, Pour: b.Pour.Number, State: state, Mass: result.Between(w.Mass.Low, w.Mass.High), Guessed: w.Guessed}
	row.Centre.Least, row.Centre.Most = w.Least, w.Most
	return row
}

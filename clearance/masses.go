package clearance

import (
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
)

// MassRow is what one carrier weighs, raised with all on it or as it rolls, and
// the box that its centre of gravity lies in, in the frame of cell and pour.
type MassRow struct {
	Cell    int     `json:"cell"`
	Pour    int     `json:"pour"`
	State   string  `json:"state"`   // raised or rolling
	Mass    Bracket `json:"mass"`    // kg
	Guessed float64 `json:"guessed"` // share of its upper end that is neither stated nor derived
	Centre  struct {
		Least geom.Vec `json:"least"`
		Most  geom.Vec `json:"most"`
	} `json:"centre_of_gravity"`
}

// massRows are the masses of all carriers. One that does not come to stand on
// its wheels does not roll.
func massRows(s *model.Study) []MassRow {
	out := []MassRow{}
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

func (b *bay) massRow(state string, w carrier.Weighed) MassRow {
	row := MassRow{Cell: b.Cell.Number, Pour: b.Pour.Number, State: state, Mass: Bracket{w.Mass.Low, w.Mass.High}, Guessed: w.Guessed}
	row.Centre.Least, row.Centre.Most = w.Least, w.Most
	return row
}

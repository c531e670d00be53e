package result

import "boxwalk/model/geom"

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

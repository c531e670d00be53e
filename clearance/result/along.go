package result

import "boxwalk/model/geom"

// AlongRow is how the collapsed carrier stands at one place on its way from a
// pour to the next. Gaps are evaluated at that place alone: they are samples
// for a plot and prove nothing between two of them; what is proved is the
// number of roll.clear. Metres and kN.
type AlongRow struct {
	Cell    int         `json:"cell"`
	Pour    int         `json:"pour"`
	Rolled  float64     `json:"rolled"`  // by the rear end of the form, from where it stood for the pour
	Station float64     `json:"station"` // of the rear end along the job's line, from the inlet
	Governs []string    `json:"governs"` // zones whose roll.clear governs here
	Gaps    []AlongGap  `json:"gaps"`    // in the order of the zones, of those nearer than 0.3 m
	Slope   float64     `json:"slope"`   // rise over run ahead, between the outer wheel lines
	Pulling *AlongPull  `json:"pulling"` // nil where it cannot be worked out
	Wheels  []AlongLine `json:"wheels"`  // line by line from the rear; none where a wheel would lift
	Pose    geom.Pose   `json:"-"`       // from where the carrier stands collapsed to here, in the frame of cell and pour
}

// AlongGap is the least gap to one zone at one place, and what is taken off it
// for tolerances, crossfall and grade breaks.
type AlongGap struct {
	Zone      string  `json:"zone"`
	Part      string  `json:"part"`
	Gap       float64 `json:"gap"`
	Allowance float64 `json:"allowance"`
}

// AlongPull is what starting and holding take at one place.
type AlongPull struct {
	Start float64 `json:"start"`
	Hold  float64 `json:"hold"`
}

// AlongLine is one wheel line: its place along the form, and what its wheels
// carry, as a rigid frame and as one that is soft in torsion spreads it.
type AlongLine struct {
	At         float64 `json:"at"`
	RigidLeft  float64 `json:"rigid_left"`
	RigidRight float64 `json:"rigid_right"`
	SoftLeft   float64 `json:"soft_left"`
	SoftRight  float64 `json:"soft_right"`
}

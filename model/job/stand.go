package job

import (
	"fmt"
	"strings"

	"boxwalk/model/units"
)

// Stand is what a carrier meets and what holds it while it stands free: raised before
// the concrete comes, while it is freed, and parked.
type Stand struct {
	Wind           units.Pressure `yaml:"wind" default:"0.72 kPa" source:"ACI 347, least wind on wall forms, 15 psf, from memory" safer:"more" min:"0 kPa" max:"5 kPa" doc:"Pressure of the wind, whichever way it blows."`
	Shape          units.Number   `yaml:"shape" default:"1.5" source:"judgement, on the outline as if it were closed" safer:"more" min:"0" max:"4" doc:"Shape coefficient of the wind on the carrier's outline."`
	Notional       units.Number   `yaml:"notional" default:"0.025" source:"BS 5975, 2.5 % of the vertical load, from memory" safer:"more" min:"0.001" max:"0.2" doc:"Horizontal load in any direction, as a share of what the carrier weighs, at least."`
	Friction       *units.Number  `yaml:"friction" example:"0.3" above:"0" max:"1" doc:"Friction of the jack plates on the invert; it needs friction_source. Left out, none is counted."`
	FrictionSource string         `yaml:"friction_source" optional:"true" example:"pull test on the slab" doc:"Where friction is from, in the words of whoever answers for it."`
	Anchor         *units.Force   `yaml:"anchor" rated:"true" example:"15 kN" above:"0 kN" max:"10000 kN" doc:"What anchors or guys hold the carrier with along the cell while it stands on its jack plates."`
	Chocks         *units.Force   `yaml:"chocks" rated:"true" example:"10 kN" above:"0 kN" max:"10000 kN" doc:"What the chocks under the wheels hold along the cell while the carrier is parked."`
}

// Check asks where friction that is counted on is from.
func (s *Stand) Check(d *Decoder, path string) {
	if s.Friction != nil && strings.TrimSpace(s.FrictionSource) == "" {
		d.FailAt(path+".friction", fmt.Sprintf("%g is counted on for holding the carrier, and nobody says where it is from", float64(*s.Friction)),
			"without it no friction is counted on", `leave it out, or write beside it for example friction_source: "pull test on the slab"`)
	}
}

// Anchors are what the lines are made fast to; nil is not stated.
type Anchors struct {
	Line      *Anchorage `yaml:"line" doc:"Anchor of the pulling line: of the winch, or of the block that turns the rope."`
	Restraint *Anchorage `yaml:"restraint" doc:"Anchor of the restraint."`
}

// Anchorage is what a line is made fast to.
type Anchorage struct {
	Capacity *units.Force `yaml:"capacity" rated:"true" example:"30 kN" above:"0 kN" max:"10000 kN" doc:"What the anchor, its fixing in the concrete and shackles included, holds in the direction of the rope."`
	Parts    units.Number `yaml:"parts" default:"1" source:"the rope by itself" safer:"more" min:"0.5" max:"12" doc:"Pull on the anchor over pull on the carrier: 1 where the rope goes straight, 2 where a block at the anchor turns it back."`
	Snatch   units.Number `yaml:"snatch" default:"2" source:"statics: a load let go suddenly onto a line pulls twice as hard" safer:"more" min:"1" max:"10" doc:"What jerks multiply the pull by."`
}

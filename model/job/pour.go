package job

import (
	"fmt"
	"strings"

	"boxwalk/model/units"
)

// Pour is how walls and roof are placed. What makes the pressure less than the full
// head has no default: a method that lacks it stays open.
type Pour struct {
	Pressure        string          `yaml:"pressure" default:"fluid" enum:"fluid|ACI 347|DIN 18218|CIRIA 108" doc:"By what the pressure of the fresh concrete is worked out. fluid: its full head, which is never less than any of the others."`
	Slump           *units.Length   `yaml:"slump" example:"120 mm" above:"0 mm" max:"500 mm" doc:"Slump when placed, the most of it (ACI 347)."`
	Consistency     string          `yaml:"consistency" optional:"true" example:"F3" enum:"F1|F2|F3|F4|F5|F6|SCC" doc:"Consistency class (DIN 18218); SCC is self-compacting, for ACI 347 too."`
	SetEnd          *units.Duration `yaml:"set_end" example:"7 h" above:"0 h" max:"100 h" doc:"End of setting after mixing, the most of it (DIN 18218, 5 to 20 h)."`
	Reference       bool            `yaml:"reference_conditions" default:"false" doc:"The concrete is not colder than its reference temperature, is placed from above and vibrated internally (DIN 18218); whoever writes so answers for it."`
	Retarder        string          `yaml:"retarder" optional:"true" example:"none" enum:"none|some|heavy" doc:"Admixtures that delay set, a superplasticiser included (ACI 347, CIRIA 108); heavy: heavily retarded, or high-slag (CIRIA 108)."`
	Binder          string          `yaml:"binder" optional:"true" example:"portland" enum:"portland|blend|rich blend" doc:"portland: Type I, II or III. blend: another type, or less than 70 % slag or 40 % fly ash. rich blend: more of either (ACI 347; CIRIA 108 knows a blend as retarded, a rich one as heavily retarded)."`
	Vibration       string          `yaml:"vibration" optional:"true" example:"internal" enum:"internal|internal deep|external" doc:"internal: to 1.2 m (4 ft) below the surface (ACI 347). deep: deeper."`
	Roof            RoofPour        `yaml:"roof" optional:"true" doc:"What comes on the roof form while it is poured."`
	Shores          []Shore         `yaml:"shores" optional:"true" maxitems:"6" doc:"Extra shores under every header's tube while the roof is poured; they come out before the collapse begins."`
	FromBelow       bool            `yaml:"from_below" default:"false" doc:"Pumped up from the base of the form: the full head and a quarter more, whatever the method (ACI 347, second-hand)."`
	LevelDifference units.Length    `yaml:"level_difference" default:"500 mm" source:"judgement" safer:"more" min:"0 m" max:"30 m" doc:"Most by which the concrete stands higher in one wall of a cell than in the other while it is placed."`
	Bulkhead        string          `yaml:"bulkhead" default:"carrier" enum:"carrier|apart" doc:"What the bulkheads (stop ends) push on: carrier, the form and the carrier; apart, something that stands by itself."`
	Anchor          *units.Force    `yaml:"anchor" rated:"true" example:"60 kN" above:"0 kN" doc:"What keeps the carrier from sliding along and across while the concrete is placed, whichever way it slides: anchors to invert or pour before, friction aside."`
	Friction        *units.Number   `yaml:"friction" example:"0.3" above:"0" max:"1" doc:"Friction of the jack plates on the invert, which holds the carrier too; it needs friction_source. Left out, none is counted."`
	FrictionSource  string          `yaml:"friction_source" optional:"true" example:"pull test on the slab" doc:"Where friction is from, in the words of whoever answers for it."`
}

// Steel is the cross-section of a straight bar.
type Steel struct {
	A units.Area    `yaml:"A" example:"5.6 cm2" above:"0 cm2" doc:"Area."`
	I units.Inertia `yaml:"I" example:"13.8 cm4" above:"0 cm4" doc:"Least second moment of area."`
}

// Check asks where friction that is counted on is from.
func (p *Pour) Check(d *Decoder, path string) {
	if p.Friction != nil && strings.TrimSpace(p.FrictionSource) == "" {
		d.FailAt(path+".friction", fmt.Sprintf("%g is counted on for holding the carrier, and nobody says where it is from", float64(*p.Friction)),
			"without it no friction is counted on", `leave it out, or write beside it for example friction_source: "pull test on the slab"`)
	}
}

// RoofPour is what comes on the roof form beside the slab.
type RoofPour struct {
	Rule  string           `yaml:"rule" default:"ACI 347" enum:"ACI 347|AASHTO|California" doc:"By whose least loads: ACI 347-04 2.2.1; the AASHTO guide for bridge temporary works (from memory), with its load along the edges; California 8 CCR 1717(a) (second-hand)."`
	Live  units.Pressure   `yaml:"live" default:"0 kPa" source:"the rule's least" min:"0 kPa" max:"100 kPa" doc:"People and equipment; never less than the least of the rule."`
	Carts string           `yaml:"carts" default:"none" enum:"none|hand|motorised" doc:"Carts that carry concrete over the roof."`
	Bars  units.UnitWeight `yaml:"bars" default:"1 kN/m3" source:"EN 1991-1-1, usual reinforcement, from memory" safer:"more" min:"0 kN/m3" max:"10 kN/m3" doc:"What the reinforcement adds to concrete.unit_weight."`
}

// Shore is an extra support under every header.
type Shore struct {
	At       units.Length `yaml:"at" example:"0 m" min:"-15 m" max:"15 m" doc:"Place left of the cell's centreline, under the header's tube."`
	Capacity *units.Force `yaml:"capacity" rated:"true" example:"40 kN" above:"0 kN" max:"10000 kN" doc:"What one shore carries at its length."`
}

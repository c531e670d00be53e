package job

import (
	"fmt"

	"boxwalk/model/units"
)

// Flown is something that a crane lifts, on slings.
type Flown struct {
	What   string       `yaml:"what" maxlength:"60" example:"outside panel" doc:"What is flown, as lists name it."`
	Of     string       `yaml:"of" default:"stated" enum:"stated|carrier|half|wall panel|corner panel|roof panel|filler" doc:"What of the carrier it is, heaviest of its kind: the whole as raised, all faces of one side with walers and stringers, or one panel. stated: something else, of a mass of its own, such as an outside panel, a bulkhead or the invert's form."`
	Mass   *units.Mass  `yaml:"mass" example:"450 kg" above:"0 kg" max:"200000 kg" doc:"Its mass where it is none of the carrier's, or as it was weighed, which governs."`
	Legs   int          `yaml:"legs" min:"1" max:"4" doc:"Sling legs from the hook. Of three or four, two are taken to carry it all."`
	Angle  units.Angle  `yaml:"angle" default:"45 deg" source:"judgement" safer:"more" min:"0 deg" max:"60 deg" doc:"Of a leg from the vertical, at most; 60 deg is the most that is usual (EN 13414, from memory). A single leg hangs plumb."`
	Apart  units.Length `yaml:"apart" default:"0 m" source:"not stated" min:"0 m" max:"60 m" doc:"Distance between lifting points along what is flown; 0 is not stated."`
	Across units.Length `yaml:"across" default:"0 m" source:"not stated" min:"0 m" max:"60 m" doc:"Distance between lifting points across it; 0 where they stand in one line."`
	Off    units.Length `yaml:"off" default:"0 mm" source:"the middle unless given" safer:"more" min:"0 mm" max:"20 m" doc:"How far the middle of the lifting points may be from the middle of the form, or of what is flown."`
	Jerks  units.Number `yaml:"jerks" default:"1.3" source:"crane on firm ground, guides on lifting precast concrete, from memory" safer:"more" min:"1" max:"4" doc:"What lifting, swinging and setting down multiply the weight by."`
	Sling  *units.Force `yaml:"sling" rated:"true" example:"20 kN" above:"0 kN" max:"10000 kN" doc:"What one leg holds in its own direction, at that angle."`
	Point  *units.Force `yaml:"point" rated:"true" example:"20 kN" above:"0 kN" max:"10000 kN" doc:"What one lifting point holds in the direction of the leg, its fixing included."`
	Hook   *units.Force `yaml:"hook" rated:"true" example:"80 kN" above:"0 kN" max:"100000 kN" doc:"What the crane lifts at the greatest radius of this lift, without hook block and slings."`
}

// Check asks for a mass of what the carrier does not tell, and for places of two legs.
func (f *Flown) Check(d *Decoder, path string) {
	if f.Of == "stated" && f.Mass == nil {
		d.FailAt(path, fmt.Sprintf("does not say what %q weighs", f.What), "it is none of the carrier's panels", "write for example mass: 450 kg, or of: wall panel")
	}
	if f.Legs > 1 && f.Apart == 0 && f.Across == 0 {
		d.FailAt(path+".legs", fmt.Sprintf("%d legs hang at one place", f.Legs), "", "write how far the lifting points are apart, for example apart: 1.8 m")
	}
}

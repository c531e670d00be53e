package job

import "boxwalk/model/units"

// Pour is how walls and roof are placed. What makes the pressure less than the full
// head has no default: a method that lacks it stays open.
type Pour struct {
	Pressure    string          `yaml:"pressure" default:"fluid" enum:"fluid|ACI 347|DIN 18218|CIRIA 108" doc:"By what the pressure of the fresh concrete is worked out. fluid: its full head, which is never less than any of the others."`
	Slump       *units.Length   `yaml:"slump" example:"120 mm" above:"0 mm" max:"500 mm" doc:"Slump when placed, the most of it (ACI 347)."`
	Consistency string          `yaml:"consistency" optional:"true" example:"F3" enum:"F1|F2|F3|F4|F5|F6|SCC" doc:"Consistency class (DIN 18218); SCC is self-compacting, for ACI 347 too."`
	SetEnd      *units.Duration `yaml:"set_end" example:"7 h" above:"0 h" max:"100 h" doc:"End of setting after mixing, the most of it (DIN 18218, 5 to 20 h)."`
	Reference   bool            `yaml:"reference_conditions" default:"false" doc:"The concrete is not colder than its reference temperature, is placed from above and vibrated internally (DIN 18218); whoever writes so answers for it."`
	Retarder    string          `yaml:"retarder" optional:"true" example:"none" enum:"none|some|heavy" doc:"Admixtures that delay set, a superplasticiser included (ACI 347, CIRIA 108); heavy: heavily retarded, or high-slag (CIRIA 108)."`
	Binder      string          `yaml:"binder" optional:"true" example:"portland" enum:"portland|blend|rich blend" doc:"portland: Type I, II or III. blend: another type, or less than 70 % slag or 40 % fly ash. rich blend: more of either (ACI 347; CIRIA 108 knows a blend as retarded, a rich one as heavily retarded)."`
	Vibration   string          `yaml:"vibration" optional:"true" example:"internal" enum:"internal|internal deep|external" doc:"internal: to 1.2 m (4 ft) below the surface (ACI 347). deep: deeper."`
	FromBelow   bool            `yaml:"from_below" default:"false" doc:"Pumped up from the base of the form: the full head and a quarter more, whatever the method (ACI 347, second-hand)."`
}

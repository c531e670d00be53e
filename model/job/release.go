package job

import (
	"fmt"
	"strings"

	"boxwalk/model/units"
)

// Release is what the specification asks for before the forms of walls and roof are
// freed. Nothing of it has a default: what is not stated is asked for.
type Release struct {
	Walls *ReleaseOf `yaml:"walls" doc:"What the specification asks for before anything of the wall forms is freed, ties included."`
	Roof  *ReleaseOf `yaml:"roof" doc:"What the specification asks for before anything of the roof form is freed, fillers included."`
	Bond  Bond       `yaml:"bond" optional:"true" doc:"What holds faces to the concrete until the form comes off."`
	Air   *Curing    `yaml:"air" doc:"Temperature of the air since casting of walls and roof, for least times: a mean, a list of {for, at}, or a CSV file beside the job. Hours below 10 degC do not count toward a least time."`
}

// Bond between faces and concrete, as a range: what it is nobody knows before.
type Bond struct {
	Least units.Pressure `yaml:"least" default:"0.5 kPa" source:"judgement: a smooth face, oiled well" min:"0 kPa" max:"20 kPa" doc:"Least bond between a face and the concrete."`
	Most  units.Pressure `yaml:"most" default:"2 kPa" source:"judgement; guides on lifting precast concrete take as much for varnished timber and half as much for oiled steel (from memory)" safer:"more" min:"0 kPa" max:"20 kPa" doc:"Most bond between a face and the concrete."`
}

// Check asks that the least is not above the most.
func (b *Bond) Check(d *Decoder, path string) {
	if b.Least > b.Most {
		most := units.KindPressure.Text(float64(b.Most), d.System())
		d.FailAt(path+".least", units.KindPressure.Text(float64(b.Least), d.System())+" is above the most", "the most is "+most, "write at most "+most)
	}
}

// ReleaseOf is what is asked for of one part of the concrete; nil is not asked for. All
// that is stated must hold.
type ReleaseOf struct {
	Strength  *units.Pressure `yaml:"strength" example:"5 MPa" above:"0 MPa" max:"200 MPa" doc:"Least strength of the concrete when the form is freed."`
	Share     *units.Number   `yaml:"share" example:"0.7" above:"0" max:"1" doc:"Least share of concrete.strength when the form is freed."`
	Least     *units.Duration `yaml:"least" example:"4 d" above:"0 h" max:"365 d" doc:"Least time between casting and release, counted in hours with air at 10 degC and above (release.air)."`
	TimeAlone string          `yaml:"time_alone" optional:"true" example:"specification, clause 5.4" doc:"Where the specification lets the least time stand for a strength that is not known: the place where it says so, in the words of whoever answers for it. Without it a time alone never passes."`
}

// Check asks that a time that stands for the strength is stated.
func (r *ReleaseOf) Check(d *Decoder, path string) {
	if strings.TrimSpace(r.TimeAlone) != "" && r.Least == nil {
		d.FailAt(path+".time_alone", "lets a time stand for the strength that is not stated", "", "write beside it for example least: 4 d")
	}
}

// Calibration is the strength of the mix of walls and roof by its maturity, from tests of
// that mix. Which numbers it has hangs on the curve.
type Calibration struct {
	Curve     string             `yaml:"curve" enum:"logarithmic|hyperbolic|exponential" doc:"logarithmic: a + b log10 M, M the temperature-time factor above datum in degC h. hyperbolic: ultimate k (t - start) / (1 + k (t - start)), exponential: ultimate exp(-(tau / t)^beta), t the equivalent age by q and reference."`
	Source    string             `yaml:"source" example:"trial mix 3, tests of 12 March" doc:"Where the numbers are from: tests of this mix."`
	A         *units.Pressure    `yaml:"a" example:"-33 MPa" min:"-500 MPa" max:"200 MPa" doc:"Strength at M = 1 degC h by the logarithmic curve, mostly negative."`
	B         *units.Pressure    `yaml:"b" example:"21 MPa" above:"0 MPa" max:"200 MPa" doc:"Gain for ten times the maturity by the logarithmic curve."`
	Datum     *units.Temperature `yaml:"datum" example:"0 degC" min:"-11 degC" max:"10 degC" doc:"Datum temperature of the temperature-time factor that the tests were worked with (logarithmic)."`
	Ultimate  *units.Pressure    `yaml:"ultimate" example:"30 MPa" above:"0 MPa" max:"200 MPa" doc:"Strength that the curve tends to."`
	K         *units.Number      `yaml:"k" example:"0.5" above:"0" max:"50" doc:"Rate constant per day (hyperbolic)."`
	Start     *units.Duration    `yaml:"start" example:"5 h" min:"0 h" max:"7 d" doc:"Equivalent age at which strength begins (hyperbolic)."`
	Tau       *units.Duration    `yaml:"tau" example:"20 h" above:"0 h" max:"100 d" doc:"Time constant (exponential)."`
	Beta      *units.Number      `yaml:"beta" example:"0.9" above:"0" max:"10" doc:"Shape (exponential)."`
	Q         *units.Number      `yaml:"q" example:"5000" min:"3000" max:"8000" doc:"Activation energy over the gas constant, kelvin, that the tests were worked with (hyperbolic, exponential)."`
	Reference *units.Temperature `yaml:"reference" example:"20 degC" min:"10 degC" max:"30 degC" doc:"Reference temperature of the equivalent age that the tests were worked with (hyperbolic, exponential)."`
}

// Check asks for the numbers of the curve and for no others.
func (c *Calibration) Check(d *Decoder, path string) {
	curve := map[string]string{"logarithmic": "a b datum", "hyperbolic": "ultimate k start q reference", "exponential": "ultimate tau beta q reference"}[c.Curve]
	for _, n := range []struct{ key, example string }{{"a", "-33 MPa"}, {"b", "21 MPa"}, {"datum", "0 degC"}, {"ultimate", "30 MPa"}, {"k", "0.5"}, {"start", "5 h"},
		{"tau", "20 h"}, {"beta", "0.9"}, {"q", "5000"}, {"reference", "20 degC"}} {
		wanted, given := strings.Contains(" "+curve+" ", " "+n.key+" "), d.Given(path+"."+n.key)
		switch {
		case wanted && !given:
			d.FailAt(path, fmt.Sprintf("has no %s, which a %s curve has", n.key, c.Curve), "", "add "+n.key+": "+n.example)
		case given && !wanted:
			d.FailAt(path+"."+n.key, fmt.Sprintf("is no number of a %s curve", c.Curve), "it has "+strings.ReplaceAll(curve, " ", ", "), "take it out")
		}
	}
}

package statics

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Fresh is the concrete of walls and roof, placed in one go, as it presses on the form
// of a cell: from the kicker to the top of the roof.
type Fresh struct {
	Base, Top float64 // m above the invert
	Weight    float64 // kN/m³
	Pumped    float64 // what the head is multiplied by: 1, or 1.25 pumped up from the base
	Most      float64 // kPa, the greatest on an upright face
	Diagram   load.Diagram
	Source    string

	ACI   *load.Lateral // by the method that the job names; none of them by the full head
	DIN   *load.DINLateral
	CIRIA *load.CIRIALateral
	Given load.Fresh // what went into ACI 347, as far as it is stated
}

// Missing are the keys of the job file that a method of pressure needs and that the
// job does not state.
type Missing struct{ Keys []string }

func (m *Missing) Error() string { return "not stated: " + strings.Join(m.Keys, ", ") }

// PumpedFromBase is what ACI 347 asks for where concrete is pumped up from the base of
// a form: the full head and at least a quarter of it for the surge of the pump.
const PumpedFromBase = 1.25

// FreshOf works the pressure of a cell's fresh concrete out by the method that the job
// names: its full head unless that says otherwise. Errors: *[Missing]; a formula
// outside its range, which wraps [load.ErrRange].
func FreshOf(j *job.Job, sec culvert.Section, s units.System) (Fresh, error) {
	f := Fresh{Base: sec.Kicker, Top: sec.Rise + sec.Roof, Weight: float64(j.Concrete.UnitWeight), Pumped: 1, Source: "hydrostatics (derived)"}
	high := f.Top - f.Base
	if !(high > 0) {
		return f, fmt.Errorf("%w: no height of fresh concrete", load.ErrRange)
	}
	method := j.Pour.Pressure
	if j.Pour.FromBelow {
		method = "fluid"
		f.Pumped, f.Source = PumpedFromBase, "ACI 347R-14 §4.2.2, pumped up from the base (second-hand)"
	}
	envelope, err := f.by(method, j, units.Length(high), s)
	if err != nil {
		return f, err
	}
	d, err := envelope.Diagram()
	if err != nil {
		return f, err
	}
	for i := range d {
		d[i].Up += units.Length(f.Base)
	}
	f.Diagram, f.Most = d, float64(d[0].Pressure)
	return f, nil
}

// by is the envelope of a method over a height.
func (f *Fresh) by(method string, j *job.Job, high units.Length, s units.System) (load.Envelope, error) {
	switch method {
	case "ACI 347":
		return f.byACI(j, high, s)
	case "DIN 18218":
		return f.byDIN(j, high)
	case "CIRIA 108":
		return f.byCIRIA(j, high)
	}
	head := f.Weight * f.Pumped
	return load.Envelope{Gradient: head, Height: high, Pressure: units.Pressure(head * float64(high))}, nil
}

// asked collects what a method needs and what of that is missing.
type asked struct{ keys []string }

func (a *asked) has(key string, stated bool) {
	if !stated {
		a.keys = append(a.keys, key)
	}
}

func (a *asked) err() error {
	if a.keys == nil {
		return nil
	}
	return &Missing{a.keys}
}

func (a *asked) rate(j *job.Job) units.Rate {
	a.has("concrete.rise_rate", j.Concrete.RiseRate != nil)
	if j.Concrete.RiseRate == nil {
		return 0
	}
	return *j.Concrete.RiseRate
}

func (a *asked) warmth(j *job.Job) units.Temperature {
	a.has("concrete.temperature", j.Concrete.Temperature != nil)
	if j.Concrete.Temperature == nil {
		return 0
	}
	return *j.Concrete.Temperature
}

func (f *Fresh) byACI(j *job.Job, high units.Length, s units.System) (load.Envelope, error) {
	var a asked
	p := j.Pour
	in := load.Fresh{UnitWeight: j.Concrete.UnitWeight, Height: high, Rate: a.rate(j), Temperature: a.warmth(j), Element: load.Wall,
		Vibration:      map[string]load.Vibration{"internal": load.InternalShallow, "internal deep": load.InternalDeep, "external": load.External}[p.Vibration],
		Binder:         map[string]load.Binder{"portland": load.Portland, "blend": load.Blend, "rich blend": load.RichBlend}[p.Binder],
		Retarding:      map[string]load.Retarding{"none": load.NotRetarded, "some": load.Retarded, "heavy": load.Retarded}[p.Retarder],
		SelfCompacting: p.Consistency == "SCC"}
	if p.Slump != nil {
		in.Slump = *p.Slump
	}
	a.has("pour.slump", p.Slump != nil || in.SelfCompacting)
	a.has("pour.vibration", p.Vibration != "")
	a.has("pour.binder", p.Binder != "")
	a.has("pour.retarder", p.Retarder != "")
	if err := a.err(); err != nil {
		return load.Envelope{}, err
	}
	formula := load.ACI347SI
	if s == units.Imperial {
		formula = load.ACI347InchPound
	}
	l, err := formula(in)
	f.ACI, f.Given, f.Source = &l, in, l.Source.String()
	return l.Envelope, err
}

func (f *Fresh) byDIN(j *job.Job, high units.Length) (load.Envelope, error) {
	var a asked
	p := j.Pour
	in := load.DIN18218{UnitWeight: j.Concrete.UnitWeight, Height: high, Rate: a.rate(j), AtReference: p.Reference,
		Consistency: map[string]load.Consistency{"F1": load.F1, "F2": load.F2, "F3": load.F3, "F4": load.F4, "F5": load.F5, "F6": load.F6, "SCC": load.SCC}[p.Consistency]}
	if p.SetEnd != nil {
		in.SetEnd = *p.SetEnd
	}
	a.has("pour.consistency", p.Consistency != "")
	a.has("pour.set_end", p.SetEnd != nil)
	a.has("pour.reference_conditions", p.Reference)
	if err := a.err(); err != nil {
		return load.Envelope{}, err
	}
	l, err := in.Pressure()
	f.DIN, f.Source = &l, l.Source.String()
	return l.Envelope, err
}

func (f *Fresh) byCIRIA(j *job.Job, high units.Length) (load.Envelope, error) {
	var a asked
	p := j.Pour
	in := load.CIRIA108{UnitWeight: j.Concrete.UnitWeight, FormHeight: high, PourHeight: high, Rate: a.rate(j), Temperature: a.warmth(j), Element: load.Wall, Group: ciriaGroup(p)}
	a.has("pour.binder", p.Binder != "")
	a.has("pour.retarder", p.Retarder != "")
	if err := a.err(); err != nil {
		return load.Envelope{}, err
	}
	l, err := in.Pressure()
	f.CIRIA, f.Source = &l, l.Source.String()
	return l.Envelope, err
}

// ciriaGroup is the worse of what binder and retarder make of a mix.
func ciriaGroup(p job.Pour) load.CIRIAGroup {
	by := max(map[string]int{"portland": 1, "blend": 2, "rich blend": 3}[p.Binder], map[string]int{"none": 1, "some": 2, "heavy": 3}[p.Retarder])
	return map[int]load.CIRIAGroup{1: load.CIRIABasic, 2: load.CIRIARetarded, 3: load.CIRIAHeavilyRetarded}[by]
}

// Upright is the pressure on an upright face at a height, kPa.
func (f Fresh) Upright(z float64) float64 { return math.Min(f.Most, f.Head(z)) }

// Head is the full head at a height with what a pump adds, kPa: what presses on a level
// or sloping face, where a vault in the concrete relieves nothing.
func (f Fresh) Head(z float64) float64 {
	return f.Weight * f.Pumped * math.Max(0, f.Top-math.Max(z, f.Base))
}

// Between is the resultant of the pressure on an upright strip a metre wide between two
// heights, kN.
func (f Fresh) Between(z0, z1 float64) (float64, error) {
	if z0 = math.Max(z0, f.Base); z1 <= z0 {
		return 0, nil
	}
	t, err := f.Diagram.On(load.Outline{{Along: 0, Up: units.Length(z0)}, {Along: 1, Up: units.Length(z0)}, {Along: 1, Up: units.Length(z1)}, {Along: 0, Up: units.Length(z1)}})
	return float64(t.Force), err
}

// IsMissing tells whether an error is of keys that the job does not state.
func IsMissing(err error) (*Missing, bool) {
	var m *Missing
	return m, errors.As(err, &m)
}

package load

import (
	"errors"

	"boxwalk/model/units"
)

// Element tells a wall from a column, as the pressure formulas do.
type Element uint8

// The elements; the zero value is an error. A wall has a plan dimension above
// 2 m (ACI 347: 6.5 ft), a column has none.
const (
	ElementUnset Element = iota
	Wall
	Column
)

// Vibration tells how the concrete is consolidated; the zero value is an error.
type Vibration uint8

// Internal vibration to 1.2 m (4 ft) below the surface, deeper, or external.
const (
	VibrationUnset Vibration = iota
	InternalShallow
	InternalDeep
	External
)

// Binder groups cements as the chemistry coefficient Cc does; the zero value is
// an error.
type Binder uint8

// Portland is Type I, II or III. Blend is any other type, or a blend with less
// than 70 % slag or 40 % fly ash. RichBlend has more of either.
const (
	BinderUnset Binder = iota
	Portland
	Blend
	RichBlend
)

// Retarding tells whether an admixture delays set, a superplasticiser
// included; the zero value is an error.
type Retarding uint8

// Without or with an admixture that delays set.
const (
	RetardingUnset Retarding = iota
	NotRetarded
	Retarded
)

// Fresh is fresh concrete in a form. Every field must be given, save
// SelfCompacting and PumpedFromBase, which most pours are not.
type Fresh struct {
	UnitWeight     units.UnitWeight  // kN/m³
	Height         units.Length      // m, of fresh concrete in this placement
	Rate           units.Rate        // m/s, rise in the form
	Temperature    units.Temperature // °C, of the concrete
	Slump          units.Length      // m; not needed when self-compacting
	Element        Element
	Vibration      Vibration
	Binder         Binder
	Retarding      Retarding
	SelfCompacting bool
	PumpedFromBase bool // pumped up from the base of the form
}

// Ranges of fresh concrete. Judgement: ACI 347 prints no ends for its
// equations; these hold every concrete that may be placed in a culvert without
// special measures (cold or hot weather), and nothing else is answered.
const (
	leastUnitWeight, mostUnitWeight = 12, 40 // kN/m³
	mostHead                        = 30     // m
	mostRate                        = 50     // m/h
	leastFresh, mostFresh           = 4, 40  // °C
	mostSlump                       = 0.5    // m
)

// check refuses whatever is out of range or was left out.
func (f Fresh) check() error {
	return errors.Join(
		freshNumbers(f.UnitWeight, f.Height, f.Rate, f.Temperature),
		f.Element.check(),
		f.slumpCheck(),
		chosen("vibration", uint8(f.Vibration), uint8(External)),
		chosen("binder", uint8(f.Binder), uint8(RichBlend)),
		chosen("retarding", uint8(f.Retarding), uint8(Retarded)))
}

func freshNumbers(w units.UnitWeight, h units.Length, r units.Rate, t units.Temperature) error {
	return errors.Join(
		within("unit weight", float64(w), leastUnitWeight, mostUnitWeight, "kN/m³"),
		above("height of fresh concrete", float64(h), 0, mostHead, "m"),
		above("rate of rise", perHour(r), 0, mostRate, "m/h"),
		within("concrete temperature", float64(t), leastFresh, mostFresh, "°C"))
}

func (e Element) check() error { return chosen("wall or column", uint8(e), uint8(Column)) }

func (f Fresh) slumpCheck() error {
	if f.SelfCompacting {
		return nil
	}
	return above("slump", float64(f.Slump), 0, mostSlump, "m")
}

// chosen refuses the zero value of a choice and anything past its last.
func chosen(what string, v, last uint8) error {
	if v == 0 || v > last {
		return missing(what)
	}
	return nil
}

// Chemistry returns Cc of ACI 347: Portland 1.0, retarded 1.2; Blend 1.2,
// retarded 1.4; RichBlend 1.4 (ACI 347R-14 Table 4.2.2.1a(c), second-hand).
func Chemistry(b Binder, r Retarding) (float64, error) {
	if err := errors.Join(chosen("binder", uint8(b), uint8(RichBlend)), chosen("retarding", uint8(r), uint8(Retarded))); err != nil {
		return 0, err
	}
	return chemistry[b][r], nil
}

var chemistry = [...][3]float64{
	Portland:  {NotRetarded: 1.0, Retarded: 1.2},
	Blend:     {NotRetarded: 1.2, Retarded: 1.4},
	RichBlend: {NotRetarded: 1.4, Retarded: 1.4},
}

package load

import (
	"errors"

	"boxwalk/model/units"
)

// Carts tells what carries concrete over the roof.
type Carts uint8

// Without carts, with hand carts, with motorised carts.
const (
	NoCarts Carts = iota
	HandCarts
	MotorCarts
)

// Roof is a roof slab on its form before it carries itself.
type Roof struct {
	Thickness  units.Length
	UnitWeight units.UnitWeight // kN/m³, of the concrete with its bars
	Form       units.Pressure   // kPa, weight of form and carrier over its area
	Live       units.Pressure   // kPa, construction live load; raised to the least where below
	Carts      Carts
}

// Vertical is the vertical load on a roof form.
type Vertical struct {
	Concrete units.Pressure // kPa
	Dead     units.Pressure // kPa, concrete and form
	Live     units.Pressure // kPa
	Total    units.Pressure // kPa, the greater of dead + live and the least
	Minimum  bool           // the least combined load governs
	Source   Source
}

// verticalRule is a set of least loads in kPa; live by Carts.
type verticalRule struct {
	live, total [3]float64
	formCounts  bool // the form's weight counts toward the least live load
	source      Source
}

// ACI 347 hard-converts 50, 75, 100, 125 psf to 2.4, 3.6, 4.8, 6.0 kPa. It
// knows no hand carts apart.
var (
	aciVertical = [...]verticalRule{
		units.Metric: {[3]float64{2.4, 2.4, 3.6}, [3]float64{4.8, 4.8, 6.0}, false,
			Source{"ACI 347-04 §2.2.1: live load read in NAVEDTRA 14045, combined second-hand", SecondHand}},
		units.Imperial: {[3]float64{50 * psf, 50 * psf, 75 * psf}, [3]float64{100 * psf, 100 * psf, 125 * psf}, false,
			Source{"ACI 347-04 §2.2.1: live load read in NAVEDTRA 14045, combined second-hand", SecondHand}},
	}
	californiaVertical = verticalRule{[3]float64{20 * psf, 30 * psf, 45 * psf}, [3]float64{100 * psf, 100 * psf, 100 * psf}, true,
		Source{"California 8 CCR 1717(a), quoted in a mailing list", SecondHand}}
)

func (r Roof) check() error {
	err := errors.Join(
		above("roof thickness", float64(r.Thickness), 0, 5, "m"),
		within("unit weight", float64(r.UnitWeight), leastUnitWeight, mostUnitWeight, "kN/m³"),
		within("weight of the form", float64(r.Form), 0, 100, "kPa"),
		within("live load", float64(r.Live), 0, 1000, "kPa"))
	if r.Carts > MotorCarts {
		return errors.Join(err, missing("carts"))
	}
	return err
}

// ACI347 returns dead plus live load by ACI 347: live not below 2.4 kPa (50
// psf), 3.6 (75) with motorised carts; combined not below 4.8 kPa (100 psf),
// 6.0 (125) with motorised carts. Each system of units has its own numbers.
// Range: thickness to 5 m, 12 to 40 kN/m³. Source: ACI 347-04 §2.2.1: live load
// read in NAVEDTRA 14045, combined second-hand.
func (r Roof) ACI347(s units.System) (Vertical, error) {
	if s > units.Imperial {
		return Vertical{}, missing("system of units")
	}
	return r.vertical(&aciVertical[s])
}

// California returns dead plus live load by 8 CCR 1717(a): live load and form
// together not below 20 psf beyond the concrete, 10 psf more with hand carts,
// 25 more with motorised carts; total not below 100 psf. Source: second-hand.
func (r Roof) California() (Vertical, error) { return r.vertical(&californiaVertical) }

func (r Roof) vertical(rule *verticalRule) (Vertical, error) {
	if err := r.check(); err != nil {
		return Vertical{}, err
	}
	concrete := float64(r.Thickness) * float64(r.UnitWeight)
	least := rule.live[r.Carts]
	if rule.formCounts {
		least = max(0, least-float64(r.Form))
	}
	dead, live := concrete+float64(r.Form), max(float64(r.Live), least)
	total := max(dead+live, rule.total[r.Carts])
	return Vertical{
		Concrete: units.Pressure(concrete), Dead: units.Pressure(dead), Live: units.Pressure(live),
		Total: units.Pressure(total), Minimum: total > dead+live, Source: rule.source,
	}, nil
}

// BridgeWorks is the rule of the AASHTO guide specification for bridge temporary
// works as this project remembers it.
type BridgeWorks struct {
	Total  units.Pressure // kPa over the area
	Edge   LineLoad       // kN/m along the deck edge
	Source Source
}

// AASHTOTemporary returns thickness times 160 pcf (normal-weight concrete,
// steel and forms) plus 20 psf, not below 100 psf, and 75 lb/ft at the deck
// edge; equipment is on top. Source: AASHTO Guide Design Specifications for
// Bridge Temporary Works, FHWA-RD-93-034 (memory).
func AASHTOTemporary(thickness units.Length) (BridgeWorks, error) {
	if err := above("roof thickness", float64(thickness), 0, 5, "m"); err != nil {
		return BridgeWorks{}, err
	}
	total := max(float64(thickness)*160*pcf+20*psf, 100*psf)
	return BridgeWorks{units.Pressure(total), LineLoad(75 * plf), Source{"AASHTO Guide Design Specifications for Bridge Temporary Works", Memory}}, nil
}

// Bracing is a horizontal load along an edge.
type Bracing struct {
	Load    LineLoad // kN per m of edge
	Minimum bool     // the least per metre governs over 2 %
	Source  Source
}

// leastBracing: 100 lb/ft, which ACI 347 gives as 1.5 kN/m in SI (memory).
var leastBracing = [...]float64{units.Metric: 1.5, units.Imperial: 100 * plf}

var slabBracingSource = [...]Source{
	units.Metric:   {"ACI 347: 2 % of dead load or 1.5 kN/m; 2 % read, 1.5 kN/m from memory", Memory},
	units.Imperial: {"ACI 347: 2 % of dead load or 100 lb/ft", Read},
}

// SlabBracing returns the horizontal load in one direction at roof level, per
// metre of edge: 2 % of the total dead load over the width square to that edge,
// and at least 100 lb/ft (1.5 kN/m). For a culvert carrier it is applied both
// ways, with unbalanced wall pressure on top (judgement). Range: dead load
// above 0 to 200 kPa, width to 200 m. Source: ACI 347 (read in lecture
// notebooks that cite SP-4); the 1.5 kN/m from memory.
func SlabBracing(s units.System, dead units.Pressure, width units.Length) (Bracing, error) {
	err := errors.Join(above("dead load", float64(dead), 0, 200, "kPa"), above("width", float64(width), 0, 200, "m"))
	if s > units.Imperial {
		err = errors.Join(err, missing("system of units"))
	}
	if err != nil {
		return Bracing{}, err
	}
	load, least := 0.02*float64(dead)*float64(width), leastBracing[s]
	return Bracing{LineLoad(max(load, least)), load < least, slabBracingSource[s]}, nil
}

// WallBracing returns the horizontal load at the top of a wall form standing in
// the open: wind of at least 0.72 kPa (15 psf) over the height, half of which
// goes to the top, and at least 1.5 kN/m (100 lb/ft). Range: height to 30 m,
// wind to 10 kPa. Source: ACI 347 (memory).
func WallBracing(s units.System, height units.Length, wind units.Pressure) (Bracing, error) {
	err := errors.Join(above("height", float64(height), 0, 30, "m"), within("wind", float64(wind), 0, 10, "kPa"))
	if s > units.Imperial {
		err = errors.Join(err, missing("system of units"))
	}
	if err != nil {
		return Bracing{}, err
	}
	load, least := max(float64(wind), leastWind[s])*float64(height)/2, leastBracing[s]
	return Bracing{LineLoad(max(load, least)), load < least, Source{"ACI 347: wind 15 psf or 100 lb/ft at the top", Memory}}, nil
}

var leastWind = [...]float64{units.Metric: 0.72, units.Imperial: 15 * psf}

// BraceLoad returns the horizontal load on one brace from its spacing along the
// edge (derived).
func BraceLoad(b Bracing, spacing units.Length) (units.Force, error) {
	err := errors.Join(within("bracing load", float64(b.Load), 0, 1e5, "kN/m"), above("spacing", float64(spacing), 0, 200, "m"))
	if err != nil {
		return 0, err
	}
	return units.Force(float64(b.Load) * float64(spacing)), nil
}

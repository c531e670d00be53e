package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Elastic is a material for contact: Young's modulus and Poisson's ratio.
type Elastic struct {
	Modulus units.Pressure // kPa
	Poisson float64
}

// Steel returns E = 200 GPa, ν = 0.3 (common practice).
func Steel() Elastic { return Elastic{200e3 * mpa, 0.3} }

// ConcreteOf returns the elastic constants at a cylinder strength,
// E = 4700 √f'c in MPa, ν = 0.2. Range: 3 to 90 MPa (judgement). Source: ACI
// 318-19 19.2.2.1 (memory).
func ConcreteOf(strength units.Pressure) (Elastic, error) {
	if err := within("strength", float64(strength)/mpa, 3, 90, "MPa"); err != nil {
		return Elastic{}, err
	}
	return Elastic{units.Pressure(4700 * math.Sqrt(float64(strength)/mpa) * mpa), 0.2}, nil
}

func (e Elastic) check(what string) error {
	return errors.Join(
		within("modulus of the "+what, float64(e.Modulus)/mpa, 1, 1e6, "MPa"),
		within("Poisson's ratio of the "+what, e.Poisson, 0, 0.5, ""))
}

// inverse returns (1 − ν²)/E per kPa.
func (e Elastic) inverse() float64 { return (1 - e.Poisson*e.Poisson) / float64(e.Modulus) }

// Contact is a wheel on a flat.
type Contact struct {
	Modulus   units.Pressure // kPa, E*
	HalfWidth units.Length   // m, along the way of travel
	Peak      units.Pressure // kPa
	Mean      units.Pressure // kPa, load over 2a times the tread
	Source    Source
}

var hertzSource = Source{"Hertz line contact; handbook form in Carvill, Mechanical Engineer's Data Handbook, p. 52", Read}

// LineContact returns the elastic contact of a wheel of that radius and tread
// width on a flat:
//
//	1/E* = (1 − ν1²)/E1 + (1 − ν2²)/E2
//	a = √(4 F R/(π L E*)),  pmax = 2 F/(π a L)
//
// F in kN, R and L in m, E in kPa. Range: a up to R/5 (judgement: the theory is
// for small strain); a tread that is thin against a is stiffer than this says,
// so its contact is smaller. On concrete pmax of a steel wheel far exceeds the
// strength: it is no measure of bearing, see [Patch]. Source: Hertz; Carvill,
// Mechanical Engineer's Data Handbook, p. 52 (read).
func LineContact(load units.Force, radius, tread units.Length, wheel, ground Elastic) (Contact, error) {
	err := errors.Join(
		above("wheel load", float64(load), 0, mostForce, "kN"),
		above("wheel radius", float64(radius), 0, 5, "m"),
		above("tread width", float64(tread), 0, 5, "m"),
		wheel.check("wheel"), ground.check("ground"))
	if err != nil {
		return Contact{}, err
	}
	f, r, l := float64(load), float64(radius), float64(tread)
	modulus := 1 / (wheel.inverse() + ground.inverse())
	a := math.Sqrt(4 * f * r / (math.Pi * l * modulus))
	if err := above("half-width of the contact over the radius", a/r, 0, 0.2, ""); err != nil {
		return Contact{}, err
	}
	peak, mean := 2*f/(math.Pi*a*l), f/(2*a*l)
	c := Contact{units.Pressure(modulus), units.Length(a), units.Pressure(peak), units.Pressure(mean), hertzSource}
	return answer("contact", c, modulus, a, peak, mean)
}

// Strength reduction for bearing: ACI 318-19 21.2.1 and AASHTO LRFD 5.5.4.2,
// both from memory.
const (
	PhiACI    = 0.65
	PhiAASHTO = 0.70
)

// LiveFactor is the load factor of ACI 318 on live load, from memory.
const LiveFactor = 1.6

// BearingStrength returns φ Bn = φ 0.85 f'c A1 min(√(A2/A1), 2) in kN, areas in
// m², strength in kPa. A2 is the lower base of the largest frustum, sides 1
// down to 2 out, that fits below A1 inside the support; A2 ≥ A1. Range:
// strength 1 to 90 MPa, φ 0.4 to 1 (judgement). Source: ACI 318-19 table
// 22.8.3.2, AASHTO LRFD 5.6.5 (memory).
func BearingStrength(strength units.Pressure, a1, a2, phi float64) (units.Force, error) {
	err := errors.Join(
		within("strength", float64(strength)/mpa, 1, 90, "MPa"),
		above("loaded area A1", a1, 1e-8, 100, "m²"),
		within("supporting area A2", a2, a1, 1e6, "m²"),
		within("φ", phi, 0.4, 1, ""))
	if err != nil {
		return 0, err
	}
	spread := min(math.Sqrt(max(a2/a1, 1)), 2)
	return units.Force(phi * 0.85 * float64(strength) * a1 * spread), nil
}

// BearingSource is the source of the bearing strength.
func BearingSource() Source {
	return Source{"ACI 318-19 table 22.8.3.2, AASHTO LRFD 5.6.5", Memory}
}

// Patch is the rectangle by which a tread or a jack plate bears on a slab.
type Patch struct {
	Along, Across         units.Length // m, its sides
	EdgeAlong, EdgeAcross units.Length // m, from the patch to the nearest free edge; 0 at the edge
	Depth                 units.Length // m, of the slab; 0 when it must not be counted
}

// TreadPatch returns the patch of a wheel in elastic contact: 2a by the tread,
// at the edge of a slab until the edges and depth are filled in.
func TreadPatch(c Contact, tread units.Length) Patch {
	return Patch{Along: 2 * c.HalfWidth, Across: tread}
}

func (p Patch) check() error {
	return errors.Join(
		above("patch along", float64(p.Along), 1e-4, 10, "m"),
		above("patch across", float64(p.Across), 1e-4, 10, "m"),
		within("edge along", float64(p.EdgeAlong), 0, mostLength, "m"),
		within("edge across", float64(p.EdgeAcross), 0, mostLength, "m"),
		within("slab depth", float64(p.Depth), 0, 10, "m"))
}

// Areas returns A1 and A2 in m² (derived from the wording of ACI 318-19
// 22.8.3.2, memory): A2 is similar to the patch and concentric with it, bounded
// by each edge and by a spread of 2 in 1 down through the slab.
func (p Patch) Areas() (a1, a2 float64, err error) {
	if err := p.check(); err != nil {
		return 0, 0, err
	}
	l, w := float64(p.Along), float64(p.Across)
	scale := min(1+2*float64(p.EdgeAlong)/l, 1+2*float64(p.EdgeAcross)/w, 1+4*float64(p.Depth)/max(l, w))
	return l * w, l * w * scale * scale, nil
}

// Invert is the young slab that wheels and plates stand on.
type Invert struct {
	Strength units.Pressure // kPa, characteristic at 28 days
	Class    CementClass
	Age      units.Duration // s since casting
	Curing   History        // temperatures of the concrete from casting on, as far as Age at least
}

// Equivalent returns the age at 20 °C that its age is worth, see [MC90.At].
func (v Invert) Equivalent() (EquivalentAge, error) { return MC90{}.At(v.Age, v.Curing) }

// StrengthNow returns the characteristic strength at its equivalent age by EN
// 1992-1-1, see [CementClass.CharacteristicAt]: at 3 days and before only tests
// tell, and this is an error.
func (v Invert) StrengthNow() (units.Pressure, error) {
	age, err := v.Equivalent()
	if err != nil {
		return 0, err
	}
	return v.Class.CharacteristicAt(v.Strength, age)
}

// Bearing is a patch on concrete.
type Bearing struct {
	Strength units.Pressure // kPa, of the concrete at its age
	Pressure units.Pressure // kPa, load over patch
	Demand   units.Force    // kN, load times its factor
	Capacity units.Force    // kN, φ Bn
	Use      float64        // demand over capacity
	Source   Source
}

// Basis is how a bearing is judged: φ and the factor on the load.
type Basis struct{ Phi, Factor float64 }

// ACIBasis returns φ 0.65 and a load factor of 1.6 (both from memory).
func ACIBasis() Basis { return Basis{PhiACI, LiveFactor} }

// OnConcrete returns the bearing of a wheel tread or jack plate on concrete of
// a known strength, such as [Invert.StrengthNow] or one found by cylinders. Range: load factor 1 to 3 (judgement). It
// covers crushing under the patch; punching and bending of the slab are not in
// it. Source: [BearingStrength] (memory).
func (p Patch) OnConcrete(load units.Force, strength units.Pressure, b Basis) (Bearing, error) {
	a1, a2, err := p.Areas()
	if err := errors.Join(err, within("load", float64(load), 0, mostForce, "kN"), within("load factor", b.Factor, 1, 3, "")); err != nil {
		return Bearing{}, err
	}
	capacity, err := BearingStrength(strength, a1, a2, b.Phi)
	if err != nil {
		return Bearing{}, err
	}
	demand := units.Force(float64(load) * b.Factor)
	use := float64(demand / capacity)
	r := Bearing{strength, units.Pressure(float64(load) / a1), demand, capacity, use, BearingSource()}
	return answer("bearing", r, use, float64(r.Pressure))
}

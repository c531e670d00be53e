package frame

import (
	"errors"
	"fmt"
	"math"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Bar is a straight bar under compression.
type Bar struct {
	Section
	Length  units.Length   // m between its pins
	Factor  float64        // effective length over length: 1 pinned at both ends, 2 a cantilever
	Modulus units.Pressure // kPa, E
	Yield   units.Pressure // kPa
}

// Buckling is the load at which a slender bar gives way.
type Buckling struct {
	Load        units.Force // kN
	Slenderness float64     // K L / i
	Least       float64     // the slenderness from which on this holds
	Source      load.Source
}

var (
	eulerSource  = load.Source{Text: "Euler; from √(2π² E/fy) on, half the yield stress, as in AISC's allowable stress design", Flag: load.Memory}
	secantSource = load.Source{Text: "secant formula", Flag: load.Derived}
)

func (b Bar) check() error {
	return errors.Join(b.Section.check(),
		above("length of a bar", float64(b.Length), 0, 100, "m"),
		within("effective length factor", b.Factor, 0.5, 4, ""),
		within("modulus of elasticity", float64(b.Modulus), 1e6, 1e9, "kPa"),
		within("yield stress", float64(b.Yield), 1e3, 2e6, "kPa"))
}

// euler is π² E I/(K L)², in kN.
func (b Bar) euler() float64 {
	long := b.Factor * float64(b.Length)
	return math.Pi * math.Pi * float64(b.Modulus) * b.Inertia / (long * long)
}

// Axial returns E A/L, the stiffness along the bar in kN/m (derived).
func (b Bar) Axial() (float64, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	k := float64(b.Modulus) * b.Area / float64(b.Length)
	if err := finite(k); err != nil {
		return 0, err
	}
	return k, nil
}

// Euler returns the load at which a straight bar buckles, without any safety:
//
//	N = π² E I/(K L)²,  i = √(I/A),  λ = K L/i
//
// kN, m, kPa. It holds while the bar stays elastic: it is refused below
// λ = √(2π² E/fy), where the stress passes half the yield stress and stresses
// left from making begin to tell; such a bar is shorter than Euler's, carries
// less than his formula says, and needs the column rule of a steel code. Source:
// Euler; the limit from memory.
func (b Bar) Euler() (Buckling, error) {
	if err := b.check(); err != nil {
		return Buckling{}, err
	}
	out := Buckling{
		Load: units.Force(b.euler()), Slenderness: b.Factor * float64(b.Length/b.Radius()),
		Least: math.Sqrt(2 * math.Pi * math.Pi * float64(b.Modulus/b.Yield)), Source: eulerSource,
	}
	if out.Slenderness < out.Least {
		return Buckling{}, refused(fmt.Sprintf("slenderness %.4g is below %.4g, from which on Euler holds", out.Slenderness, out.Least))
	}
	if err := finite(float64(out.Load), out.Slenderness); err != nil {
		return Buckling{}, err
	}
	return out, nil
}

// EdgeStress returns the greatest stress in kPa of a bar under a load that acts
// off its axis at both ends, or at the free end of a cantilever:
//
//	σ = N/A (1 + e c/i² sec(K L/2 √(N/E I)))
//
// It holds at every slenderness while σ is within the elastic range, and has no
// value from Euler's load on. Errors: ranges; a load at or above Euler's.
// Source: secant formula (derived; one worked number read).
func (b Bar) EdgeStress(n units.Force, off units.Length) (units.Pressure, error) {
	err := errors.Join(b.check(), above("load", float64(n), 0, mostForce, "kN"), within("eccentricity", float64(off), 0, 2, "m"))
	if err != nil {
		return 0, err
	}
	if float64(n) >= b.euler() {
		return 0, &load.Outside{What: "load on a bar that buckles", Got: float64(n), Least: 0, Most: b.euler(), Unit: "kN"}
	}
	stress := b.edge(float64(n), float64(off))
	if err := finite(stress); err != nil {
		return 0, err
	}
	return units.Pressure(stress), nil
}

func (b Bar) edge(n, off float64) float64 {
	bend := off * float64(b.Edge) * b.Area / b.Inertia
	return n / b.Area * (1 + bend/math.Cos(math.Pi/2*math.Sqrt(n/b.euler())))
}

// Offset is the load off its axis at which a bar reaches a stress.
type Offset struct {
	Load   units.Force // kN
	Source load.Source
}

// AtStress returns the load off the axis at which the edge reaches a stress, by
// the formula of [Bar.EdgeStress]; at least 1/1000 of the effective length must
// be off (judgement), because no bar is straight. A permissible stress gives no
// permissible load by itself: deflection grows faster than load, so put the load
// factor on the load. Errors: ranges; a stress above yield.
func (b Bar) AtStress(stress units.Pressure, off units.Length) (Offset, error) {
	if err := b.check(); err != nil {
		return Offset{}, err
	}
	err := errors.Join(
		above("stress", float64(stress), 0, float64(b.Yield), "kPa"),
		within("eccentricity", float64(off), b.Factor*float64(b.Length)/1000, 2, "m"))
	if err != nil {
		return Offset{}, err
	}
	low, high := 0.0, math.Min(b.euler(), float64(stress)*b.Area)
	for {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			return Offset{units.Force(low), secantSource}, nil
		}
		if b.edge(middle, float64(off)) <= float64(stress) {
			low = middle
		} else {
			high = middle
		}
	}
}

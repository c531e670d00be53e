package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// HangerPlate is a plate under a young slab that hangs from a rod through it: the slab
// bears on it evenly, the nut holds it in the middle.
type HangerPlate struct {
	Along, Across units.Length // m, its sides
	Thickness     units.Length // m
	Nut           units.Length // m, width of what holds it from below
	Hole          units.Length // m, diameter of the hole for the rod
}

func (h HangerPlate) check() error {
	side := math.Min(float64(h.Along), float64(h.Across))
	return errors.Join(
		above("side of a plate", side, 0, 2, "m"),
		above("thickness of a plate", float64(h.Thickness), 0, 0.5, "m"),
		within("nut", float64(h.Nut), 0, side, "m"),
		within("hole", float64(h.Hole), 0, side*0.9, "m"))
}

// Bending returns the greatest bending stress in kPa of the plate under a force, across
// its middle, about either axis:
//
//	σ = 6 M / ((b − d) t²),  M = F (a − n) / 8
//
// a the side that bends, b the other one less the hole d, n the nut, which holds evenly
// over its width. A strip over the whole width is taken to bend alike; at the nut's edge
// it bends less. Range: sides to 2 m, hole to 0.9 of the lesser. Source: statics
// (derived).
func (h HangerPlate) Bending(force units.Force) (units.Pressure, error) {
	if err := errors.Join(h.check(), within("force", float64(force), 0, mostForce, "kN")); err != nil {
		return 0, err
	}
	across := func(a, b units.Length) float64 {
		m := float64(force) * float64(a-h.Nut) / 8
		return 6 * m / (float64(b-h.Hole) * float64(h.Thickness) * float64(h.Thickness))
	}
	return units.Pressure(math.Max(across(h.Along, h.Across), across(h.Across, h.Along))), nil
}

// PhiPlain is the strength reduction of plain concrete, ACI 318-14 21.2.1, from memory.
const PhiPlain = 0.60

// Perimeter is the critical one of punching round a plate, half the slab's thickness off
// it, m: 2 (a + b + 2 h); beside a free edge, e from the plate's middle, one long side and
// two that run out to the edge, where that is less. Source: ACI 318-14 22.6.4 with h for
// d, from memory.
func (h HangerPlate) Perimeter(slab, edge units.Length) units.Length {
	whole := 2 * (h.Along + h.Across + 2*slab)
	beside := h.Across + slab + 2*(edge+h.Along/2+slab/2)
	return min(whole, beside)
}

// PunchingPlain returns φ Vn = φ 0.22 √f'c b0 h in kN of a slab taken as plain concrete,
// since its bars have little bond yet; f'c in MPa within, the perimeter b0 and the
// thickness h in m. It is for plates whose long side is at most twice the short one:
// (1 + 2/β) 0.11 √f'c governs beyond, and is taken. Range: strength 1 to 90 MPa
// (judgement). Source: ACI 318-14 table 14.5.5.1 in SI and 21.2.1, from memory.
func (h HangerPlate) PunchingPlain(strength units.Pressure, slab, edge units.Length) (units.Force, error) {
	err := errors.Join(h.check(),
		within("strength", float64(strength)/mpa, 1, 90, "MPa"),
		above("slab", float64(slab), 0, 5, "m"),
		within("distance to the edge", float64(edge), 0, mostLength, "m"))
	if err != nil {
		return 0, err
	}
	beta := math.Max(float64(h.Along/h.Across), float64(h.Across/h.Along))
	stress := math.Min(0.22, 0.11*(1+2/beta)) * math.Sqrt(float64(strength)/mpa)
	return units.Force(PhiPlain * stress * mpa * float64(h.Perimeter(slab, edge)) * float64(slab)), nil
}

// PunchingSource is the source of the punching strength.
func PunchingSource() Source {
	return Source{"plain concrete in two-way shear, ACI 318-14 14.5.5.1", Memory}
}

package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Bend is a carrier on wheels that cannot steer, taken round an angle point.
// The outer wheel lines are guided along the course; the wheels point where the
// carrier does, so that while the angle point lies under the base they slide
// sideways.
type Bend struct {
	Base units.Length // m, outer wheel line to outer wheel line
	Turn units.Angle  // rad, of the course at the angle point; the sign does not count
}

// mostTurn is the sharpest bend a carrier is taken through, 60 degrees; as in
// guided rolling.
const mostTurn = math.Pi / 3

func (b Bend) check(at units.Length) error {
	return errors.Join(
		within("wheelbase", float64(b.Base), 0.05, 100, "m"),
		within("turn", math.Abs(float64(b.Turn)), 0, mostTurn, "rad"),
		within("wheel line from the rear one", float64(at), 0, float64(b.Base), "m"))
}

// OffCourse returns the most that a point of the base, so far ahead of the rear
// guide, stands inside the course: with p and q to the two guides, the height h
// over B of a triangle whose apex turns by phi,
//
//	atan(h/p) + atan(h/q) = phi,  h = 2 p q tan phi / (B + sqrt(B² + 4 p q tan² phi)),
//
// which is (B/2) tan(phi/2) in the middle. Range: turn to 60 degrees. Source:
// geometry (derived).
func (b Bend) OffCourse(at units.Length) (units.Length, error) {
	if err := b.check(at); err != nil {
		return 0, err
	}
	base, p := float64(b.Base), float64(at)
	t, pq := math.Tan(math.Abs(float64(b.Turn))), p*math.Max(0, base-p)
	h := 2 * pq * t / (base + math.Sqrt(base*base+4*pq*t*t))
	return answer("throw", units.Length(h), h)
}

// Slip returns how far the wheels of a line slide sideways, to and fro added,
// while the carrier passes the angle point. With k = 2 p/B - 1 from -1 at the
// rear line to 1 at the front line, and beta = asin(k sin phi),
//
//	slip = (B / 2 sin phi) (k beta sin phi + cos beta - cos phi),
//
// the integral of the sideways rate over the turn: B phi/2 at each of the two
// outer lines, which together turn the base by phi about each other, and
// (B/2) tan(phi/2) in the middle. Range: turn to 60 degrees. Source: geometry
// (derived).
func (b Bend) Slip(at units.Length) (units.Length, error) {
	if err := b.check(at); err != nil {
		return 0, err
	}
	base, phi := float64(b.Base), math.Abs(float64(b.Turn))
	if phi < 1e-9 { // far below a nanometre of slip over any base
		return 0, nil
	}
	s := math.Sin(phi)
	k := 2*float64(at)/base - 1
	beta := math.Asin(math.Max(-1, math.Min(1, k*s)))
	// cos beta - cos phi without loss of digits
	cosines := 2 * math.Sin((phi+beta)/2) * math.Sin((phi-beta)/2)
	slip := base / (2 * s) * (k*beta*s + cosines)
	return answer("slip", units.Length(slip), slip)
}

// Scrubbing is what wheels that slide sideways ask of the carrier and its line.
type Scrubbing struct {
	Wheel units.Force // kN, on one wheel, square to its plane
	Line  units.Force // kN, on one of the two outer lines: what steering has to push with
	Pull  units.Force // kN, that the pull has to add
	Source
}

// Scrub returns the side forces of wheels that slide with a friction mu: mu
// times the greatest wheel load, and mu times the greater of the two reactions
// that the outer lines have by the lever rule. What the sliding uses up is, at
// any moment and for any number of lines,
//
//	F <= mu W max(a/B, 1 - a/B) tan phi
//
// for a pull along the course, a from the rear line to the centre of gravity:
// the sideways rates are linear along the base, and moments about the lines
// hold whichever way wheels share the load. Range: mu 0 to 1.5 (judgement), a
// centre of gravity between the outer lines. Source: statics (derived), for
// dry friction that does not depend on speed.
func (b Bend) Scrub(weight, wheel units.Force, centre units.Length, mu float64) (Scrubbing, error) {
	err := errors.Join(
		b.check(centre),
		within("weight", float64(weight), 0, mostForce, "kN"),
		within("wheel load", float64(wheel), 0, mostForce, "kN"),
		within("sideways friction", mu, 0, 1.5, ""))
	if err != nil {
		return Scrubbing{}, err
	}
	share := float64(centre / b.Base)
	line := mu * float64(weight) * math.Max(share, 1-share)
	s := Scrubbing{Wheel: units.Force(mu * float64(wheel)), Line: units.Force(line),
		Pull:   units.Force(line * math.Tan(math.Abs(float64(b.Turn)))),
		Source: Source{"statics of wheels that slide sideways", Derived}}
	return answer("scrub", s, float64(s.Wheel), float64(s.Line), float64(s.Pull))
}

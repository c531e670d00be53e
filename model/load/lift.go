package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Lifting is a carrier that one lifting jack takes up pad by pad, each pad with
// one place left and one right under the sills, while screw jacks or wheels
// stand under the rest.
type Lifting struct {
	Weight units.Force    // kN
	Gauge  units.Length   // m, left sill to right sill
	Pads   []units.Length // m, along the carrier, increasing
	Stands []units.Length // m, where screw jacks and wheels stand, in any order
	Along  units.Length   // m, centre of gravity, in the measure of Pads
	Left   units.Length   // m, centre of gravity left of the middle of the gauge
	// AlongOff and LeftOff are how far the centre of gravity may be from there,
	// m, either way.
	AlongOff, LeftOff units.Length
}

// PadLoads is what a lifting jack has to carry.
type PadLoads struct {
	Worst units.Force  // kN, the most that any one pad can take
	At    units.Length // m, the pad that can take it
	Left  bool         // on the left side
	How   Worst        // where the centre of gravity is then, and what carries beside it
	// Even is the most on one pad while all of them carry alike, kN; zero where
	// one of them would have to pull down.
	Even   units.Force
	Source Source
}

const mostPads = 20

func (l Lifting) check() error {
	if len(l.Pads) < 2 || len(l.Pads) > mostPads {
		return outsideBecause("%d lifting pads a side, need 2 to %d", len(l.Pads), mostPads)
	}
	if len(l.Stands) < 2 || len(l.Stands) > 100 {
		return outsideBecause("%d places to stand on, need 2 to 100", len(l.Stands))
	}
	err := errors.Join(
		within("weight", float64(l.Weight), 0, mostForce, "kN"),
		within("gauge", float64(l.Gauge), 0.05, 100, "m"),
		within("first pad", float64(l.Pads[0]), -mostLength, mostLength, "m"),
		within("centre of gravity along", float64(l.Along), -mostLength, mostLength, "m"),
		within("centre of gravity left of the middle", float64(l.Left), -float64(l.Gauge)/2, float64(l.Gauge)/2, "m"))
	for i := 1; i < len(l.Pads); i++ {
		err = errors.Join(err, within("distance between pads", float64(l.Pads[i]-l.Pads[i-1]), 0.05, 100, "m"))
	}
	for _, x := range l.Stands {
		err = errors.Join(err, within("place to stand on", float64(x), -mostLength, mostLength, "m"))
	}
	return err
}

// Loads returns the most that the jack under one pad can have to carry: the
// greatest over every way of standing on that pad and two other places, stands
// or other pads, that is in equilibrium with nothing pulling down. For a central
// load that is W/2, the frame rocking on two diagonal places. Frames that give share out better,
// Even; they never exceed the worst.
//
// Errors: outside the ranges, and a centre of gravity that no pad with two
// places can carry. Source: statics of a rigid body (derived).
func (l Lifting) Loads() (PadLoads, error) {
	if err := l.check(); err != nil {
		return PadLoads{}, err
	}
	even := Wheels{Weight: l.Weight, Gauge: l.Gauge, Lines: l.Pads, Along: l.Along, Left: l.Left, AlongOff: l.AlongOff, LeftOff: l.LeftOff}
	out := PadLoads{Source: Source{"statics of a rigid frame on any three places", Derived}}
	for _, at := range even.extremes() {
		one := l
		one.Along, one.Left = at.Along, at.Left
		if !one.worst(&out) {
			return PadLoads{}, outsideBecause("the centre of gravity lies beyond what pads and stands carry")
		}
	}
	if most, err := even.Standing(); err == nil {
		out.Even = most.Load
	}
	return answer("load on a pad", out, float64(out.Worst), float64(out.Even))
}

// worst puts the worst pad into out where it carries more, the centre of gravity
// at its place; false where no pad with two places can carry it.
func (l Lifting) worst(out *PadLoads) bool {
	pads := l.sides(l.Pads)
	places := append(l.sides(l.Stands), pads...)
	found := false
	for i, pad := range pads {
		share, with, ok := shareOf(pad, places)
		found = found || ok
		if w := units.Force(share * float64(l.Weight)); ok && (out.At == 0 && out.Worst == 0 || w > out.Worst) {
			out.Worst, out.At, out.Left = w, l.Pads[i/2], i%2 == 0
			out.How = Worst{Load: w, Line: out.At, Left: out.Left, Along: l.Along, Off: l.Left, With: [2][2]units.Length{l.place(places[with[0]]), l.place(places[with[1]])}}
		}
	}
	return found
}

// sides are places on both sides, left first, from the centre of gravity.
func (l Lifting) sides(places []units.Length) [][2]float64 {
	var out [][2]float64
	for _, x := range places {
		along, half := float64(x-l.Along), float64(l.Gauge)/2
		out = append(out, [2]float64{along, half - float64(l.Left)}, [2]float64{along, -half - float64(l.Left)})
	}
	return out
}

// place is one of sides along and left of the middle.
func (l Lifting) place(p [2]float64) [2]units.Length {
	return [2]units.Length{l.Along + units.Length(p[0]), l.Left + units.Length(p[1])}
}

// shareOf is the greatest share of a unit load at the origin that a place takes
// together with any two others, and those; false where it carries it with no two. The
// shares of three places are the barycentric coordinates of the origin.
func shareOf(pad [2]float64, places [][2]float64) (most float64, with [2]int, ok bool) {
	cross := func(p, q [2]float64) float64 { return p[0]*q[1] - p[1]*q[0] }
	for i, a := range places {
		for j, b := range places[:i] {
			u, v, t := cross(a, b), cross(b, pad), cross(pad, a)
			sum := u + v + t
			if math.Abs(sum) < 1e-6 { // m²: in one line
				continue
			}
			if u, v, t = u/sum, v/sum, t/sum; min(u, v, t) >= -snap {
				if ok = true; u > most {
					most, with = u, [2]int{i, j}
				}
			}
		}
	}
	return most, with, ok
}

// Stroke returns the stroke that a lifting jack needs: the height it lifts and
// what packing and play take up before it carries. Range: both 0 to 5 m
// (judgement).
func Stroke(rise, packing units.Length) (units.Length, error) {
	err := errors.Join(within("rise", float64(rise), 0, 5, "m"), within("packing", float64(packing), 0, 5, "m"))
	if err != nil {
		return 0, err
	}
	return rise + packing, nil
}

// Tilt returns the slope between two places of which one is a pass higher:
// pass over distance. Range: distance above 0, pass 0 to 1 m and not above the
// distance (judgement). Source: geometry.
func Tilt(pass, apart units.Length) (units.Slope, error) {
	err := errors.Join(
		above("distance", float64(apart), 0, mostLength, "m"),
		within("pass", float64(pass), 0, math.Min(1, float64(apart)), "m"))
	if err != nil {
		return 0, err
	}
	return units.Slope(pass / apart), nil
}

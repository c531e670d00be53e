package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Wheels is a carrier on lines of wheels or jacks, each with one left and one
// right.
type Wheels struct {
	Weight units.Force    // kN
	Gauge  units.Length   // m, left wheel to right wheel
	Lines  []units.Length // m, along the carrier, increasing
	Along  units.Length   // m, centre of gravity, in the measure of Lines
	Left   units.Length   // m, centre of gravity left of the middle of the gauge
	// AlongOff and LeftOff are how far the centre of gravity may be from there,
	// m, either way.
	AlongOff, LeftOff units.Length
}

// WheelLoads holds the load of the left and right wheel of each line, kN.
type WheelLoads struct {
	Left, Right []units.Force
	Greatest    units.Force
	Source      Source
}

// ErrLifts says that a wheel would have to pull the carrier down: the carrier
// stands on fewer wheels, or tips, and the formula does not hold.
var ErrLifts = errors.New("a wheel lifts off")

// mostLines bounds the lines: a gear file has at most 12 of wheels and 60 bents.
const mostLines = 60

func (w Wheels) check() error {
	if len(w.Lines) < 2 || len(w.Lines) > mostLines {
		return outsideBecause("%d wheel lines, need 2 to %d", len(w.Lines), mostLines)
	}
	err := errors.Join(
		within("weight", float64(w.Weight), 0, mostForce, "kN"),
		within("gauge", float64(w.Gauge), 0.05, 100, "m"),
		within("first wheel line", float64(w.Lines[0]), -mostLength, mostLength, "m"))
	for i := 1; i < len(w.Lines); i++ {
		err = errors.Join(err, within("distance between wheel lines", float64(w.Lines[i]-w.Lines[i-1]), 0.05, 100, "m"))
	}
	if err != nil {
		return err
	}
	half := float64(w.Gauge) / 2
	return errors.Join(
		within("centre of gravity left of the middle", float64(w.Left), -half, half, "m"),
		within("centre of gravity along", float64(w.Along), float64(w.Lines[0]), float64(w.Lines[len(w.Lines)-1]), "m"))
}

// lever returns each line's offset from the middle of all lines, the centre of
// gravity's, and the sum of squares.
func (w Wheels) lever() (offsets []float64, ey, squares float64) {
	n := float64(len(w.Lines))
	mean := 0.0
	for _, x := range w.Lines {
		mean += float64(x-w.Lines[0]) / n
	}
	for _, x := range w.Lines {
		o := float64(x-w.Lines[0]) - mean
		offsets = append(offsets, o)
		squares += o * o
	}
	return offsets, float64(w.Along-w.Lines[0]) - mean, squares
}

// extremes are the places of the centre of gravity at which a wheel can carry
// the most. What a wheel can carry, at best or at worst, never grows as the
// centre of gravity moves away from it along or across: an affine function that
// is nowhere below zero over the wheels and 1 over that one bounds it, and taken
// constant beyond it does so still (derived, by the dual of the linear program).
// So for each line it is the place nearest to it, on either edge across.
func (w Wheels) extremes() []Wheels {
	var out []Wheels
	for _, x := range w.Lines {
		one := w
		one.AlongOff, one.LeftOff = 0, 0
		one.Along = min(max(x, w.Along-w.AlongOff), w.Along+w.AlongOff)
		if len(out) > 0 && out[len(out)-1].Along == one.Along {
			continue
		}
		for _, side := range [2]units.Length{-1, 1} {
			one.Left = w.Left + side*w.LeftOff
			out = append(out, one)
		}
	}
	return out
}

// Worst is a wheel that carries the most, and what makes it do so.
type Worst struct {
	Load  units.Force  // kN
	Line  units.Length // m, its line, in the measure of Lines
	Left  bool         // on the left side
	Along units.Length // m, where the centre of gravity is then
	Off   units.Length // m, and how far left of the middle
	// With are the two others that carry beside it, where only three do: along and
	// left of the middle.
	With [2][2]units.Length
}

// Standing returns the greatest load of any wheel, as [Wheels.Rigid] spreads it,
// wherever the centre of gravity may be. Errors: [ErrLifts] where a wheel may
// lift. Source: statics (derived).
func (w Wheels) Standing() (Worst, error) {
	if err := w.check(); err != nil {
		return Worst{}, err
	}
	var worst Worst
	for _, one := range w.extremes() {
		loads, err := one.Rigid()
		if err != nil {
			return Worst{}, err
		}
		for i, x := range w.Lines {
			worst = heavier(worst, Worst{Load: loads.Left[i], Line: x, Left: true, Along: one.Along, Off: one.Left})
			worst = heavier(worst, Worst{Load: loads.Right[i], Line: x, Along: one.Along, Off: one.Left})
		}
	}
	return worst, nil
}

// heavier is the second of two wheels where it carries more.
func heavier(a, b Worst) Worst {
	if b.Load > a.Load {
		return b
	}
	return a
}

// Rigid returns the loads of a rigid frame on equal supports: for two lines
//
//	R = (W/4)(1 ± 2 ex/b ± 2 ey/L)
//
// and for n lines W/2n plus W ey x/(2 Σx²) along and ± W ex/(n b) across.
// Errors: [ErrLifts] where one is below zero. Source: statics (derived).
func (w Wheels) Rigid() (WheelLoads, error) {
	return w.spread(func(share, across, along float64) float64 { return share * (1 + across + along) })
}

// Soft returns the loads of a torsionally soft frame, two side trusses that are
// each rigid on equal supports: for two lines
//
//	R = (W/4)(1 ± 2 ex/b)(1 ± 2 ey/L)
//
// Errors: [ErrLifts] where one is below zero. Source: statics (derived).
func (w Wheels) Soft() (WheelLoads, error) {
	return w.spread(func(share, across, along float64) float64 { return share * (1 + across) * (1 + along) })
}

func (w Wheels) spread(load func(share, across, along float64) float64) (WheelLoads, error) {
	if err := w.check(); err != nil {
		return WheelLoads{}, err
	}
	offsets, ey, squares := w.lever()
	n := float64(len(offsets))
	share := float64(w.Weight) / (2 * n)
	across := 2 * float64(w.Left) / float64(w.Gauge)
	loads := WheelLoads{Source: Source{"statics of a rigid body on springs", Derived}}
	for _, x := range offsets {
		along := n * ey * x / squares
		l, r := load(share, across, along), load(share, -across, along)
		if min(l, r) < -snap*float64(w.Weight) {
			return WheelLoads{}, outsideLift
		}
		l, r = max(0, l), max(0, r)
		loads.Left, loads.Right = append(loads.Left, units.Force(l)), append(loads.Right, units.Force(r))
		loads.Greatest = max(loads.Greatest, units.Force(l), units.Force(r))
	}
	return loads, nil
}

var outsideLift = errors.Join(ErrLifts, ErrRange)

// Rocking returns the greatest load that any one wheel can take on uneven
// ground, over every way of standing that is in equilibrium with no wheel
// pulling down: W/2 for a central load, rocking on two diagonal wheels.
//
// It is the greatest over all sets of three wheels that carry alone, which are
// the corners of the set of equilibria (derived: linear programming with three
// equations), and over the places of the centre of gravity. Reached by frames
// stiff against twist; never exceeded.
func (w Wheels) Rocking() (Worst, error) {
	if err := w.check(); err != nil {
		return Worst{}, err
	}
	var worst Worst
	for _, one := range w.extremes() {
		if err := one.check(); err != nil {
			return Worst{}, err
		}
		worst = heavier(worst, one.mostOfThree())
	}
	return answer("wheel load", worst, float64(worst.Load))
}

// mostOfThree is the wheel that takes the greatest share of any three that carry the
// carrier alone.
func (w Wheels) mostOfThree() Worst {
	points := w.points()
	most, at := 0.0, [3]int{}
	for i := range points {
		for j := range i {
			for k := range j {
				if share, first := greatestOfThree(points[i], points[j], points[k]); share > most {
					three := [3]int{i, j, k}
					three[0], three[first] = three[first], three[0]
					most, at = share, three
				}
			}
		}
	}
	half := w.Gauge / 2
	place := func(i int) [2]units.Length {
		return [2]units.Length{w.Lines[i/2], [2]units.Length{half, -half}[i%2]}
	}
	return Worst{Load: units.Force(most * float64(w.Weight)), Line: w.Lines[at[0]/2], Left: at[0]%2 == 0, Along: w.Along, Off: w.Left,
		With: [2][2]units.Length{place(at[1]), place(at[2])}}
}

// points returns the wheels as (along, left) from the centre of gravity.
func (w Wheels) points() [][2]float64 {
	var p [][2]float64
	for _, x := range w.Lines {
		along, half := float64(x-w.Along), float64(w.Gauge)/2
		p = append(p, [2]float64{along, half - float64(w.Left)}, [2]float64{along, -half - float64(w.Left)})
	}
	return p
}

// greatestOfThree returns the greatest share of a unit load at the origin among
// three wheels that carry it alone, and which has it; 0 when they cannot without
// pulling. The shares are the barycentric coordinates of the origin.
func greatestOfThree(a, b, c [2]float64) (share float64, first int) {
	cross := func(p, q [2]float64) float64 { return p[0]*q[1] - p[1]*q[0] }
	u, v, t := cross(b, c), cross(c, a), cross(a, b)
	sum := u + v + t
	if math.Abs(sum) < 1e-6 { // m²: in one line; lines and gauge are 50 mm apart at least
		return 0, 0
	}
	u, v, t = u/sum, v/sum, t/sum
	switch {
	case min(u, v, t) < -snap:
		return 0, 0
	case v > u && v >= t:
		return v, 1
	case t > u:
		return t, 2
	}
	return u, 0
}

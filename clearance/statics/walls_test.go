package statics

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/units"
)

func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// Coefficients of continuous beams of equal spans under an even load, as tables of
// beams have them: reactions, the greatest moment, the greatest shear.
func TestRunsHaveTheSharesOfBeamTables(t *testing.T) {
	for _, c := range []struct {
		at            []float64
		takes         []float64
		moment, shear float64
	}{
		{[]float64{0, 1}, []float64{0.5, 0.5}, 0.125, 0.5},
		{[]float64{0, 1, 2}, []float64{0.375, 1.25, 0.375}, 0.125, 0.625},
		{[]float64{0, 1, 2, 3}, []float64{0.4, 1.1, 1.1, 0.4}, 0.1, 0.6},
		{[]float64{0, 1, 2, 3, 4}, []float64{0.3929, 1.1429, 0.9286, 1.1429, 0.3929}, 0.1071, 0.6071},
	} {
		const l = 1.2
		var at []float64
		for _, x := range c.at {
			at = append(at, 5+l*x)
		}
		length := l * c.at[len(c.at)-1]
		r, err := runOf(5, length, at, 0, 100, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range c.takes {
			near(t, "share", r.Takes[i]/l, want, 1e-4)
		}
		near(t, "moment", r.Moment/l/l, c.moment, 1e-4)
		near(t, "shear", r.Shear/l, c.shear, 1e-4)
	}
}

// A published tie: 1042.5 psf on 22 in by 23 in is 3663 lb (lecture notebooks on wall
// forms, read). Far from the ends of a waler a tie has just its spacing.
func TestAPublishedTieFarFromTheEndsOfAWaler(t *testing.T) {
	const in, pound = 0.0254, 4.4482216152605e-3
	var at []float64
	for i := range 25 {
		at = append(at, 22*in*float64(i))
	}
	r, err := runOf(0, 24*22*in, at, 0, 1e3, nil)
	if err != nil {
		t.Fatal(err)
	}
	row := Row{Line: 1042.5 * 0.04788025898 * 23 * in}
	near(t, "tie, lb", row.Line*r.Takes[12]/pound, 3663.229166667, 0.01)
	// the last but one has 1.134 of it, as tables of beams of many equal spans have it
	near(t, "last but one", r.Takes[1]/(22*in), 1.134, 1e-3)
}

// What a run takes holds the load in balance, and by virtual work no prop moves: the
// work of the moments on those of a unit force at the prop, held at the two outer ones,
// is nothing. Integrated by strips from the load and the shares alone.
func TestARunsPropsDoNotMoveByVirtualWork(t *testing.T) {
	w := rand.New(rand.NewSource(7))
	for range 20 {
		x, at := 0.3+w.Float64()*0.3, []float64{}
		for range 3 + w.Intn(4) {
			at = append(at, x)
			x += 0.8 + 0.5*w.Float64()
		}
		length := x - 0.4
		from, to := 0.3*w.Float64(), length-0.3*w.Float64()
		r, err := runOf(0, length, at, from, to, nil)
		if err != nil {
			t.Fatal(err)
		}
		sum, turn := 0.0, 0.0
		for i, v := range r.Takes {
			sum, turn = sum+v, turn+v*at[i]
		}
		near(t, "force", sum, to-from, 1e-9)
		near(t, "moment", turn, (to*to-from*from)/2, 1e-9)
		moment := func(s float64) float64 {
			a, b := math.Min(s, from), math.Min(s, to)
			m := -((s-a)*(s-a) - (s-b)*(s-b)) / 2
			for i, v := range r.Takes {
				m += v * math.Max(0, s-at[i])
			}
			return m
		}
		first, last := at[0], at[len(at)-1]
		for _, p := range at[1 : len(at)-1] {
			work, scale := 0.0, 0.0
			const n = 40000
			for k := range n {
				s := first + (last-first)*(float64(k)+0.5)/n
				unit := (last - p) / (last - first) * (s - first)
				if s > p {
					unit -= s - p
				}
				work, scale = work+moment(s)*unit, scale+math.Abs(moment(s)*unit)
			}
			if math.Abs(work) > 1e-6*scale {
				t.Errorf("props %v, load %v to %v: %v moves by %v of %v", at, from, to, p, work, scale)
			}
		}
	}
}

// sidesOf are both walls of a bay of a study.
func sidesOf(t *testing.T, s *model.Study, i int) (Fresh, [2]*Side) {
	t.Helper()
	b := &s.Bays[i]
	f, err := FreshOf(s.Job, b.Cell.Section, units.Metric)
	if err != nil {
		t.Fatal(err)
	}
	var out [2]*Side
	for n, side := range []culvert.Side{culvert.Left, culvert.Right} {
		if out[n], err = SideOf(b, f, side, 0.5, nil); err != nil {
			t.Fatal(err)
		}
	}
	return f, out
}

// With one brace a wall hangs on its hinge and stands on the brace alone: by hand, the
// moment of the pressure about the hinge over the brace's lever, at five settings.
func TestABraceAloneTakesTheMomentAboutTheHingeOverItsLever(t *testing.T) {
	for _, above := range []string{"150 mm", "250 mm", "400 mm", "600 mm", "800 mm"} {
		c := worked.Chain{Gear: "roof-halves-24-one-brace", Swap: [][2]string{{"above_foot: 250 mm}", "above_foot: " + above + "}"}}}
		s := c.Study(t)
		f, both := sidesOf(t, s, 0)
		side := both[0]
		br := side.Braces[0]
		y, z := s.Bays[0].Carrier.WallHangs(culvert.Left)
		moment := 0.0
		const n = 100000
		for i := range n {
			at := f.Base + (z-f.Base)*(float64(i)+0.5)/n
			moment += f.Upright(at) * (z - at) * (z - f.Base) / n
		}
		u, v := br.Wall[1]-y, br.Wall[2]-z
		along := br.Far.Sub(br.Wall).Normalize()
		lever := math.Abs(u*along[2] - v*along[1])
		near(t, "brace "+above, br.Line, moment/lever, 1e-6*moment/lever)
		down := -br.Line * math.Sin(br.Angle) * side.Bents.Most() // it runs down from the wall, and so lifts it
		near(t, "draws "+above, side.Draws[1]+side.Draws[0], down, 1e-6*math.Abs(down))
	}
}

// Pressure, ties, braces and what comes to the frame grow as the concrete's weight does
// where it presses with its full head; two walls whose pours mirror each other are
// mirrored.
func TestWallsScaleAndMirror(t *testing.T) {
	job := func(weight, skew string) *model.Study {
		return worked.Chain{Gear: "roof-halves-24-short", Whole: true, Jobs: [][2]string{
			{"concrete: {", "concrete: {unit_weight: " + weight + ", "}, {"pours: [2.3 m]", "pours: [3.6 m]\n  skew: {inlet: " + skew + ", outlet: " + skew + "}"}}}.Study(t)
	}
	_, one := sidesOf(t, job("12.5 kN/m3", "8 deg"), 0)
	_, two := sidesOf(t, job("25 kN/m3", "8 deg"), 0)
	_, other := sidesOf(t, job("25 kN/m3", "-8 deg"), 0)
	for n := range one {
		a, b, m := one[n], two[n], other[1-n]
		for i := range a.Rows {
			near(t, "row", b.Rows[i].Line, 2*a.Rows[i].Line, 1e-9*b.Rows[i].Line)
			near(t, "own area", b.Rows[i].Own, 2*a.Rows[i].Own, 1e-9*b.Rows[i].Own)
			near(t, "mirrored row", m.Rows[i].Line, b.Rows[i].Line, 1e-9*b.Rows[i].Line)
			near(t, "mirrored own area", m.Rows[i].Own, b.Rows[i].Own, 1e-6*b.Rows[i].Own)
		}
		for i := range a.Braces {
			near(t, "brace", b.Braces[i].Load, 2*a.Braces[i].Load, 1e-9*b.Braces[i].Load)
			near(t, "mirrored brace", m.Braces[i].Load, b.Braces[i].Load, 1e-9*b.Braces[i].Load)
		}
		near(t, "to the frame", b.Thrust[0][1], 2*a.Thrust[0][1], 1e-9*b.Thrust[0][1])
	}
}

// The rows take about the pressure between foot and hinge together: each by the worst
// of two ways to bend, and the hinge some of it.
func TestRowsTogetherTakeAboutThePressureAndLessConcreteBringsLessToTheFrame(t *testing.T) {
	s := worked.Job(t, "one-pour")
	f, both := sidesOf(t, s, 0)
	for _, side := range both {
		all, err := f.Between(side.Foot, side.Hangs)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, r := range side.Rows {
			sum += r.Line
		}
		if sum > 1.2*all || sum < 0.8*all {
			t.Errorf("rows take %v of %v", sum, all)
		}
		if side.Thrust[0][0] <= side.Thrust[0][1] {
			t.Errorf("less concrete brings more to the frame: %v", side.Thrust)
		}
	}
}

// A cell that is cast by itself after the one beside it has no concrete to press on the
// wall that stands, and the first of the two has that wall by itself: all of it pushes
// on its bulkhead, not half.
func TestAWallThatStandsPressesNothingAndOneCastAloneCountsWhole(t *testing.T) {
	two := [2]string{"cells: 1", "cells: 2\n  inner_wall: 200 mm"}
	pours := [2]string{"pours: [2.3 m]", "pours: [2.3 m, 2.3 m]"}
	apart := [2]string{"kicker: 300 mm", "kicker: 300 mm\n  order: [{cell: 1, pour: 1}, {cell: 2, pour: 1}, {cell: 1, pour: 2}, {cell: 2, pour: 2}]"}
	s := worked.Chain{Gear: "roof-halves-24", Jobs: [][2]string{two, pours, apart}}.Study(t)
	together := worked.Chain{Gear: "roof-halves-24", Jobs: [][2]string{two, pours}}.Study(t)
	bay := func(s *model.Study, cell, pour int) int {
		for i, b := range s.Bays {
			if b.Cell.Number == cell && b.Pour.Number == pour {
				return i
			}
		}
		t.Fatal("no such bay")
		return 0
	}
	_, first := sidesOf(t, s, bay(s, 1, 2))
	_, second := sidesOf(t, s, bay(s, 2, 2))
	if first[0] == nil || first[1] == nil || second[0] != nil || second[1] == nil {
		t.Errorf("walls pressed on: %v and %v", first, second)
	}
	thrust := func(s *model.Study, cell int) float64 {
		b := &s.Bays[bay(s, cell, 2)]
		f, _ := FreshOf(s.Job, b.Cell.Section, units.Metric)
		d, err := SlideOf(b, s, f)
		if err != nil {
			t.Fatal(err)
		}
		return float64(d.Thrust.Ahead)
	}
	// 25 kN/m3: a wall of 1 m by the pressure from 0.3 to 2.4 m, and the roof over it
	wall, roof := 25*(2.7*2.1-(2.4*2.4-0.09)/2), 25*0.3*0.3/2
	half := 0.1 * (wall + roof)
	near(t, "the inner wall cast with its first cell", thrust(s, 1)-thrust(together, 1), half, 1e-9)
	near(t, "the inner wall that stands", thrust(together, 2)-thrust(s, 2), half, 1e-9)
}

// Nothing of a cell's form looks down on fresh concrete: it carries some, and is lifted
// by none. By hand the top haunches of 0.2 m and the soffit carry 25 x (0.2 x 0.4 + 1.3 x
// 0.3) = 11.75 kN on a metre of half the cell.
func TestNoFaceOfACellsFormIsLifted(t *testing.T) {
	s := worked.Chain{Gear: "roof-halves-24"}.Study(t)
	f, _ := sidesOf(t, s, 0)
	l, err := LiftOf(s.Bays[0].Cell.Section, f)
	if err != nil || l.Sloped || l.Lift != 0 {
		t.Errorf("%+v, %v", l, err)
	}
	near(t, "carries", float64(l.Up), -25*(0.2*0.4+1.3*0.3), 1e-9)
}

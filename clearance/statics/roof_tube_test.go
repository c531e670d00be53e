package statics

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/carrier"
	"boxwalk/model/frame"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// bentAt is a bent drawn by lot: seats on tube and arms.
func bentAt(r *rand.Rand, shores ...float64) (*Roof, *carrier.Carrier) {
	half := 1 + r.Float64()
	c := &carrier.Carrier{Gear: &job.Gear{}}
	c.Gear.Frame.Header.Length = units.Length(2 * half)
	c.Gauge = 2 * half * (0.5 + 0.45*r.Float64())
	c.ArmInner, c.ArmOuter = half*0.3*r.Float64(), half+0.5
	roof := &Roof{Case: RoofCase{Shores: shores, Factors: single, Walls: WallDraws{Pin: 0.3, Pinned: true}}}
	roof.frame = bentFrame{half, c.ArmInner, half - c.ArmInner}
	roof.Weights = Weights{Tube: 0.5, Arm: 0.2, light: Light{Share: 1}, armLong: c.ArmOuter - c.ArmInner, gauge: c.Gauge}
	for range 4 {
		roof.Seats = append(roof.Seats, Seat{At: half * (2*r.Float64() - 1), On: carrier.Header})
	}
	for _, sign := range [2]float64{1, -1} {
		roof.Seats = append(roof.Seats, Seat{At: sign * (half + 0.4*r.Float64()), On: carrier.Arm})
	}
	return roof, c
}

// at is what a seat's 1 kN puts on the tube, from its left end: y up along the tube.
func at(b bentFrame, s Seat) []frame.PointLoad {
	if s.On == carrier.Arm {
		return b.byArm(math.Copysign(1, s.At), math.Abs(s.At), 1)
	}
	return []frame.PointLoad{{At: units.Length(s.At + b.half), Down: 1}}
}

// free is the moment of point loads left of a place about it.
func free(points []frame.PointLoad, x float64) float64 {
	var m float64
	for _, p := range points {
		if float64(p.At) < x {
			m -= float64(p.Down) * (x - float64(p.At))
		}
	}
	return m
}

// statically is the moment of a tube on two legs by the sums of forces and moments.
func statically(points []frame.PointLoad, legs [2]float64) func(x float64) float64 {
	right := 0.0
	total := 0.0
	for _, p := range points {
		right += float64(p.Down) * (float64(p.At) - legs[0]) / (legs[1] - legs[0])
		total += float64(p.Down)
	}
	all := append(append([]frame.PointLoad{}, points...), frame.PointLoad{At: units.Length(legs[0]), Down: units.Force(right - total)}, frame.PointLoad{At: units.Length(legs[1]), Down: units.Force(-right)})
	return func(x float64) float64 { return free(all, x) }
}

// Moments by hand statics, and sags by virtual work: E I times the sag is the integral of
// the moment times that of 1 kN at the place.
func TestABentOfTwoLegsByHandStaticsAndVirtualWork(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 20 {
		roof, c := bentAt(r)
		solved, err := tubeOf(c, nil).Solve(roof.tubeLoads()...)
		if err != nil {
			t.Fatal(err)
		}
		tube, err := roof.influences(solved)
		if err != nil {
			t.Fatal(err)
		}
		b := roof.frame
		legs := [2]float64{b.half - c.Gauge/2, b.half + c.Gauge/2}
		pins := statically([]frame.PointLoad{{At: units.Length(b.half - 0.3), Down: 1}, {At: units.Length(b.half + 0.3), Down: 1}}, legs)
		for n, x := range roof.places() {
			if got, want := tube.moment[n].pins, pins(x); math.Abs(got-want) > 1e-9 {
				t.Fatalf("moment at %.3f of braces on the tube: %.9f, by hand %.9f", x, got, want)
			}
		}
		for i, s := range roof.Seats {
			m := statically(at(b, s), legs)
			for n, x := range roof.places() {
				if got, want := tube.moment[n].of[i], m(x); math.Abs(got-want) > 1e-9 {
					t.Fatalf("moment at %.3f of 1 kN at %.3f: %.9f, by hand %.9f", x, s.At, got, want)
				}
			}
			for n := range finely + 1 {
				x := 2 * b.half * float64(n) / finely
				one := statically([]frame.PointLoad{{At: units.Length(x), Down: 1}}, legs)
				if got, want := tube.sag[n].of[i], integral(func(y float64) float64 { return m(y) * one(y) }, 2*b.half); math.Abs(got-want) > 1e-5 {
					t.Fatalf("sag at %.3f of 1 kN at %.3f: %.7f, by virtual work %.7f", x, s.At, got, want)
				}
			}
		}
	}
}

// integral from 0 to long by the midpoints of many lengths.
func integral(f func(x float64) float64, long float64) float64 {
	const n = 4000
	var sum float64
	for i := range n {
		sum += f((float64(i) + 0.5) * long / n)
	}
	return sum * long / n
}

// A shore by the force method: it gives as much as takes back the sag of the tube on its
// two legs.
func TestAShoreTakesBackTheSagOfTheTube(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 10 {
		roof, c := bentAt(r, 0.1)
		solved, err := tubeOf(c, roof.Case.Shores).Solve(roof.tubeLoads()...)
		if err != nil {
			t.Fatal(err)
		}
		tube, err := roof.influences(solved)
		if err != nil {
			t.Fatal(err)
		}
		b := roof.frame
		legs := [2]float64{b.half - c.Gauge/2, b.half + c.Gauge/2}
		one := statically([]frame.PointLoad{{At: units.Length(b.half + 0.1), Down: 1}}, legs)
		give := integral(func(y float64) float64 { return one(y) * one(y) }, 2*b.half)
		for i, s := range roof.Seats {
			m := statically(at(b, s), legs)
			want := integral(func(y float64) float64 { return m(y) * one(y) }, 2*b.half) / give
			if got := tube.up[2].of[i]; math.Abs(got-want) > 1e-4 {
				t.Errorf("shore of 1 kN at %.3f: %.6f, by the force method %.6f", s.At, got, want)
			}
		}
	}
}

// The sag of an arm beyond its tube by virtual work.
func TestAnArmBeyondItsTubeByVirtualWork(t *testing.T) {
	for _, v := range [][3]float64{{0.75, 0.24, 0.34}, {0.75, 0.34, 0.24}, {0.5, 0.3, 0.3}} {
		span, a, x := v[0], v[1], v[2]
		m := func(at, y float64) float64 { // of 1 kN at a place beyond the end, y from the inner end
			if y < span {
				return at * y / span
			}
			return math.Max(0, span+at-y)
		}
		want := integral(func(y float64) float64 { return m(a, y) * m(x, y) }, span+math.Max(a, x))
		if got := overhang(span, a, x); math.Abs(got-want) > 1e-6 {
			t.Errorf("%v: %.9f, by virtual work %.9f", v, got, want)
		}
	}
}

// Equal spans without overhang, any of them loaded, by the tables of handbooks (from
// memory): moment over w l², shear and reaction over w l.
func TestStringersOverEqualSpansByTables(t *testing.T) {
	for spans, want := range map[int]struct{ moment, shear, reaction float64 }{
		2: {0.125, 0.625, 1.25}, 3: {7.0 / 60, 37.0 / 60, 1.2}, 4: {0.12054, 0.62054, 1.22321},
	} {
		c := &carrier.Carrier{Gear: &job.Gear{}}
		c.Gear.Form.Length = units.Length(spans)
		for i := range spans + 1 {
			c.Bents = append(c.Bents, float64(i))
		}
		a, err := alongOf(c, 0, float64(spans), nil)
		if err != nil {
			t.Fatal(err)
		}
		most := 0.0
		for _, m := range a.In.Most {
			most = math.Max(most, m)
		}
		got := [3]float64{a.In.Moment, a.In.Shear, most}
		for i, w := range [3]float64{want.moment, want.shear, want.reaction} {
			if math.Abs(got[i]-w) > 6e-6 && !(i == 2 && spans > 2 && got[i] >= w) {
				t.Errorf("%d spans: %v, want %v", spans, got, want)
			}
		}
	}
}

// What is kept is what was solved, for any number who ask.
func TestABeamIsSolvedOnceAndAlike(t *testing.T) {
	var k Kept
	r := rand.New(rand.NewSource(3))
	roof, c := bentAt(r)
	first, err := k.Solve(tubeOf(c, nil), roof.tubeLoads()...)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := k.Solve(tubeOf(c, nil), roof.tubeLoads()...)
	other, _ := k.Solve(tubeOf(c, []float64{0.1}), roof.tubeLoads()...)
	if &first[0] != &again[0] || &first[0] == &other[0] || len(k.list) != 2 {
		t.Errorf("kept %d", len(k.list))
	}
	if fmt.Sprint(first) != fmt.Sprint(again) {
		t.Error("another answer")
	}
}

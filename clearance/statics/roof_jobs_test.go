package statics_test

import (
	"math"
	"os"
	"testing"

	"boxwalk/clearance/statics"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// plain is a case without factors: 26 kN/m3, 2.4 kPa.
var plain = statics.RoofCase{Concrete: 26, Live: 2.4, Factors: statics.Load{Dead: 1.35, Concrete: 1.5, Live: 1.5}}

// jobs are the studies of the test data by name.
func jobs(t *testing.T, each func(name string, s *model.Study)) {
	t.Helper()
	list, err := os.ReadDir(worked.Path("jobs"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		each(e.Name(), worked.Job(t, e.Name()))
	}
}

// near holds two numbers to a part in 10⁹.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*(1+math.Abs(want))) {
		t.Errorf("%s is %.12g, want %.12g", what, got, want)
	}
}

// freeBody holds that what comes down on the jacks is what lies on the carrier and what it
// weighs, and that it comes down where it lies: the sums of forces and of moments about
// the form's rear end and about the centreline are zero.
func freeBody(t *testing.T, b *model.Bay, c statics.RoofCase) {
	t.Helper()
	r, err := statics.RoofOf(b, c, nil)
	if err != nil {
		t.Fatalf("%s: %v", b.Name(), err)
	}
	sec, car := b.Cell.Section, b.Carrier
	form := float64(car.Gear.Form.Length)
	rear, front := b.Cell.Reach(b.Pour)
	rear, front = math.Max(0, rear-car.Rear), math.Min(form, front-car.Rear)
	concrete := float64(c.Concrete) * (2*sec.HalfSpan*sec.Roof + sec.Top.Run*sec.Top.Rise) * (front - rear)
	live := float64(c.Live) * 2 * sec.HalfSpan * form
	var mass float64
	for _, p := range car.Parts {
		mass += p.Mass.High + float64(car.Gear.Mass.Extra)*p.Face
	}
	mass = math.Max(mass, car.WeighRaised().Mass.High) * 9.80665e-3
	var down, up, moment, across, ofBents float64
	w := r.Weights
	for k, one := range r.Bents {
		x := car.Bents[k] - car.Rear
		down, up = down+one.Down, up+one.Jacks[0]+one.Jacks[1]
		for i, s := range one.Shores {
			up, across = up+s, across+s*c.Shores[i]
		}
		moment += one.Down * x
		across += (one.Jacks[1] - one.Jacks[0]) * car.Gauge / 2
		ofBents += (w.Tube + 2*w.Arm + 2*w.Leg + 2*w.Rest) * x
	}
	near(t, b.Name()+": what comes down", down, concrete+live+mass)
	near(t, b.Name()+": what holds it up", up, down)
	near(t, b.Name()+": about the centreline", across, 0)
	along := mass - float64(len(car.Bents))*(w.Tube+2*w.Arm+2*w.Leg+2*w.Rest)
	near(t, b.Name()+": about the rear end", moment, concrete*(rear+front)/2+(live+along)*form/2+ofBents)
}

func TestWhatLiesOnTheRoofOfEveryJobComesDownOnItsJacks(t *testing.T) {
	jobs(t, func(name string, s *model.Study) {
		for _, i := range s.Reported() {
			freeBody(t, &s.Bays[i], plain)
		}
	})
}

func TestShoresTakeTheirShareOfWhatComesDown(t *testing.T) {
	for _, gear := range []string{"roof-halves-24", "roof-whole-24"} {
		s := worked.Chain{Gear: gear}.Study(t)
		c := plain
		c.Shores = []float64{0.05, -0.4}
		freeBody(t, &s.Bays[0], c)
	}
}

// roofs are the two kinds of carrier with their whole form.
func roofs(t *testing.T, c statics.RoofCase, each func(gear string, b *model.Bay, r *statics.Roof)) {
	t.Helper()
	for _, gear := range []string{"roof-halves-24", "roof-whole-24"} {
		s := worked.Chain{Gear: gear, Whole: true, Jobs: [][2]string{{"[2.3 m]", "[9 m]"}}}.Study(t)
		r, err := statics.RoofOf(&s.Bays[0], c, nil)
		if err != nil {
			t.Fatal(err)
		}
		each(gear, &s.Bays[0], r)
	}
}

// numbers are all that a roof is judged by, as they are and by their factors.
func numbers(r *statics.Roof) map[string]float64 {
	out := map[string]float64{}
	for _, n := range []struct {
		name    string
		of      statics.Numbers
		factors statics.Load
	}{{"", r.AsIs, statics.Load{Dead: 1, Concrete: 1, Live: 1}}, {"factored ", r.Factored, r.Case.Factors}} {
		b, s := n.of.Bent, n.of.Stringer
		for what, l := range map[string]statics.Load{"stringer moment": s.Moment, "stringer shear": s.Shear, "stringer sag": s.Sag,
			"tube moment": b.TubeMoment, "tube shear": b.TubeShear, "tube sag": b.TubeSag, "arm moment": b.ArmMoment, "arm shear": b.ArmShear,
			"arm hold": b.ArmHold, "tip": b.Tip, "tip by the tube": b.TubeTip, "seat": b.Seat, "leg": b.Leg, "jack": b.Jack} {
			out[n.name+what] = l.By(n.factors)
		}
	}
	return out
}

// What concrete, live load, pour's ends and sideways load add, they add again when they
// are there twice.
func TestARoofScalesWithItsLoads(t *testing.T) {
	times := func(n float64) statics.RoofCase {
		c := plain
		c.Concrete, c.Live, c.Edge, c.Sideways = c.Concrete*units.UnitWeight(n), c.Live*units.Pressure(n), load.LineLoad(n), load.LineLoad(1.5*n)
		return c
	}
	roofs(t, times(1), func(gear string, b *model.Bay, r *statics.Roof) {
		var at [4]map[string]float64
		for n := range at {
			more, err := statics.RoofOf(b, times(float64(n)), nil)
			if err != nil {
				t.Fatal(err)
			}
			at[n] = numbers(more)
		}
		for _, what := range []string{"leg", "jack", "stringer moment", "stringer sag", "arm moment"} {
			near(t, gear+": "+what, at[3][what]-at[2][what], at[2][what]-at[1][what])
		}
	})
}

// More of any load never makes any number less.
func TestMoreOnARoofNeverAsksLessOfAnything(t *testing.T) {
	for _, more := range []func(c *statics.RoofCase){
		func(c *statics.RoofCase) { c.Concrete *= 1.1 }, func(c *statics.RoofCase) { c.Live += 1 }, func(c *statics.RoofCase) { c.Edge += 1 },
		func(c *statics.RoofCase) { c.Factors.Dead = 1.5 }, func(c *statics.RoofCase) { c.Factors.Concrete = 1.6 }, func(c *statics.RoofCase) { c.Factors.Live = 2 },
		func(c *statics.RoofCase) { c.Sideways += 1 }, func(c *statics.RoofCase) { c.Walls = statics.WallDraws{Down: 3, Lift: -1} },
	} {
		heavier := plain
		more(&heavier)
		roofs(t, plain, func(gear string, b *model.Bay, r *statics.Roof) {
			h, err := statics.RoofOf(b, heavier, nil)
			if err != nil {
				t.Fatal(err)
			}
			for what, v := range numbers(r) {
				if got := numbers(h)[what]; got < v-1e-9 {
					t.Errorf("%s with %+v: %s %.6f, before %.6f", gear, heavier, what, got, v)
				}
			}
		})
	}
}

// A shore beside the middle asks the same as one as far on the other side.
func TestARoofIsTheSameInAMirror(t *testing.T) {
	left, right := plain, plain
	left.Shores, right.Shores = []float64{0.3}, []float64{-0.3}
	roofs(t, left, func(gear string, b *model.Bay, r *statics.Roof) {
		m, err := statics.RoofOf(b, right, nil)
		if err != nil {
			t.Fatal(err)
		}
		for what, v := range numbers(r) {
			near(t, gear+": "+what, numbers(m)[what], v)
		}
		near(t, gear+": shore", m.AsIs.Bent.Shores[0].Sum(), r.AsIs.Bent.Shores[0].Sum())
	})
}

// The worked cell on roof halves, worked by hand. Each half reaches from the filler, 0.18,
// to the wall face, 1.50, on stringers at 0.27, 0.74 and 1.24; half of the filler hangs on
// its edge. The slab is 0.30 thick, the haunch adds 0 to 0.20 from 1.30 to 1.50.
//
//	filler end: 26 x 0.30 x (0.09 + 0.18) = 2.1060 kN/m, with 0.18 of it at 0.09 and
//	0.09 at 0.045: moment over the inner stringer 7.8 x (0.18 x 0.09 + 0.09²/2) = 0.157950
//	outer end: 0.26 of slab and 0.02 m² of haunch, its centre 0.06 + 2/3 x 0.20 out of the
//	outer stringer: 26 x (0.30 x 0.26²/2 + 0.02 x 0.193333) = 0.364173
//	middle: 0.157950 x 0.47 + 2 M x 0.97 + 0.364173 x 0.50 = 7.8 (0.47³ + 0.50³)/4 (three
//	moments, hogging above 0), M = 0.097877
//
// Shears then give the three lines, with all of it on.
func TestAHalfRoofByHand(t *testing.T) {
	roofs(t, plain, func(gear string, b *model.Bay, r *statics.Roof) {
		if gear != "roof-halves-24" {
			return
		}
		q, inner, outer := 26*0.30, 26*0.30*(0.18*0.09+0.09*0.09/2), 26*0.30*0.26*0.26/2+26*0.02*(0.06+0.20*2/3)
		middle := (q*(0.47*0.47*0.47+0.50*0.50*0.50)/4 - inner*0.47 - outer*0.50) / (2 * 0.97)
		if math.Abs(middle-0.097877) > 1e-6 {
			t.Errorf("moment over the middle stringer %.7f", middle)
		}
		want := map[float64]float64{
			0.27: q*0.27 + q*0.47/2 + (inner-middle)/0.47,
			0.74: q*(0.47+0.50)/2 + (middle-inner)/0.47 + (middle-outer)/0.50,
			1.24: q*0.26 + 26*0.02 + q*0.50/2 + (outer-middle)/0.50,
		}
		for i, s := range r.Seats {
			var line float64
			for _, z := range r.Zones {
				line += 26 * z.Area[i]
			}
			if !s.Wall {
				near(t, "line of concrete", line, want[math.Round(100*math.Abs(s.At))/100])
			}
		}
	})
}

// Braces draw both walls down by 5 kN a bent and push the tubes up as much, 0.56 out: legs
// take nothing of it, and an arm 5 kN at its hinge, 0.34 beyond the tube.
func TestBracesDrawTheWallsDownOnTheArmsAndNotOnTheLegs(t *testing.T) {
	drawn := plain
	drawn.Walls = statics.WallDraws{Down: 5, Pin: 0.56, Pinned: true}
	roofs(t, plain, func(gear string, b *model.Bay, r *statics.Roof) {
		d, err := statics.RoofOf(b, drawn, nil)
		if err != nil {
			t.Fatal(err)
		}
		was, is := r.AsIs.Bent, d.AsIs.Bent
		near(t, gear+": leg", is.Leg.Sum(), was.Leg.Sum())
		near(t, gear+": jack at least", is.Least, was.Least)
		if gear == "roof-halves-24" {
			near(t, gear+": arm", is.ArmMoment.Sum()-was.ArmMoment.Sum(), 5*(1.34-1.00))
			near(t, gear+": arm's load", is.ArmLoad.Sum()-was.ArmLoad.Sum(), 5)
		}
		if is.TubeMoment.Sum() < was.TubeMoment.Sum()-0.02 { // its own weight is bounded on shorter lengths
			t.Errorf("%s: tube %v, before %v", gear, is.TubeMoment, was.TubeMoment)
		}
	})
}

// What a kind does not say how it rests cannot be known, and says so.
func TestARoofOnOneStringerIsNotKnown(t *testing.T) {
	s := worked.Chain{Gear: "roof-whole-24", Swap: [][2]string{{"from_filler: [320 mm], ", ""}}}.Study(t)
	if r, err := statics.RoofOf(&s.Bays[0], plain, nil); err == nil {
		t.Errorf("known: %+v", r)
	}
	s = worked.Chain{Gear: "roof-whole-24", Swap: [][2]string{{"header: {section: 120 x 140 mm, length: 2440 mm", "header: {section: 120 x 140 mm, length: 1700 mm"}}}.Study(t)
	for _, seat := range s.Bays[0].Carrier.Rests.Stringers {
		if seat.On == carrier.Header && math.Abs(seat.At) > 0.85 {
			t.Errorf("a stringer at %v stands on a tube that ends at 0.85", seat.At)
		}
	}
	if r, err := statics.RoofOf(&s.Bays[0], plain, nil); err == nil {
		t.Errorf("known: %+v", r)
	}
}

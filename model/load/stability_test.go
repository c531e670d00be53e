package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

// A haunch face that leans over concrete from (0.2, 0) at the foot to (0, 0.2)
// at the wall, 25 kN/m³ under 2 m of head at the foot: mean pressure 25 x 1.9 =
// 47.5 kPa, 0.2 m wide and high: 9.5 kN/m up and 9.5 toward the cell.
func TestConcreteUnderAHaunchFaceLiftsTheForm(t *testing.T) {
	d := Diagram{{0, 50}, {2, 0}}
	f := must(d.OnFaces([]Point{{0, 2}, {0, 0.2}, {0.2, 0}})) // down the wall, concrete on the right
	if f.Sloped {
		t.Error("walked the other way the concrete lies above and nothing lifts")
	}
	f = must(d.OnFaces([]Point{{0.2, 0}, {0, 0.2}, {0, 2}}))
	if !f.Sloped {
		t.Fatal("no face slopes over concrete")
	}
	near(t, "lift", float64(f.Lift), 9.5)
	near(t, "up", float64(f.Up), 9.5)
	near(t, "along", float64(f.Along), 50*2/2) // the whole height, haunch and wall
}

func TestPlumbWallLiftsNothing(t *testing.T) {
	f := must(Diagram{{0, 50}, {2, 0}}.OnFaces([]Point{{0, 0}, {0, 3}}))
	if f.Sloped || f.Lift != 0 || f.Up != 0 {
		t.Errorf("%+v", f)
	}
}

// The face of a top haunch and a roof carries; the bottom haunch lifts all the same.
func TestWhatCarriesDoesNotTakeTheLiftAway(t *testing.T) {
	d := Diagram{{0, 60}, {2.4, 0}}
	low := []Point{{0.2, 0}, {0, 0.2}}
	all := []Point{{0.2, 0}, {0, 0.2}, {0, 2.2}, {0.2, 2.4}, {1.5, 2.4}}
	a, b := must(d.OnFaces(low)), must(d.OnFaces(all))
	near(t, "lift", float64(b.Lift), float64(a.Lift))
	if b.Up >= a.Up {
		t.Errorf("up %v with what carries, %v without", b.Up, a.Up)
	}
}

func TestFloatingByHand(t *testing.T) {
	h := must(Floating{Lift: 76, Weight: 60, Held: 20}.Margin()) // 8 m of 9.5 kN/m
	near(t, "ratio", h.Ratio, 80.0/76)
	near(t, "lacks", float64(h.Lacks), 0)
	h = must(Floating{Lift: 76, Weight: 60}.Margin())
	near(t, "lacks", float64(h.Lacks), 16)
	if h = must(Floating{Weight: 60}.Margin()); h.Loaded || h.Ratio != 0 {
		t.Errorf("nothing lifts and the ratio is %v", h.Ratio)
	}
}

// 60 kN on 5 %, 25 kN thrust the way it falls, friction 0.3, 10 kN held:
// 60 sin θ = 2.996257017, 60 cos θ · 0.3 = 17.977542099
func TestSlidingByHand(t *testing.T) {
	s := Sliding{Weight: 60, Slope: 0.05, Thrust: 25, Friction: 0.3, Held: 10}
	h := must(s.Margin())
	near(t, "driving", float64(h.Driving), 27.996257017)
	near(t, "holding", float64(h.Holding), 27.977542099)
	near(t, "lacks", float64(h.Lacks), 25+3/math.Sqrt(1.0025)-18/math.Sqrt(1.0025)-10)
	// uphill the grade holds against the thrust
	s.Slope = -0.05
	near(t, "uphill", float64(must(s.Margin()).Driving), 25-2.996257017)
	// and before the concrete comes the grade alone drives it
	s.Thrust = 1
	near(t, "before", float64(must(s.Margin()).Driving), 2.996257017)
	// square to each other: 3, 4, 5
	s = Sliding{Weight: 60, Thrust: 3, Sideways: -4, Friction: 0.3}
	near(t, "both", float64(must(s.Margin()).Driving), 5)
}

func TestMoreThrustNeverHoldsBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		force := func(what string) units.Force { return units.Force(rapid.Float64Range(0, 300).Draw(t, what)) }
		s := Sliding{
			Weight: force("weight") + 1, Slope: units.Slope(rapid.Float64Range(0, 0.2).Draw(t, "slope")), Thrust: force("thrust") + 1e-3,
			Sideways: force("sideways"), Friction: rapid.Float64Range(0, 1).Draw(t, "friction"), Held: force("held"),
		}
		less := must(s.Margin())
		s.Thrust, s.Sideways = s.Thrust*1.1, s.Sideways*1.1
		if more := must(s.Margin()); more.Ratio > less.Ratio || more.Lacks < less.Lacks {
			t.Fatalf("%+v, then with more %+v", less, more)
		}
	})
}

// Bulkhead 0.3 m wide from 1.5 to 1.8 m left of the centreline, 2 m high, 40 kPa
// all over: 24 kN ahead. At 30°: 24 tan 30° = 13.856406461 to the right, 24/cos
// 30° = 27.712812921 square to it. Turn −24 x 1.65 x (1 + 1/3) = −52.8.
func TestSkewedBulkheadThrustsSideways(t *testing.T) {
	o := Outline{{1.5, 0}, {1.8, 0}, {1.8, 2}, {1.5, 2}}
	b := must(Diagram{{0, 40}, {2, 40}}.OnBulkhead(o, degrees(30)))
	near(t, "ahead", float64(b.Ahead), 24)
	near(t, "left", float64(b.Left), -13.856406461)
	near(t, "normal", float64(b.Normal), 27.712812921)
	near(t, "turn", float64(b.Turn), -52.8)
	if s := must(Diagram{{0, 40}, {2, 40}}.OnBulkhead(o, 0)); s.Left != 0 || s.Normal != s.Ahead {
		t.Errorf("square and yet %+v", s)
	}
}

// The whole thrust, integrated over strips of the skewed face itself: each has
// its force square to the face at its own place.
func TestSkewedBulkheadTurnsAsItsStripsDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		skew := rapid.Float64Range(-0.9, 0.9).Draw(t, "skew")
		from, wide := rapid.Float64Range(-3, 3).Draw(t, "from"), rapid.Float64Range(0.1, 3).Draw(t, "wide")
		o := Outline{{units.Length(from), 0}, {units.Length(from + wide), 0}, {units.Length(from + wide), 2}, {units.Length(from), 2}}
		got := must(Diagram{{0, 40}, {2, 0}}.OnBulkhead(o, units.Angle(skew)))
		ahead, left, moment := 0.0, 0.0, 0.0
		const n = 50
		for i := range n {
			y := from + wide*(float64(i)+0.5)/n
			f := 40 * wide / n / math.Cos(skew) // on the true width; kPa x 2 m / 2
			fx, fy := f*math.Cos(skew), -f*math.Sin(skew)
			ahead, left, moment = ahead+fx, left+fy, moment+y*math.Tan(skew)*fy-y*fx
		}
		for what, pair := range map[string][2]float64{
			"ahead": {float64(got.Ahead), ahead}, "left": {float64(got.Left), left}, "turn": {float64(got.Turn), moment},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-9*(1+math.Abs(pair[1])) {
				t.Fatalf("%s %v, strips %v", what, pair[0], pair[1])
			}
		}
	})
}

// 200 kN at 2.4 m: 2.5 % is 5 kN and 12 kN m. Wind 0.5 kPa x 1.3 x 6 m² = 3.9 kN
// at 1.2 m, with 1 %: 5.9 kN, and 4.68 + 4.8 = 9.48 kN m. So the wind slides it
// and the notional load tips it.
func TestWhatSlidesAFreeFrameNeedNotTipIt(t *testing.T) {
	wind := must(Wind(0.5, 1.3, 6, 1.2))
	near(t, "wind", float64(wind.Force), 3.9)
	s := must(Free{Vertical: 200, Top: 2.4, Known: []Push{wind}, Notional: NotionalShare, Plumb: PlumbShare}.Sideways())
	near(t, "slides", float64(s.Slides.Force), 5.9)
	near(t, "tips", float64(s.Tips.Force)*float64(s.Tips.At), 12)
	if s.SlidesByLeast || !s.TipsByLeast {
		t.Errorf("%+v", s)
	}
	// it goes into tipping: 60 kN of weight at a lever of 1 m
	m := must(Tipping{Weight: 60, Lever: 1, Height: 1.4, Push: s.Tips.Force, At: s.Tips.At}.Margin())
	near(t, "ratio", m.Ratio, 60.0/12)
}

func TestFreeFrameWithoutWindHasTheNotionalLoad(t *testing.T) {
	s := must(Free{Vertical: 200, Top: 2.4, Notional: NotionalShare, Plumb: PlumbShare}.Sideways())
	near(t, "slides", float64(s.Slides.Force), 5)
	near(t, "at", float64(s.Slides.At), 2.4)
	if !s.SlidesByLeast || !s.TipsByLeast {
		t.Errorf("%+v", s)
	}
	if _, err := (Free{Vertical: 200, Notional: NotionalShare}).Sideways(); !errors.Is(err, ErrRange) {
		t.Errorf("no height and error %v", err)
	}
}

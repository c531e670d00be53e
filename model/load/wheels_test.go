package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

// The reference's carrier: 60 kN, gauge 2, base 6, centre of gravity 0.1 left
// and 0.3 ahead of the middle.
var fourWheels = Wheels{Weight: 60, Gauge: 2, Lines: []units.Length{0, 6}, Along: 3.3, Left: 0.1}

func TestFourWheelsRigidAndSoft(t *testing.T) {
	rigid, soft := must(fourWheels.Rigid()), must(fourWheels.Soft())
	for i, want := range []struct{ rigidLeft, rigidRight, softLeft, softRight float64 }{{15, 12, 14.85, 12.15}, {18, 15, 18.15, 14.85}} {
		near(t, "rigid left", float64(rigid.Left[i]), want.rigidLeft)
		near(t, "rigid right", float64(rigid.Right[i]), want.rigidRight)
		near(t, "soft left", float64(soft.Left[i]), want.softLeft)
		near(t, "soft right", float64(soft.Right[i]), want.softRight)
	}
	near(t, "rigid greatest", float64(rigid.Greatest), 18)
	near(t, "soft greatest", float64(soft.Greatest), 18.15)
}

func TestCentralLoadRocksOnTwoDiagonalWheels(t *testing.T) {
	central := Wheels{Weight: 60, Gauge: 2, Lines: []units.Length{0, 6}, Along: 3}
	near(t, "worst", float64(must(central.Rocking()).Load), 30)
	six := Wheels{Weight: 60, Gauge: 2, Lines: []units.Length{0, 3, 6}, Along: 3}
	near(t, "worst of six", float64(must(six.Rocking()).Load), 30)
}

// Derived: four wheels have one self-stress, +1 −1 −1 +1; a wheel gains by it
// until one of the other diagonal lifts.
func TestRockingOnFourWheelsIsTheSelfStressLimit(t *testing.T) {
	soft := must(fourWheels.Soft())
	one := soft.Left[1] + min(soft.Right[1], soft.Left[0])
	other := soft.Right[1] + min(soft.Left[1], soft.Right[0])
	near(t, "worst", float64(must(fourWheels.Rocking()).Load), float64(max(one, other)))
}

func drawWheels(t *rapid.T) Wheels {
	w := Wheels{Weight: units.Force(rapid.Float64Range(1, 500).Draw(t, "W")), Gauge: units.Length(rapid.Float64Range(0.5, 6).Draw(t, "gauge"))}
	x := units.Length(rapid.Float64Range(-20, 20).Draw(t, "first"))
	for range rapid.IntRange(2, 5).Draw(t, "lines") {
		w.Lines = append(w.Lines, x)
		x += units.Length(rapid.Float64Range(0.3, 4).Draw(t, "step"))
	}
	last := w.Lines[len(w.Lines)-1]
	w.Along = w.Lines[0] + (last-w.Lines[0])*units.Length(rapid.Float64Range(0.3, 0.7).Draw(t, "along"))
	w.Left = w.Gauge * units.Length(rapid.Float64Range(-0.2, 0.2).Draw(t, "left"))
	return w
}

func TestWheelLoadsAreInEquilibriumAndBelowRocking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWheels(t)
		worst := must(w.Rocking()).Load
		for _, form := range []func() (WheelLoads, error){w.Rigid, w.Soft} {
			loads, err := form()
			if errors.Is(err, ErrLifts) {
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			var sum, along, across float64
			for i, x := range w.Lines {
				l, r := float64(loads.Left[i]), float64(loads.Right[i])
				sum += l + r
				along += (l + r) * float64(x-w.Along)
				across += (l-r)*float64(w.Gauge)/2 - (l+r)*float64(w.Left)
			}
			scale := 1e-9 * float64(w.Weight) * 30
			if math.Abs(sum-float64(w.Weight)) > scale || math.Abs(along) > scale || math.Abs(across) > scale {
				t.Fatalf("out of balance: %g, %g, %g", sum-float64(w.Weight), along, across)
			}
			if loads.Greatest > worst*(1+1e-9) {
				t.Fatalf("%g above the worst %g", loads.Greatest, worst)
			}
		}
		if worst < w.Weight/units.Force(2*len(w.Lines)) || worst > w.Weight {
			t.Fatalf("worst %g of %g", worst, w.Weight)
		}
	})
}

func TestAWheelThatLiftsIsAnError(t *testing.T) {
	w := Wheels{Weight: 60, Gauge: 2, Lines: []units.Length{0, 6}, Along: 5, Left: 0.8}
	if loads, err := w.Rigid(); !errors.Is(err, ErrLifts) || !errors.Is(err, ErrRange) || loads.Left != nil {
		t.Errorf("%v, %v", loads, err)
	}
	if _, err := w.Soft(); err != nil {
		t.Errorf("the soft frame bears on all four: %v", err)
	}
	if _, err := w.Rocking(); err != nil {
		t.Errorf("it stands: %v", err)
	}
}

func TestWheelsOutsideTheirRangeAreRefused(t *testing.T) {
	for i, w := range []Wheels{
		{}, {Weight: 60, Gauge: 2, Lines: []units.Length{0}}, {Weight: 60, Gauge: 2, Lines: []units.Length{6, 0}, Along: 3},
		{Weight: 60, Gauge: 2, Lines: []units.Length{0, 6}, Along: 7}, {Weight: 60, Gauge: 2, Lines: []units.Length{0, 6}, Along: 3, Left: 1.1},
		{Weight: units.Force(math.NaN()), Gauge: 2, Lines: []units.Length{0, 6}, Along: 3}, {Weight: 60, Lines: []units.Length{0, 6}, Along: 3},
	} {
		if worst, err := w.Rocking(); !errors.Is(err, ErrRange) || worst != (Worst{}) {
			t.Errorf("case %d: %v, %v", i, worst, err)
		}
	}
}

// Derived: a carrier 2 m wide on its wheels with its centre of gravity 1.5 m up
// tips at atan(1/1.5).
func TestTippingMarginAcrossAndAlong(t *testing.T) {
	across, along, err := fourWheels.TippingLevers()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "across", float64(across), 0.9)
	near(t, "along", float64(along), 2.7)
	s := must(Tipping{Weight: 60, Lever: across, Height: 1.5, Slope: -0.05, Push: 4, At: 2}.Margin())
	cos := 1 / math.Hypot(1, 0.05)
	near(t, "restoring", float64(s.Restoring), 60*cos*0.9)
	near(t, "overturning", float64(s.Overturning), 60*0.05*cos*1.5+8)
	near(t, "ratio", s.Ratio, float64(s.Restoring)/float64(s.Overturning))
	near(t, "angle", float64(s.Angle), math.Atan(0.6))
	level := must(Tipping{Weight: 60, Lever: 1, Height: 1.5}.Margin())
	if level.Loaded || level.Ratio != 0 {
		t.Errorf("nothing overturns: %+v", level)
	}
}

func TestTippingRatioIsOneAtTheTippingAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(2.01, 5).Draw(t, "height")
		s := must(Tipping{Weight: 60, Lever: 1, Height: units.Length(h), Slope: units.Slope(1 / h)}.Margin())
		if math.Abs(s.Ratio-1) > 1e-12 || math.Abs(math.Tan(float64(s.Angle))-1/h) > 1e-12 {
			t.Fatalf("ratio %g at the tipping angle", s.Ratio)
		}
	})
}

func TestACentreOfGravityBeyondTheTippingLineIsAnError(t *testing.T) {
	for _, lever := range []units.Length{0, -0.1, units.Length(math.NaN())} {
		if s, err := (Tipping{Weight: 60, Lever: lever, Height: 1.5}).Margin(); !errors.Is(err, ErrRange) || s != (Stability{}) {
			t.Errorf("lever %g: %v, %v", lever, s, err)
		}
	}
}

// What is worst over a box of places of the centre of gravity is nowhere
// exceeded inside it, and reached at one of the places looked at.
func TestNoPlaceOfTheCentreLoadsAWheelMoreThanTheWorst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWheels(t)
		wide := w.Lines[len(w.Lines)-1] - w.Lines[0]
		w.AlongOff = wide * units.Length(rapid.Float64Range(0, 0.1).Draw(t, "along off"))
		w.LeftOff = w.Gauge * units.Length(rapid.Float64Range(0, 0.1).Draw(t, "left off"))
		one := w
		one.AlongOff, one.LeftOff = 0, 0
		one.Along += w.AlongOff * units.Length(rapid.Float64Range(-1, 1).Draw(t, "at along"))
		one.Left += w.LeftOff * units.Length(rapid.Float64Range(-1, 1).Draw(t, "at left"))
		if most, here := must(w.Rocking()).Load, must(one.Rocking()).Load; here > most*(1+1e-9) {
			t.Fatalf("rocking: %v here, %v at worst", here, most)
		}
		most, err := w.Standing()
		if err != nil {
			return // a wheel may lift
		}
		if here := must(one.Standing()).Load; here > most.Load*(1+1e-9) {
			t.Fatalf("standing: %v here, %v at worst", here, most)
		}
		across, along, err := w.TippingLevers()
		a, l, err2 := one.TippingLevers()
		if err != nil || err2 != nil || a < across-1e-9 || l < along-1e-9 {
			t.Fatalf("levers %v %v here, %v %v at worst", a, l, across, along)
		}
	})
}

// The middle wheels of six carry the most when the centre of gravity is at
// them: half of it, on the side; with it 1 m away 2/3 of that.
func TestTheWorstPlaceForAMiddleWheelLiesInside(t *testing.T) {
	w := Wheels{Weight: 60, Gauge: 2, Lines: []units.Length{0, 3, 6}, Along: 2.5, AlongOff: 1, Left: 0.2}
	near(t, "worst", float64(must(w.Rocking()).Load), 60*(0.5+0.1))
}

package frame

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// rigid is a wall so stiff that it stays straight.
const rigid = 1e12

// head is fresh concrete of 25 kN/m³ from 0 to its height.
func head(height units.Length) load.Diagram {
	return load.Diagram{{Up: 0, Pressure: units.Pressure(25 * height)}, {Up: height, Pressure: 0}}
}

// A wall of 2.4 m, hinge at its top, full of concrete: 25 x 2.4²/2 = 72 kN/m at
// 1.6 m below the hinge. One brace at 2.0 m at five settings between square and
// 50° down: N cos α x 2.0 = 115.2 and the rest, 72 − 57.6 = 14.4, is the hinge's.
func TestOneBraceByHandAtFiveSettings(t *testing.T) {
	for _, degrees := range []float64{0, 10, 25, 40, 50} {
		a := degrees * math.Pi / 180
		w := Wall{Hinge: 2.4, Height: 2.4, Width: 1, EI: 300, Braces: []Prop{{2, 8000, units.Angle(a), 0}}}
		f := must(w.Under(head(2.4))).Together
		nearTo(t, "brace", float64(f.Braces[0]), 57.6/math.Cos(a))
		nearTo(t, "hinge", float64(f.Hinge), 14.4)
		nearTo(t, "lifts", float64(f.Along), 57.6*math.Tan(a))
	}
}

// Its pin lies 0.15 m behind the wall: the brace pushes by cos α toward the
// concrete 2.0 m below the hinge, and by sin α up, 0.15 m behind it, which turns
// the panel the other way: its arm about the hinge is 2 cos α − 0.15 sin α.
func TestPinBehindTheWallCountsByItsArm(t *testing.T) {
	const a = 0.6
	w := Wall{Hinge: 2.4, Height: 2.4, Width: 1, EI: 300, Braces: []Prop{{2, 8000, a, 0.15}}}
	f := must(w.Under(head(2.4))).Together
	nearTo(t, "brace", float64(f.Braces[0]), 115.2/(2*math.Cos(a)-0.15*math.Sin(a)))
}

// A straight wall turns by φ about its hinge: tie k = 4000 at 0.8 m, brace 6000
// at 2.0 m square to it: φ = 115.2/(4000 x 0.64 + 6000 x 4) = 115.2/26560.
func TestRigidWallSharesByStiffness(t *testing.T) {
	w := Wall{Hinge: 2.4, Height: 2.4, Width: 1, EI: rigid, Ties: []Prop{{0.8, 4000, 0, 0}}, Braces: []Prop{{2, 6000, 0, 0}}}
	a := must(w.Under(head(2.4)))
	turn := 115.2 / 26560
	nearBy(t, "tie", float64(a.Together.Ties[0]), 4000*0.8*turn, 1e-6)
	nearBy(t, "brace", float64(a.Together.Braces[0]), 6000*2*turn, 1e-6)
	nearBy(t, "tie alone", float64(a.TiesAlone.Ties[0]), 144, 1e-6)
	nearBy(t, "brace alone", float64(a.BracesAlone.Braces[0]), 57.6, 1e-6)
	nearBy(t, "greatest tie", float64(a.Ties[0]), 144, 1e-6)
	nearBy(t, "foot", float64(a.Together.Give.Most.Value), 2.4*turn, 1e-9)
	nearBy(t, "at", float64(a.Together.Give.Most.At), 2.4, 1e-9)
}

func TestWidthAndPartOfTheHeightCount(t *testing.T) {
	// concrete to 1.2 m only: 18 kN/m at 2.0 m below the hinge, so all is the brace's
	w := Wall{Hinge: 2.4, Height: 2.4, Width: 1.5, EI: 300, Braces: []Prop{{2, 8000, 0, 0}}}
	f := must(w.Under(head(1.2))).Together
	nearTo(t, "brace", float64(f.Braces[0]), 27)
	nearTo(t, "hinge", float64(f.Hinge), 0)
	// the form begins 0.3 m above the base: 25 (2.1²/2) = 55.125 at 0.7 from its foot
	w = Wall{Hinge: 2.4, Height: 2.1, Width: 1, EI: 300, Braces: []Prop{{2.1, 8000, 0, 0}}}
	nearTo(t, "brace", float64(must(w.Under(head(2.4))).Together.Braces[0]), 55.125*1.4/2.1)
}

// Concrete stands 0.4 m above the hinge: 10 kPa there, 60 at the foot 2 m below;
// 20 x 1 + 50 x 4/3 = 260/3 kN m about it. What lies above is not the panel's.
func TestConcreteAboveTheHingeIsNotThePanels(t *testing.T) {
	w := Wall{Hinge: 2, Height: 2, Width: 1, EI: 300, Braces: []Prop{{1.6, 8000, 0, 0}}}
	f := must(w.Under(head(2.4))).Together
	nearTo(t, "brace", float64(f.Braces[0]), 260/3.0/1.6)
	nearTo(t, "hinge", float64(f.Hinge), 70-260/3.0/1.6)
}

// A soft panel loaded at its foot bends back above the brace: a tie near the
// hinge would have to push there. It is slack, and the rest carries all.
func TestTieDoesNotPush(t *testing.T) {
	w := Wall{Hinge: 3, Height: 3, Width: 1, EI: 20, Ties: []Prop{{0.9, 1e5, 0, 0}}, Braces: []Prop{{2, 1e5, 0, 0}}}
	d := load.Diagram{{Up: 0, Pressure: 60}, {Up: 0.5, Pressure: 40}, {Up: 0.6, Pressure: 0}}
	a := must(w.Under(d))
	if !a.Together.Slack[0] || a.Together.Ties[0] != 0 {
		t.Fatalf("tie carries %v", a.Together.Ties[0])
	}
	alone := w
	alone.Ties = nil
	nearTo(t, "brace", float64(a.Together.Braces[0]), float64(must(alone.Under(d)).Together.Braces[0]))
}

func drawWall(t *rapid.T) (Wall, load.Diagram) {
	number := func(least, most float64, what string) float64 { return rapid.Float64Range(least, most).Draw(t, what) }
	high := units.Length(number(1, 4, "height"))
	w := Wall{Hinge: high, Height: high, Width: units.Length(number(0.3, 3, "width")), EI: number(50, 1e5, "EI")}
	prop := func() Prop {
		return Prop{high * units.Length(number(0.1, 1, "below")), number(500, 1e5, "axial"), units.Angle(number(-0.7, 0.9, "angle")), units.Length(number(0, 0.2, "arm"))}
	}
	for range rapid.IntRange(0, 3).Draw(t, "ties") {
		tie := prop()
		tie.Angle, tie.Arm = 0, 0
		w.Ties = append(w.Ties, tie)
	}
	for range rapid.IntRange(1, 3).Draw(t, "braces") {
		b := prop()
		b.Below = max(b.Below, high/2)
		w.Braces = append(w.Braces, b)
	}
	return w, load.Diagram{{Up: 0, Pressure: units.Pressure(number(5, 90, "pressure"))}, {Up: high * units.Length(number(0.2, 1, "top")), Pressure: 0}}
}

// The free body: hinge, ties and braces against the pressure and its moment.
func TestWallIsInBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawWall(t)
		a := must(w.Under(d))
		thrust := must(d.On(load.Outline{{Along: 0, Up: w.Hinge - w.Height}, {Along: w.Width, Up: w.Hinge - w.Height}, {Along: w.Width, Up: w.Hinge}, {Along: 0, Up: w.Hinge}}))
		for _, f := range []WallForces{a.Together, a.BracesAlone} {
			force, moment := float64(f.Hinge-thrust.Force), -float64(thrust.Force)*float64(w.Hinge-thrust.At.Up)
			size := float64(thrust.Force) * (1 + float64(w.Height))
			put := func(p Prop, n units.Force) {
				sin, cos := math.Sincos(float64(p.Angle))
				force += float64(n) * cos
				moment += float64(n) * (cos*float64(p.Below) - sin*float64(p.Arm))
				size += math.Abs(float64(n)) * float64(w.Height)
			}
			for i, n := range f.Ties {
				put(w.Ties[i], n)
			}
			for i, n := range f.Braces {
				put(w.Braces[i], n)
			}
			if math.Abs(force) > 1e-9*size || math.Abs(moment) > 1e-9*size {
				t.Fatalf("%v kN and %v kN m left of %v", force, moment, size)
			}
		}
	})
}

// A rigid wall is one turn about its hinge, so each prop carries most when those
// of its kind are alone: the two states bracket the truth. Where it bends, the
// greatest over the states is at least what it carries together.
func TestAloneBracketsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawWall(t)
		a := must(w.Under(d))
		for i := range a.Together.Ties {
			if a.Together.Ties[i] < 0 || a.Ties[i] < a.Together.Ties[i] {
				t.Fatalf("tie %v, greatest %v", a.Together.Ties[i], a.Ties[i])
			}
		}
		w.EI = rigid
		for i := range w.Braces {
			w.Braces[i].Angle, w.Braces[i].Arm = 0, 0
		}
		a = must(w.Under(d))
		for i, n := range a.Together.Ties {
			if n > a.TiesAlone.Ties[i]*(1+1e-6)+1e-6 {
				t.Fatalf("tie %v together, %v alone", n, a.TiesAlone.Ties[i])
			}
		}
		for i, n := range a.Together.Braces {
			if n > a.BracesAlone.Braces[i]*(1+1e-6)+1e-6 {
				t.Fatalf("brace %v together, %v alone", n, a.BracesAlone.Braces[i])
			}
		}
	})
}

func TestTwiceThePressureIsTwiceTheForces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawWall(t)
		one := must(w.Under(d))
		w.Width *= 2 // its stiffness stays, and the load alone is twice
		two := must(w.Under(d))
		for i := range one.Braces {
			alike(t, "brace", float64(two.Braces[i]), 2*float64(one.Braces[i]), 1e-9)
		}
		for i := range one.Ties {
			alike(t, "tie", float64(two.Ties[i]), 2*float64(one.Ties[i]), 1e-9)
		}
	})
}

func TestWallThatNothingHoldsIsRefused(t *testing.T) {
	good := Wall{Hinge: 2, Height: 2, Width: 1, EI: 100, Braces: []Prop{{1.5, 1000, 0, 0}}}
	for name, change := range map[string]func(*Wall){
		"no prop":     func(w *Wall) { w.Braces = nil },
		"at hinge":    func(w *Wall) { w.Braces[0].Below = 0 },
		"below foot":  func(w *Wall) { w.Braces[0].Below = 2.1 },
		"no width":    func(w *Wall) { w.Width = 0 },
		"no EI":       func(w *Wall) { w.EI = math.NaN() },
		"no springs":  func(w *Wall) { w.Braces[0].Axial = 0 },
		"upside down": func(w *Wall) { w.Height = -2 },
	} {
		w := good
		w.Braces = []Prop{good.Braces[0]}
		change(&w)
		if _, err := w.Under(head(2)); !errors.Is(err, load.ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	if _, err := good.Under(nil); !errors.Is(err, load.ErrRange) {
		t.Errorf("no pressure: error %v", err)
	}
}

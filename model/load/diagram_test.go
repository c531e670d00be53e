package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

func rectangle(along, up units.Length) Outline {
	return Outline{{0, 0}, {along, 0}, {along, up}, {0, up}}
}

func TestDiagramOfAnEnvelopeHasItsResultant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := Envelope{
			Gradient: rapid.Float64Range(10, 40).Draw(t, "gradient"), Height: units.Length(rapid.Float64Range(0.1, 8).Draw(t, "height")),
			Pressure: units.Pressure(rapid.Float64Range(1, 150).Draw(t, "pressure")),
		}
		want, got := must(e.Resultant()), must(must(e.Diagram()).On(rectangle(1, e.Height)))
		if math.Abs(float64(got.Force)-float64(want.Force)) > 1e-9*float64(want.Force) {
			t.Fatalf("%v kN, resultant %v kN/m", got.Force, want.Force)
		}
		if math.Abs(float64(got.At.Up-want.Arm)) > 1e-9 || math.Abs(float64(got.At.Along)-0.5) > 1e-9 {
			t.Fatalf("acts at %v, arm %v", got.At, want.Arm)
		}
	})
}

func TestThrustOnATriangleByHand(t *testing.T) {
	// 20 kPa at the base to 0 at 2 m; right triangle 3 m at the base, 2 m high:
	// width 3 (1 - z/2), so ∫ 20 (1 - z/2) 3 (1 - z/2) dz = 60 · 2/3 = 40 kN;
	// up: 60 ∫ z (1 - z/2)² dz = 60 · 1/3 = 20, so at 0.5 m;
	// along: 20 ∫ (1 - z/2) 4.5 (1 - z/2)² dz = 90 · 1/2 = 45, so at 1.125 m
	got := must(Diagram{{0, 20}, {2, 0}}.On(Outline{{0, 0}, {3, 0}, {0, 2}}))
	near(t, "force", float64(got.Force), 40)
	near(t, "up", float64(got.At.Up), 0.5)
	near(t, "along", float64(got.At.Along), 1.125)
	near(t, "area", got.Area, 3)
}

func TestStepInAPressureIsTakenAsItIs(t *testing.T) {
	d := Diagram{{0, 30}, {1, 30}, {1, 10}, {3, 10}}
	near(t, "force", float64(must(d.On(rectangle(2, 4))).Force), 2*(30+20)) // nothing above 3 m
}

// An L of two rectangles: an outline that turns in is cut as well as any other.
func TestThrustOnAnOutlineThatTurnsInIsThatOfItsParts(t *testing.T) {
	d := Diagram{{-1, 60}, {0.5, 50}, {1.25, 20}, {4, 0}}
	l := Outline{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {0, 3}}
	lower := must(d.On(Outline{{0, 0}, {4, 0}, {4, 1}, {0, 1}}))
	upper := must(d.On(Outline{{0, 1}, {1, 1}, {1, 3}, {0, 3}}))
	near(t, "force", float64(must(d.On(l)).Force), float64(lower.Force+upper.Force))
}

func TestOutlineThatIsNoneIsRefused(t *testing.T) {
	d := Diagram{{0, 20}, {2, 0}}
	for name, o := range map[string]Outline{
		"two corners": {{0, 0}, {1, 1}}, "no area": {{0, 0}, {1, 1}, {2, 2}},
		"crossing": {{0, 0}, {2, 2}, {2, 0}, {0, 1}}, "not a number": {{0, 0}, {units.Length(math.NaN()), 0}, {1, 1}},
	} {
		if _, err := d.On(o); !errors.Is(err, ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	for name, bad := range map[string]Diagram{
		"one ordinate": {{0, 20}}, "down": {{2, 0}, {0, 20}}, "no height": {{1, 20}, {1, 0}}, "suction": {{0, -1}, {1, 0}},
	} {
		if _, err := bad.On(rectangle(1, 1)); !errors.Is(err, ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// Published: 1042.5 psf x 22 in x 23 in (University of Nebraska, wall forms by
// tables, read): 3663.229 lb; the lecture picks a tie of 4000 lb.
func TestInnerTieOfAGridHasItsSpacings(t *testing.T) {
	along, up := inches(22), inches(23)
	d := Diagram{{0, fromPsf(1042.5)}, {3 * up, fromPsf(1042.5)}}
	var ties []Point
	for i := range 3 {
		for j := range 3 {
			ties = append(ties, Point{along * (units.Length(i) + 0.5), up * (units.Length(j) + 0.5)})
		}
	}
	for i, l := range must(d.TieLoads(rectangle(3*along, 3*up), ties)) {
		nearBy(t, "tie", inPounds(l.Force), 3663.229166667, 1e-6)
		near(t, "as by spacing", float64(l.Force), float64(must(TieLoad(d[0].Pressure, along, up))))
		near(t, "place", float64(l.At.Along), float64(ties[i].Along))
	}
}

// Two ties at 1 and 3 m on a panel of 5 m: the first has 0 to 2, the second 2 to
// 5, at 10 kPa and 1 m of height.
func TestEdgeBelongsToTheLastTie(t *testing.T) {
	loads := must(Diagram{{0, 10}, {1, 10}}.TieLoads(rectangle(5, 1), []Point{{1, 0.5}, {3, 0.5}}))
	near(t, "first", float64(loads[0].Force), 20)
	near(t, "last", float64(loads[1].Force), 30)
}

// A panel whose end leans from 4 m at the foot to 6 m at the top, ties at 1 and
// 3 m: the second has 2 to 4 at the foot and 2 to 6 at the top, a trapezoid of
// (2 + 4)/2 x 2 = 6 m², under 12 kPa.
func TestSkewedCornerBelongsToTheLastTie(t *testing.T) {
	panel := Outline{{0, 0}, {4, 0}, {6, 2}, {0, 2}}
	loads := must(Diagram{{0, 12}, {2, 12}}.TieLoads(panel, []Point{{1, 1}, {3, 1}}))
	near(t, "last", float64(loads[1].Force), 72)
	near(t, "its area", loads[1].Area, 6)
}

func TestTieLoadsAddUpToTheThrust(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(least, most float64, what string) units.Length {
			return units.Length(rapid.Float64Range(least, most).Draw(t, what))
		}
		skew, high, long := length(-1, 1, "skew"), length(0.5, 4, "height"), length(2.5, 9, "length")
		panel := Outline{{0, 0}, {long, 0}, {long + skew, high}, {-skew / 2, high}}
		d := Diagram{{-1, 70}, {high / 3, 60}, {high / 3, 40}, {high, 0}}
		var ties []Point
		for i := range rapid.IntRange(1, 9).Draw(t, "ties") { // each in a ninth of its own
			ninth := (units.Length(i) + length(0.01, 0.99, "along")) / 9
			ties = append(ties, Point{1 + (long-2)*ninth, high * length(0, 1, "up")})
		}
		loads := must(d.TieLoads(panel, ties))
		total := must(d.On(panel))
		var force units.Force
		var moment, area float64
		for _, l := range loads {
			force, moment, area = force+l.Force, moment+float64(l.Force)*float64(l.At.Up), area+l.Area
		}
		if math.Abs(float64(force-total.Force)) > 1e-9*float64(total.Force) || math.Abs(area-total.Area) > 1e-9*total.Area {
			t.Fatalf("ties carry %v of %v kN on %v of %v m²", force, total.Force, area, total.Area)
		}
		if want := float64(total.Force) * float64(total.At.Up); math.Abs(moment-want) > 1e-9*(1+want) {
			t.Fatalf("moment %v of %v kN m", moment, want)
		}
	})
}

func TestTieOffThePanelIsRefused(t *testing.T) {
	d := Diagram{{0, 10}, {1, 10}}
	for name, ties := range map[string][]Point{"none": nil, "off": {{2, 0.5}}, "twice": {{0.5, 0.5}, {0.5, 0.5}}} {
		if _, err := d.TieLoads(rectangle(1, 1), ties); !errors.Is(err, ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	if _, err := d.TieLoads(rectangle(1, 1), []Point{{1, 0.5}}); err != nil {
		t.Errorf("tie on the edge: %v", err)
	}
}

package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/align"
)

// winding is a line with a bend and a grade break at each joint.
const winding = `  start: {elevation: 10 m}
  plan: [{tangent: 2.3 m}, {turn: 1 deg left}, {tangent: 2.3 m}, {turn: 0.6 deg right}, {tangent: 2.3 m}]
  profile: [{station: 0+000, elevation: 10 m}, {station: 0+002.3, elevation: 9.977 m}, {station: 0+004.6, elevation: 9.931 m}, {station: 0+006.9, elevation: 9.9195 m}]`

// alikeResults holds every check of two results against each other; name turns
// a subject of the first into that of the second. Brackets are alike when they
// have a value in common, but for a tolerance.
func alikeResults(t *testing.T, a, b *result.Result, name func(string) string, tolerance float64) {
	t.Helper()
	other := map[string]result.Entry{}
	for _, c := range b.Checks {
		other[c.ID+" "+c.Subject.String()] = c
	}
	if len(a.Checks) != len(b.Checks) || len(a.Checks) < 100 {
		t.Fatalf("%d checks and %d", len(a.Checks), len(b.Checks))
	}
	bends, rolls := 0, 0
	for _, c := range a.Checks {
		o, ok := other[c.ID+" "+name(c.Subject.String())]
		if !ok {
			t.Errorf("%s %s is not in the other", c.ID, name(c.Subject.String()))
			continue
		}
		if c.Verdict != o.Verdict || !common(c.Value, o.Value, tolerance) || math.Abs(c.Allowance-o.Allowance) > 1e-9 {
			t.Errorf("%s %s: %v %v less %g, the other %v %v less %g", c.ID, c.Subject, c.Verdict, c.Value, c.Allowance, o.Verdict, o.Value, o.Allowance)
		}
		if c.Value != nil && c.ID == "roll.bend" {
			bends++
		}
		if c.Value != nil && c.ID == "roll.clear" {
			rolls++
		}
	}
	if bends == 0 || rolls == 0 {
		t.Errorf("%d values of bends, %d of rolling: nothing was held", bends, rolls)
	}
}

// common tells whether two brackets have a value in common, or miss one by a
// tolerance.
func common(a, b *result.Bracket, tolerance float64) bool {
	if a == nil || b == nil {
		return a == b
	}
	if math.Abs(a.Lower-b.Lower) <= tolerance && math.Abs(a.Upper-b.Upper) <= tolerance {
		return true // a range that nobody knows better, such as a bond, is wide
	}
	return a.Lower <= b.Upper+tolerance && b.Lower <= a.Upper+tolerance && a.Upper-a.Lower < 0.05 && b.Upper-b.Lower < 0.05
}

func TestAnyBearingElevationAndStationOfARouteGiveTheSameAnswers(t *testing.T) {
	here := checked(t, worked.OnRoute(winding))
	far := strings.NewReplacer("start: {elevation: 10 m}", "start: {station: 3+000, elevation: 1510 m, bearing: 251.7 deg, easting: 455000 m, northing: 5400000 m}",
		"elevation: 10 m", "elevation: 1510 m", "elevation: 9.", "elevation: 1509.", "station: 0+00", "station: 3+00").Replace(winding)
	there := checked(t, worked.OnRoute(far))
	alikeResults(t, here, there, func(s string) string { return s }, 1e-9)
	// nothing is worked out in such large numbers, so the searches go the same way
	for i, c := range here.Checks {
		if o := there.Checks[i]; c.Value != nil && !(math.Abs(c.Value.Lower-o.Value.Lower) <= 1e-9 && math.Abs(c.Value.Upper-o.Value.Upper) <= 1e-9) {
			t.Errorf("%s %s: %v, there %s %v", c.ID, c.Subject, *c.Value, o.Subject, *o.Value)
		}
	}
}

func TestMirroredRouteGivesMirroredAnswers(t *testing.T) {
	leaning := winding + "\n  crossfall: 1 %"
	mirrored := strings.NewReplacer("left", "right", "right", "left", ": 1 %", ": -1 %").Replace(leaning)
	beside := func(line, skew string) [][2]string {
		return [][2]string{{"lines: [0 m]", "lines: [" + line + "]"}, {"  kicker: 300 mm", "  kicker: 300 mm\n  skew: {inlet: " + skew + "}\n  channel: {offset: " + line + ", width: 100 mm, depth: 50 mm}"},
			{"plate: 200 x 200 x 20 mm", "plate: 200 x 120 x 20 mm"}}
	}
	a := checked(t, worked.OnRoute(leaning, beside("0.03 m", "3 deg")...))
	b := checked(t, worked.OnRoute(mirrored, beside("-0.03 m", "-3 deg")...))
	alikeResults(t, a, b, mirrorName, 1e-7)
}

func TestSkewOfAMirroredBoxIsTheOppositeSkew(t *testing.T) {
	box := func(first, second, skew, turn string) *result.Result {
		return checked(t, worked.OnRoute("  plan: [{tangent: 2.3 m}, {turn: 0.7 deg "+turn+"}, {tangent: 4.6 m}]",
			[2]string{"  cells: 1\n  span: 3.0 m\n  rise: 2.4 m\n", "  cells: [{span: " + first + ", rise: 2.4 m}, {span: " + second + ", rise: 2.4 m}]\n  inner_wall: 200 mm\n  skew: {inlet: " + skew + ", outlet: " + skew + ", joints: along the skew}\n"}))
	}
	swap := strings.NewReplacer("left", "right", "right", "left", "cell 1", "cell 2", "cell 2", "cell 1")
	alikeResults(t, box("3.0 m", "3.04 m", "4 deg", "left"), box("3.04 m", "3.0 m", "-4 deg", "right"), swap.Replace, 1e-7)
}

// leastRolling is the least roll.clear to each zone over all pours.
func leastRolling(r *result.Result) map[string]result.Bracket {
	out := map[string]result.Bracket{}
	for _, c := range r.Checks {
		if c.ID != "roll.clear" || c.Value == nil {
			continue
		}
		zone := c.Subject.String()[strings.LastIndex(c.Subject.String(), ", ")+2:]
		v, ok := out[zone]
		if !ok {
			v = *c.Value
		}
		out[zone] = result.Between(math.Min(v.Lower, c.Value.Lower), math.Min(v.Upper, c.Value.Upper))
	}
	return out
}

// twoPours is a box of two pours that meet at a bend and a grade break.
type twoPours struct{ turn, gradeIn, gradeOut float64 }

// onThree puts the middle one of three wheel lines under the carrier.
func onThree(c chain) chain {
	c.Swap = append(c.Swap, [2]string{"[0.3 m, 2.1 m]", "[0.3 m, 1.2 m, 2.1 m]"})
	return c
}

// chain is its job, with the pours' lengths in plan.
func (p twoPours) chain(first, second float64, jobs ...[2]string) chain {
	alignment := fmt.Sprintf("  profile: [{station: 0, elevation: 0 m}, {station: %.9f m, elevation: %.9f m}, {station: %.9f m, elevation: %.9f m}]",
		first, p.gradeIn*first, first+second, p.gradeIn*first+p.gradeOut*second)
	if p.turn != 0 {
		side := map[bool]string{true: "left", false: "right"}[p.turn > 0]
		alignment += fmt.Sprintf("\n  plan: [{tangent: %.9f m}, {turn: %g deg %s}, {tangent: %.9f m}]", first, math.Abs(p.turn), side, second)
	}
	return worked.OnRoute(alignment, append(jobs, [2]string{"[2.3 m, 2.3 m, 2.3 m]", fmt.Sprintf("[%.9f m, %.9f m]", first, second)})...)
}

// A carrier that is its own mirror end for end goes through a box from either
// end. So that it stands in the same places, every pour is as long as the form.
func TestReversedTravelGivesTheSameLeastClearances(t *testing.T) {
	// On a bend in a grade pitches are added up, which leaves out grade x turn²/2
	// of slope: 2.4 micrometres a metre here, over a form of 2.4 m. What is taken
	// off for the invert's twist is a hundred times as much.
	mixed := 0.016 * math.Pow(math.Pi/180, 2) / 2 * 2.4
	asItIs := func(c chain) chain { return c }
	for _, c := range []struct {
		twoPours
		wheels    func(chain) chain
		tolerance float64
	}{{twoPours{1, 0, 0}, asItIs, 1e-9}, {twoPours{0, -0.010, -0.016}, asItIs, 1e-8}, {twoPours{1, 0.003, -0.003}, asItIs, 2e-8}, {twoPours{1, -0.010, -0.016}, asItIs, mixed},
		{twoPours{1, 0.003, -0.003}, onThree, mixed}} {
		first, second := 2.39, 2.39
		for range 3 { // a pour's length is measured in plan, its form's along its grade
			s := c.wheels(c.chain(first, second)).Study(t)
			form := float64(s.Gear.Form.Length)
			first, second = first+form-s.Bays[0].Needed, second+form-s.Bays[1].Needed
		}
		ahead := leastRolling(checked(t, c.wheels(c.chain(first, second))))
		reversed := twoPours{-c.turn, -c.gradeOut, -c.gradeIn}
		back := leastRolling(checked(t, c.wheels(reversed.chain(second, first, [2]string{"  kicker: 300 mm", "  kicker: 300 mm\n  order: [2, 1]"}, worked.Travels("leaves: inlet")))))
		if len(ahead) < 4 || len(ahead) != len(back) {
			t.Fatalf("%v: ahead %v, back %v", c.twoPours, ahead, back)
		}
		for zone, v := range ahead {
			if o := back[zone]; !common(&v, &o, c.tolerance) {
				t.Errorf("%v, %s: ahead %v, back %v", c.twoPours, zone, v, o)
			}
		}
	}
}

func TestVeryLargeRadiusEqualsATangent(t *testing.T) {
	c := worked.OnRoute("  grade: -1 %")
	on := func(radius float64) map[string]result.Bracket {
		s := c.Study(t)
		line, faults := align.New(align.Start{Grade: -0.01}, []align.Element{align.Arc(radius, 6.9)}, nil, 0)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		built, troubles := model.BuildOn(s.Job, s.Gear, line)
		if len(troubles) > 0 {
			t.Fatal(troubles)
		}
		return leastRolling(Run(built, Options{}))
	}
	flat := on(0)
	// pours of 2.3 m turn by 2.3 micrometres in a metre at their joints, which
	// throws the middle of a base of 1.8 m (B/2) tan(turn/2) = 1.035 micrometres
	throw := 0.9 * math.Tan(2.3/1e6/2)
	for _, radius := range []float64{1e6, -1e6} {
		curved := on(radius)
		if len(flat) < 4 || len(flat) != len(curved) {
			t.Fatalf("straight %v, curved %v", flat, curved)
		}
		for zone, v := range flat {
			if o := curved[zone]; !common(&v, &o, throw+1e-9) {
				t.Errorf("%s: straight %v, on a radius of %g %v", zone, v, radius, o)
			}
		}
	}
}

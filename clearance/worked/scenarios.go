package worked

import (
	"fmt"
	"math/rand"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"boxwalk/model"
	"boxwalk/model/job"
)

// Sequence replaces the gear's order.
func Sequence(steps ...string) [2]string {
	return [2]string{"gear: gear.yaml", "sequence:\n" + strings.Join(steps, "") + "gear: gear.yaml"}
}

// Travels adds to the travel group of a worked job.
func Travels(text string) [2]string {
	return [2]string{"travel: {capacity: 20 kN, restraint: {capacity: 10 kN}", "travel: {capacity: 20 kN, restraint: {capacity: 10 kN}, " + text}
}

// OnRoute is the worked cell with pours of 2.3 m and aprons at both ends, on a
// line.
func OnRoute(alignment string, jobs ...[2]string) Chain {
	list := [][2]string{{"pours: [2.3 m]", "pours: [2.3 m, 2.3 m, 2.3 m]"}, {"outlet: {apron: 12 m}", "inlet: {apron: 12 m}, outlet: {apron: 12 m}"},
		{"gear: gear.yaml", "alignment:\n" + alignment + "\ngear: gear.yaml"}}
	return Chain{Gear: "roof-halves-24", Jobs: append(list, jobs...)}
}

func Demo(b *testing.B, swap [][2]string) *model.Study {
	b.Helper()
	jobText, err := os.ReadFile(Path("jobs", "quarry-lane", "job.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	text := string(jobText)
	for _, s := range swap {
		if !strings.Contains(text, s[0]) {
			b.Fatalf("no %q", s[0])
		}
		text = strings.ReplaceAll(text, s[0], s[1])
	}
	gearText, err := os.ReadFile(Path("gear", "roof-halves-24.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	j, _, problems := job.Decode[job.Job]("job.yaml", []byte(text), job.PeekSystem(jobText))
	if j == nil {
		b.Fatal(problems.Error())
	}
	g, _, problems := job.Decode[job.Gear]("gear.yaml", gearText, job.PeekSystem(gearText))
	if g == nil {
		b.Fatal(problems.Error())
	}
	s, troubles := model.Build(j, g)
	if len(troubles) > 0 {
		b.Fatal(troubles)
	}
	return s
}

// WindingDemo are the changes that make the demo one cell of so many pours of
// 9 m, with a bend of 1 degree, left and right by turns, and a grade break at
// every joint. Every bend is greater than the one before by more, in degrees, so
// that no two pours are alike where that is not zero.
func WindingDemo(pours int, more float64) [][2]string {
	var plan, profile strings.Builder
	elevation := 182.4
	profile.WriteString("{station: 0, elevation: 182.4 m}")
	for i := range pours {
		if i > 0 {
			fmt.Fprintf(&plan, "{turn: %.4f deg %s}, ", 1+more*float64(i), [2]string{"right", "left"}[i%2])
		}
		plan.WriteString("{tangent: 9 m}, ")
		elevation -= 9 * [2]float64{0.010, 0.014}[i%2]
		fmt.Fprintf(&profile, ", {station: %d m, elevation: %.3f m}", 9*(i+1), elevation)
	}
	return [][2]string{{"cells: 2", "cells: 1"}, {"[8 m, 9.15 m, 8.85 m, 7.5 m]", fmt.Sprintf("{each: 9 m, total: %d m}", 9*pours)},
		{"[{tangent: 17.15 m}, {turn: 0.4 deg left}, {tangent: 16.35 m}]", "[" + strings.TrimSuffix(plan.String(), ", ") + "]"},
		{"[{station: 0+000, elevation: 182.400 m}, {station: 0+026, elevation: 182.010 m, curve: 6 m}, {station: 0+033.5, elevation: 181.785 m}]", "[" + profile.String() + "]"},
		{"lap: [165 mm, 0 mm, 0 mm]", "lap: 0 mm"}, {"skew: {inlet: 20 deg, outlet: 20 deg, joints: square}", "skew: {inlet: 0 deg}"}}
}

// Breaking is a line whose grade changes from one value to another, in
// per cent, at 9 m.
func Breaking(plan string, in, out float64) string {
	return BreakingAt("station: 0 m, elevation: 0 m", 0, plan, in, out)
}

// BreakingAt is the same from elsewhere.
func BreakingAt(start string, base float64, plan string, in, out float64) string {
	point := func(station, z float64) string {
		return fmt.Sprintf("{station: %g m, elevation: %.9f m}", station, base+z)
	}
	return broken("start: {" + start + "}, plan: [" + plan + "], profile: [" + point(0, 0) + ", " + point(9, 0.09*in) + ", " + point(18, 0.09*(in+out)) + "]")
}

const (
	FillersOut  = "  - {step: fillers and ties out}\n"
	BottomsIn   = "  - {step: wall bottoms in, drivers: {low brace: 590 mm}}\n"
	ArmsIn      = "  - {step: header arms fully in, drivers: {turnbuckle: 580 mm}}\n"
	ToWheels    = "  - {step: down to wheels, drivers: {jack: wheels}}\n"
	RaisePlates = "  - {step: raise jack plates, drivers: {jack: wheels - 60 mm}}\n"
)

const (
	Tangent = "{tangent: 18 m}"
	Left1   = "{tangent: 9 m}, {turn: 1 deg left}, {tangent: 9 m}"
	Right1  = "{tangent: 9 m}, {turn: 1 deg right}, {tangent: 9 m}"
)

// RandomBox is one of the worked carriers in a box that varies in span, rise,
// haunches and kicker, collapsed in some order by some readings. Many of them
// jam, dig or drag: what they do is a result, and a result can be proved.
func RandomBox(r *rand.Rand) Chain {
	gear := []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks", "roof-halves-43"}[r.Intn(4)]
	c := Chain{Gear: gear, Job: Cell24}
	span, rise := 3.0, 2.4
	if gear == "roof-halves-43" {
		c.Job, span, rise = Cell43, 4.27, 4.27
	}
	steps := append([]string{FillersOut}, movesOf(r, gear)...)
	c.Jobs = append(c.Jobs, Sequence(append(steps[:1+r.Intn(len(steps))], ToWheels)...))
	if r.Intn(2) == 0 {
		c.Jobs = append(c.Jobs, [2]string{fmt.Sprintf("span: %v m", trim(span)), fmt.Sprintf("span: %.4f m", span+0.08*(r.Float64()-0.5))},
			[2]string{fmt.Sprintf("rise: %v m", trim(rise)), fmt.Sprintf("rise: %.4f m", rise+0.05*(r.Float64()-0.5))})
	}
	if r.Intn(2) == 0 {
		side, from := 200+20*(r.Float64()-0.5), "200 x 200 mm"
		if gear == "roof-halves-43" {
			side, from = side+100, "300 x 300 mm"
		}
		haunch := fmt.Sprintf("%.1f x %.1f mm", side, side+10*(r.Float64()-0.5))
		c.Jobs = append(c.Jobs, [2]string{"top: " + from, "top: " + haunch})
		c.Swap = append(c.Swap, [2]string{"haunch: " + from, "haunch: " + haunch})
	}
	if r.Intn(2) == 0 {
		c.Jobs = append(c.Jobs, [2]string{"bottom: 150 x 150 mm", fmt.Sprintf("bottom: %s x %s", someWhere(r, 100, 200), someWhere(r, 100, 250))})
	}
	c.Vary = func(gear string) string { return nudged(r, gear) }
	return c
}

// movesOf are steps that a kind of carrier can make, with readings anywhere in
// what its adjusters have.
func movesOf(r *rand.Rand, gear string) []string {
	step := func(name, drivers string) string { return "  - {step: " + name + ", drivers: {" + drivers + "}}\n" }
	down := func(lo, hi float64) string { return "raised - " + someWhere(r, lo, hi) }
	out := []string{
		step("ease down to break the bond", "jack: "+down(5, 60)),
		step("uneven", "jack left: "+down(60, 115)+", jack right: "+down(60, 115)),
	}
	switch gear {
	case "roof-halves-24", "roof-halves-43":
		out = append(out,
			step("wall bottoms in", "low brace: raised - "+someWhere(r, 5, 140)),
			step("arms", "turnbuckle: raised - "+someWhere(r, 5, 120)),
			step("both", "turnbuckle: raised - "+someWhere(r, 5, 120)+", low brace: raised - "+someWhere(r, 5, 140)))
	case "roof-whole-24-jacks":
		out = append(out, step("roof down", "roof jack: "+someWhere(r, 5, 60)))
		fallthrough
	default:
		out = append(out, step("walls in", "draw screw: "+someWhere(r, 5, 130)), step("walls on", "draw screw: "+someWhere(r, 5, 130)))
	}
	r.Shuffle(len(out), func(i, k int) { out[i], out[k] = out[k], out[i] })
	return out
}

// someWhere is a length in millimetres between two.
func someWhere(r *rand.Rand, lo, hi float64) string {
	return fmt.Sprintf("%.1f mm", lo+(hi-lo)*r.Float64())
}

// trim writes a size as the worked jobs have it.
func trim(v float64) string {
	if s := strconv.FormatFloat(v, 'f', -1, 64); len(s) > 1 {
		return s
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}

// Bent is the worked cell with its whole form, two pours that meet at an angle.
func Bent(degrees string) string {
	return `
job: {name: bent cell, number: W-B}
culvert:
  cells: 1
  span: 3.0 m
  rise: 2.4 m
  roof: 300 mm
  invert: 300 mm
  outer_wall: 250 mm
  haunch: {top: 200 x 200 mm, bottom: 150 x 150 mm}
  kicker: 300 mm
  pours: [9 m, 9 m]
alignment:
  plan: [{tangent: 9 m}, {turn: ` + degrees + ` left}, {tangent: 9 m}]
schedule: {invert_age: 7 d, walls_age: 4 d, roof_age: 4 d}
concrete: {strength: 30 MPa, cement: N, curing: 16 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}
stand: {wind: 0.3 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}
anchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}
release: {walls: {strength: 5 MPa}, roof: {strength: 15 MPa}}
travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}
pour: {anchor: 80 kN}
capacities: {basis: permissible, source: plates of winch and restraint}
gear: gear.yaml
`
}

// broken is the worked cell with its whole form and two pours of 9 m that meet
// at a grade break, and maybe a bend.
func broken(alignment string) string {
	at := strings.Index(Bent("1 deg"), "alignment:")
	return Bent("1 deg")[:at] + "alignment: {" + alignment + "}\ngear: gear.yaml\n"
}

var millimetres = regexp.MustCompile(`-?[0-9.]+ mm`)

// nudged changes one in twelve sizes of a gear by up to a third.
func nudged(r *rand.Rand, gear string) string {
	return millimetres.ReplaceAllStringFunc(gear, func(m string) string {
		v, err := strconv.ParseFloat(m[:len(m)-3], 64)
		if err != nil || r.Intn(12) > 0 {
			return m
		}
		return fmt.Sprintf("%.1f mm", v*(1+(r.Float64()-0.5)*2/3))
	})
}

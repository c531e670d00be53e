package check

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/geom/exact"
)

// outside is how far, in exact arithmetic, a vertex lies outside a face at most.
// A face's normal is that of its whole loop (Newell).
func outside(s *geom.Solid) float64 {
	most := 0.0
	for _, loop := range s.Faces {
		o, n := exact.OfVec(s.Vertices[loop[0]]), exact.OfVec(geom.Vec{})
		for k := 1; k+1 < len(loop); k++ {
			n = n.Add(exact.OfVec(s.Vertices[loop[k]]).Sub(o).Cross(exact.OfVec(s.Vertices[loop[k+1]]).Sub(o)))
		}
		n = n.Unit()
		for _, v := range s.Vertices {
			most = math.Max(most, exact.OfVec(v).Sub(o).Dot(n).Float())
		}
	}
	return most
}

// rounded is how far the vertices of a convex solid may seem to lie outside: each
// coordinate is off by a few units in its last place, of a reach of 100 m at most,
// and what is convex to a nanometre is not cut.
const rounded = 1e-9 + 64*0x1p-53*100

// everySolid of a study, each once.
func everySolid(s *model.Study) map[string]*geom.Solid {
	out := map[string]*geom.Solid{}
	for _, b := range s.Bays {
		for _, p := range b.Carrier.Parts {
			if p.Role != carrier.Wheel { // prisms of 128 sides, made in one place
				out[p.Label()] = p.Solid
			}
		}
		for i, c := range b.Concrete {
			out[fmt.Sprint(c.Name, i)] = c.Solid
		}
		for i, c := range b.Before {
			out[fmt.Sprint("before ", c.Name, i)] = c.Solid
		}
		for i, c := range b.Route {
			out[fmt.Sprint("on the way ", c.Name, i)] = c.Solid
		}
	}
	return out
}

// shapes are sizes of a corner, a wall and a roof panel anywhere in what can be
// written, and of the haunch that they lie on.
func shapes(r *rand.Rand) func(string) string {
	pick := func(lo, hi float64) string { return fmt.Sprintf("%.1f mm", lo+(hi-lo)*r.Float64()) }
	run, rise := 20+300*r.Float64(), 20+300*r.Float64()
	return func(gear string) string {
		for _, s := range [][2]string{{"haunch: 200 x 200 mm", fmt.Sprintf("haunch: %.1f x %.1f mm", run, rise)}, {"haunch: 300 x 300 mm", fmt.Sprintf("haunch: %.1f x %.1f mm", run, rise)},
			{"return: 20 mm", "return: " + pick(0, rise)}, {"taper: 10 mm", "taper: " + pick(0, 60)}, {"depth: 100 mm\n  facing", "depth: " + pick(20, 300) + "\n  facing"}} {
			gear = strings.ReplaceAll(gear, s[0], s[1])
		}
		at := strings.Index(gear, "\nroof:")
		gear = gear[:at] + strings.Replace(gear[at:], "depth: 100 mm", "depth: "+pick(20, 300), 1)
		at = strings.Index(gear, "corner:")
		return gear[:at] + strings.Replace(gear[at:], "depth: 100 mm}", "depth: "+pick(20, 300)+"}", 1)
	}
}

func TestEverySolidOfEveryStudyIsConvex(t *testing.T) {
	studies := 45
	if testing.Short() {
		studies = 15
	}
	r := rand.New(rand.NewSource(18))
	built, cut, refused, why := 0, 0, map[string]int{}, ""
	for range studies {
		c := worked.RandomBox(r)
		c.Vary, c.Swap = shapes(r), nil
		s, trouble := c.Built(t)
		if s == nil {
			why = trouble
			refused[strings.Join(strings.Fields(why)[:3], " ")]++
			continue
		}
		built++
		for name, solid := range everySolid(s) {
			if off := outside(solid); !(off <= rounded) {
				t.Fatalf("%s: a vertex lies %g m outside a face\n%v %v", name, off, c.Gear, solid.Vertices)
			}
			if strings.Contains(name, ".2 ") {
				cut++
			}
		}
	}
	t.Logf("%d studies, %d panels cut; refused: %v, the last since %s", built, cut, refused, why)
	if built < studies/3 || cut < studies/3 {
		t.Errorf("%d of %d were built, and %d panels cut", built, studies, cut)
	}
}

// steep is the worked carrier on a haunch of 60 x 250 with panels 150 deep under
// the roof: the corner panel's edge, 10 mm off the filler at (1450, 2250), lies
// inside the line from the haunch to the back of the wall panel at (1400, 2150).
var steep = chain{Gear: "roof-whole-24", Swap: [][2]string{{"haunch: 200 x 200 mm", "haunch: 60 x 250 mm"}, {"taper: 10 mm", "depth: 150 mm\n  taper: 10 mm"},
	{"widths: [1140 mm]\n  depth: 100 mm\n", "widths: [1280 mm]\n"}, {"[1950 mm,", "[1900 mm,"}}, Jobs: [][2]string{{"top: 200 x 200 mm", "top: 60 x 250 mm"}}}

func TestACornerPanelThatTurnsInIsTwoSolidsOfOneMark(t *testing.T) {
	s := steep.Study(t)
	volume, mass, marks := 0.0, 0.0, []string{}
	for _, p := range s.Bays[0].Carrier.Parts {
		if p.Role == carrier.CornerPanel && p.Side > 0 {
			volume, mass, marks = volume+p.Volume(), mass+p.Mass.High, append(marks, p.At())
		}
	}
	// (1500, 2150), (1440, 2400), (1450, 2250), (1400, 2150), by the shoelace:
	// 2 A = 1500 2400 - 1440 2150 + 1440 2250 - 1450 2400 + 1450 2150 - 1400 2250
	//     + 1400 2150 - 1500 2150 = 16 500 mm2, and the form is 2.4 m long
	if want := 16500e-6 / 2 * 2.4; math.Abs(volume-want) > 1e-9 {
		t.Errorf("%v: %g m3, want %g", marks, volume, want)
	}
	// 65 kg/m2 of a face hypot(60, 250) wide, 2.4 m long
	if want := 65 * math.Hypot(0.060, 0.250) * 2.4; math.Abs(mass-want) > 1e-9 {
		t.Errorf("%v: %g kg, want %g", marks, mass, want)
	}
	if strings.Join(marks, " ") != "C1L C1L.2" {
		t.Errorf("marks %v", marks)
	}
	r := Run(s, Options{})
	for _, c := range r.Checks {
		if c.ID == "setup.faces" && strings.HasSuffix(c.Subject.String(), "corner panels on their faces") && c.Verdict != result.Pass {
			t.Error(c.Text)
		}
	}
}

// A roof panel 300 deep reaches below the seam of a haunch 200 high: the corner
// panel's back would have to run upward across its own edge. The least value that
// is refused is the fix's and a tenth of a millimetre more.
func TestACornerPanelThatCrossesItselfIsRefusedWithASizeThatWorks(t *testing.T) {
	c := chain{Gear: "roof-halves-24", Swap: [][2]string{{"depth: 100 mm\n  taper", "depth: 300 mm\n  taper"}, {"return: 20 mm, depth: 100 mm", "return: 20 mm, depth: 260 mm"}}}
	s, why := c.Built(t)
	if s != nil || !strings.Contains(why, "corner.depth") || !strings.Contains(why, "cross") || !strings.Contains(why, "(1480.0, 2220.0)") {
		t.Fatalf("not refused with its arithmetic: %s", why)
	}
	_, fix, _ := strings.Cut(why, "write at most ")
	var most float64
	if _, err := fmt.Sscanf(fix, "%f mm", &most); err != nil {
		t.Fatalf("%v: %s", err, why)
	}
	for by, want := range map[float64]bool{0: true, 0.2: false} {
		c.Swap[1][1] = fmt.Sprintf("return: 20 mm, depth: %.1f mm", most+by)
		if s, why := c.Built(t); (s != nil) != want {
			t.Errorf("corner.depth %.1f mm: built %v, %s", most+by, s != nil, why)
		}
	}
}

// Two bends of 45 degrees the same way, 1.3 m apart on the line: the wall's outer
// edge, 1750 off it, would be 1.3 - 2 x 1.75 tan 22.5 deg = -0.1497 m long.
func TestAPourWhoseEndsCrossIsRefused(t *testing.T) {
	line := "  start: {elevation: 10 m}\n  plan: [{tangent: 1.3 m}, {turn: 45 deg left}, {tangent: 1.3 m}, {turn: 45 deg left}, {tangent: 1.3 m}]\n  profile: [{station: 0+000, elevation: 10 m}, {station: 0+003.9, elevation: 10 m}]"
	s, why := worked.OnRoute(line, [2]string{"[2.3 m, 2.3 m, 2.3 m]", "[1.3 m, 1.3 m, 1.3 m]"}).Built(t)
	if s != nil || !strings.Contains(why, "culvert") || !strings.Contains(why, "-149.7 mm") || !strings.Contains(why, "longer than 1.450 m") {
		t.Errorf("not refused with its arithmetic: %s", why)
	}
}

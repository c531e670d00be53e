package plot

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// within holds that all that is drawn lies on the drawing, letters as wide as Wide
// says, and that no two names or numbers lie on each other.
func within(t interface {
	Errorf(string, ...any)
	Helper()
}, d Drawing) {
	t.Helper()
	var boxes [][4]float64
	for _, item := range d.Items {
		var points []Point
		switch i := item.(type) {
		case Stroke:
			points = i.Points
		case Area:
			points = i.Points
		case Ring:
			points = []Point{{i.At[0] - i.Radius, i.At[1] - i.Radius}, {i.At[0] + i.Radius, i.At[1] + i.Radius}}
		case Letters:
			wide := Wide(i.Text, i.Size)
			x := i.At[0] - map[Anchor]float64{Start: 0, Middle: wide / 2, End: wide}[i.Anchor]
			points = []Point{{x, i.At[1] - 0.75*i.Size}, {x + wide, i.At[1]}}
			boxes = append(boxes, [4]float64{x, i.At[1] - 0.75*i.Size, x + wide, i.At[1]})
		}
		for _, p := range points {
			if !(p[0] > -0.5 && p[0] < d.Width+0.5 && p[1] > -0.5 && p[1] < d.Height+0.5) {
				t.Errorf("%T reaches %v, outside %v x %v", item, p, d.Width, d.Height)
			}
		}
	}
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if min(a[2], b[2])-max(a[0], b[0]) > 0.5 && min(a[3], b[3])-max(a[1], b[1]) > 0.5 {
				t.Errorf("letters lie on each other: %v, %v", a, b)
			}
		}
	}
}

func TestEveryPlotStaysOnItsPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-1e3, 1e4)
		p := Plot{Title: "Clearance", Across: "Rear end, m", Up: "Clearance, mm", Most: rapid.SampledFrom([]float64{0, 200}).Draw(t, "most")}
		for range rapid.IntRange(0, 8).Draw(t, "curves") {
			c := Curve{Name: rapid.SampledFrom([]string{"wall", "bottom haunch", "steel ahead"}).Draw(t, "name"), Fill: rapid.Bool().Draw(t, "fill")}
			for range rapid.IntRange(0, 3).Draw(t, "runs") {
				var run []Point
				for range rapid.IntRange(1, 5).Draw(t, "points") {
					run = append(run, Point{value.Draw(t, "x"), value.Draw(t, "y")})
				}
				c.Runs = append(c.Runs, run)
			}
			p.Curves = append(p.Curves, c)
		}
		for range rapid.IntRange(0, 3).Draw(t, "levels") {
			p.Levels = append(p.Levels, Level{"limit 25.0 mm", value.Draw(t, "level")})
		}
		for _, c := range p.Curves {
			for _, run := range c.Runs {
				p.Marks = append(p.Marks, Mark{run[0], "told"})
			}
		}
		d := p.Draw(500, 240)
		for _, item := range d.Items {
			if l, is := item.(Letters); is && (l.Text == "-0" || l.Text == "NaN") {
				t.Fatalf("a division reads %s", l.Text)
			}
		}
		if len(d.Told) != len(p.Marks) {
			t.Fatal("a mark is not told")
		}
		inside(t, d)
	})
}

// inside is the first half of within: names may be many, and marks crowd.
func inside(t *rapid.T, d Drawing) {
	for _, item := range d.Items {
		if s, is := item.(Stroke); is {
			for _, p := range s.Points {
				if !(p[0] > -0.5 && p[0] < d.Width+0.5 && p[1] > -200 && p[1] < d.Height+0.5) || math.IsNaN(p[0]) {
					t.Fatalf("a line reaches %v, outside %v x %v", p, d.Width, d.Height)
				}
			}
		}
	}
}

func TestAPlotOfAFewCurvesHasItsNamesClearOfEachOther(t *testing.T) {
	p := Plot{Title: "Pull", Across: "Rear end, m", Up: "Force, kN", Stretches: []Stretch{{0, 9, "pour 1 to 2"}, {9, 18, "pour 2 to 3"}},
		Levels: []Level{{"winch 20.00 kN", 20}, {"restraint 10.00 kN", 10}}, Marks: []Mark{{Point{4, 6}, "a"}, {Point{4.1, 6}, "b"}},
		Curves: []Curve{{Name: "pull to start", Runs: [][]Point{{{0, 5}, {9, 6}}, {{9, 6}, {18, 5.9}}}}, {Name: "restraint", Runs: [][]Point{{{0, 5}, {18, 5.8}}}}}}
	within(t, p.Draw(500, 200))
}

func TestAChartKeepsBarsOnTheirLanes(t *testing.T) {
	c := Chart{Title: "Cycle", Across: "Hours from the start", Tones: []string{"work", "waiting for strength"},
		Lanes: []Lane{{"cell 1", []Bar{{0, 10, "pour 1", 0}, {10, 30, "release", 1}}}, {"cell 2", []Bar{{12, 20, "pour 1", 0}}}}}
	d := c.Draw(500)
	within(t, d)
	areas := 0
	for _, item := range d.Items {
		if a, is := item.(Area); is {
			areas++
			if high := a.Points[2][1] - a.Points[0][1]; high > laneHigh {
				t.Errorf("a bar is %v high", high)
			}
		}
	}
	if areas != 5 {
		t.Errorf("%d areas, want three bars and two tones of the key", areas)
	}
}

func TestStepsOfAnAxisAreOneTwoOrFiveAndFew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := rapid.Float64Range(1e-6, 1e6).Draw(t, "span")
		most := rapid.IntRange(2, 15).Draw(t, "most")
		step := niceStep(span, most)
		lead := step / math.Pow(10, math.Floor(math.Log10(step*(1+1e-9))))
		if math.Abs(lead-1) > 1e-6 && math.Abs(lead-2) > 1e-6 && math.Abs(lead-5) > 1e-6 {
			t.Fatalf("step %v of %v", step, span)
		}
		if n := len(divisions(0, span, most)); n > most+1 || n < 1 {
			t.Fatalf("%d divisions of %v, at most %d", n, span, most)
		}
	})
}

func TestTheFieldShowsEveryCurveAndLimit(t *testing.T) {
	p := Plot{Curves: []Curve{{Runs: [][]Point{{{0, -3}, {10, 40}}}}}, Levels: []Level{{"limit", 77}}}
	f := p.field(500, 200)
	for _, v := range []Point{{0, -3}, {10, 40}, {10, 77}} {
		if q := f.at(v); q[0] < f.left || q[0] > f.right || q[1] < f.top || q[1] > f.bottom || (q[1] == f.top || q[1] == f.bottom) {
			t.Errorf("%v falls on %v, not inside the field", v, q)
		}
	}
}

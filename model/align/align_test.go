package align

import (
	"errors"
	"math"
	"strings"
	"testing"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/units"

	"pgregory.net/rapid"
)

const deg = math.Pi / 180

func near1(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func must(t testing.TB, start Start, plan []Element, profile []PVI) *Alignment {
	t.Helper()
	a, faults := New(start, plan, profile, 0)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return a
}

// lane is the alignment of a culvert with a bend and a sag curve.
func lane(t testing.TB) *Alignment {
	return must(t, Start{Station: 0, Elevation: 182.4, Bearing: 74 * deg, Easting: 5000, Northing: 8000},
		[]Element{Tangent(17), AnglePoint(1 * deg), Tangent(16.5)},
		[]PVI{{0, 182.4, 0}, {26, 182.01, 6}, {33.5, 181.785, 0}})
}

func place(t testing.TB, a *Alignment, along float64) Place {
	t.Helper()
	p, err := a.At(along)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestBendTurnsTheLineLeftByItsAngle(t *testing.T) {
	a := lane(t)
	near1(t, "length", a.Length(), 33.5, 0)
	near1(t, "heading before", place(t, a, 16.999).Heading, 0, 0)
	near1(t, "heading at", place(t, a, 17).Heading, deg, 1e-15)
	near1(t, "bearing behind", place(t, a, 20).Bearing, 73*deg, 1e-14)
	end := place(t, a, 33.5)
	near1(t, "x", end.Point[0], 17+16.5*math.Cos(deg), 1e-12)
	near1(t, "y", end.Point[1], 16.5*math.Sin(deg), 1e-12)
	near1(t, "z", end.Point[2], 181.785-182.4, 1e-12)
	ground := a.GroundFromJob().Apply(end.Point)
	near1(t, "easting", ground[0], 5000+17*math.Sin(74*deg)+16.5*math.Sin(73*deg), 1e-9)
	near1(t, "northing", ground[1], 8000+17*math.Cos(74*deg)+16.5*math.Cos(73*deg), 1e-9)
	near1(t, "elevation", ground[2], 181.785, 1e-9)
	if b := a.AnglePoints(1e-6); len(b) != 1 || b[0].Along != 17 || b[0].Turn != deg {
		t.Errorf("angle points %+v", b)
	}
	if b := a.GradeBreaks(0); len(b) != 0 {
		t.Errorf("grade breaks %+v in a smooth profile", b)
	}
	if text := a.StationText(26.5, units.Metric); text != "0+026.5" {
		t.Errorf("station %q", text)
	}
}

// Elements of two circular curves: L = R d, chord 2R sin(d/2), T = R tan(d/2),
// E = R(sec(d/2) - 1), M = R(1 - cos(d/2)). The numbers are those stored in the
// open sample landxml_road_sample.xml (repository mac999/landxml_parser).
func TestElementsOfACircularCurveAreThoseOfAPublishedFile(t *testing.T) {
	for _, c := range []struct{ r, d, l, chord, tan, ext, mid float64 }{
		{1454.959355253642, 18.869460340846, 479.167891332, 477.005365309, 241.773153081, 19.951144740, 19.681265194},
		{800, 28.025482367016, 391.309553411, 387.420255541, 199.651372323, 24.536639859, 23.806476194},
	} {
		for _, side := range []float64{1, -1} {
			a := must(t, Start{}, []Element{Tangent(10), Arc(side*c.r, c.r*c.d*deg)}, nil)
			v := a.Curves()[0]
			near1(t, "L", v.Length(), c.l, 1e-8)
			near1(t, "angle", v.Angle(), side*c.d*deg, 1e-14)
			near1(t, "chord", v.Chord(), c.chord, 1e-8)
			near1(t, "T", v.Tangent(), c.tan, 1e-8)
			near1(t, "E", v.External(), c.ext, 1e-8)
			near1(t, "M", v.MidOrdinate(), c.mid, 1e-8)
			pour, err := a.Chord(10, a.Length())
			if err != nil {
				t.Fatal(err)
			}
			near1(t, "chord of a pour", pour.Length, c.chord, 1e-8)
			near1(t, "its mid-ordinate", pour.Plan, c.mid, 1e-8)
			near1(t, "its heading", pour.Heading, side*c.d*deg/2, 1e-12)
		}
	}
}

// M = R - sqrt(R² - c²/4), and the usual c²/8R: worked values.
func TestMidOrdinateOfAChordIsTheClosedForm(t *testing.T) {
	for _, c := range []struct{ r, chord, m, about float64 }{
		{30, 6, .150376887, .15}, {100, 10, .125078223, .125}, {50, 12, .361305416, .36},
	} {
		near1(t, "M", c.r-math.Sqrt(c.r*c.r-c.chord*c.chord/4), c.m, 1e-9)
		near1(t, "c²/8R", c.chord*c.chord/(8*c.r), c.about, 1e-12)
		length := 2 * c.r * math.Asin(c.chord/(2*c.r))
		pour, err := must(t, Start{}, []Element{Arc(c.r, length)}, nil).Chord(0, length)
		if err != nil {
			t.Fatal(err)
		}
		near1(t, "of a pour", pour.Plan, c.m, 1e-9)
	}
}

// Parabolic vertical curves, E = A L/800 and so on. The first is a textbook
// set-up that a public test asserts too (begin 60, end 140, 106 there, source
// seen second-hand); the two others are the profile of the open sample
// landxml_road_sample.xml (repository mac999/landxml_parser), in feet.
func TestVerticalCurvesHavePublishedValues(t *testing.T) {
	line := must(t, Start{Elevation: 100}, nil, []PVI{{0, 100, 0}, {100, 110, 80}, {200, 100, 0}})
	for along, z := range map[float64]float64{60: 106, 100: 108, 140: 106, 0: 100, 200: 100} {
		near1(t, "z", place(t, line, along).Elevation, z, 1e-12)
	}
	near1(t, "E", line.VerticalCurves()[0].Offset, -2, 1e-12)

	const z1, z2 = 347.203698864483, 352.844318087674
	const g1, g2, g3 = -0.005130311645, 0.009561483148, -0.007306398750
	const s1, s2 = 458.2832708594, 1048.214679610554
	road := must(t, Start{Elevation: z1 - g1*s1}, nil, []PVI{{0, z1 - g1*s1, 0}, {s1, z1, 150}, {s2, z2, 150}, {s2 + 100, z2 + 100*g3, 0}})
	v := road.VerticalCurves()
	near1(t, "grade between", v[0].GradeOut, g2, 1e-12)
	near1(t, "BVC", v[0].From, 383.283270859, 1e-9)
	near1(t, "its elevation", v[0].ElevationIn, 347.588472238, 1e-8)
	near1(t, "EVC", v[0].To, 533.283270859, 1e-9)
	near1(t, "its elevation", v[0].ElevationOut, 347.920810101, 1e-8)
	near1(t, "z at the PVI", v[0].AtPVI, 347.479170017, 1e-8)
	near1(t, "A", 100*(v[0].GradeOut-v[0].GradeIn), 1.469179479, 1e-8)
	near1(t, "R", v[0].Radius, 10209.780501, 1e-3)
	near1(t, "low point", v[0].ExtremeAt, 435.662626655, 1e-5)
	near1(t, "BVC of the crest", v[1].From, 973.214679611, 1e-9)
	near1(t, "its elevation", v[1].ElevationIn, 352.127206852, 1e-8)
	near1(t, "EVC", v[1].To, 1123.214679611, 1e-9)
	near1(t, "its elevation", v[1].ElevationOut, 352.296338181, 1e-8)
	near1(t, "z at the PVI", v[1].AtPVI, 352.528045302, 1e-8)
	near1(t, "high point", v[1].ExtremeAt, 1058.241506385, 1e-5)
	near1(t, "R", v[1].Radius, 8892.639924, 1e-3)
}

// poursOf are the pours of a culvert on a line, by their lengths.
func poursOf(a *Alignment, lengths ...units.Length) []culvert.Pour {
	return culvert.New(&job.Job{Culvert: job.Culvert{Pours: job.Pours{List: lengths}}}, a).Pours
}

func TestGradeBreakIsTheDifferenceOfTheAngles(t *testing.T) {
	// +2 % to -3 %: 2.864120840 degrees, worked by hand
	a := must(t, Start{}, nil, []PVI{{0, 0, 0}, {10, 0.2, 0}, {20, -0.1, 0}})
	b := a.GradeBreaks(0)
	if len(b) != 1 {
		t.Fatalf("%+v", b)
	}
	near1(t, "break", b[0].Turn, -2.864120840*deg, 1e-11)
	next := poursOf(a, 10, 10)[1]
	near1(t, "break at the joint", next.Break, b[0].Turn, 1e-12)
	near1(t, "its turn", next.Turn, 0, 0)
}

func TestPoursRoundACurveTurnByTheirLengthOverTheRadius(t *testing.T) {
	// 9 m pours on R = 90 m: 5.73 degrees at each joint, worked by hand
	a := must(t, Start{Grade: 0.02}, []Element{Arc(-90, 45)}, nil)
	for _, p := range poursOf(a, 9, 9, 9, 9, 9)[1:] {
		near1(t, "turn", p.Turn, -0.1, 1e-12)
		near1(t, "break", p.Break, 0, 1e-12)
	}
	third, err := a.Chord(18, 27)
	if err != nil {
		t.Fatal(err)
	}
	near1(t, "profile", third.Profile, 0, 1e-12)
}

func TestPourAcrossAnAnglePointStandsOffByTheTriangleHeight(t *testing.T) {
	a := must(t, Start{}, []Element{Tangent(17), AnglePoint(-2 * deg), Tangent(20)}, nil)
	c, err := a.Chord(14, 21)
	if err != nil {
		t.Fatal(err)
	}
	near1(t, "mid-ordinate", c.Plan, 3*4*math.Sin(2*deg)/c.Length, 1e-12)
	p, err := must(t, Start{}, nil, []PVI{{0, 0, 0}, {17, 0, 8}, {34, 0.68, 0}}).Chord(13, 21)
	if err != nil {
		t.Fatal(err)
	}
	// a parabola of length L and change of grade A rises A L/8 off its chord
	near1(t, "in profile", p.Profile, 0.04*8/8*math.Cos(p.Pitch), 1e-12)
}

func TestPlacesBeyondTheLineAreErrorsWithTheirNumbers(t *testing.T) {
	a := lane(t)
	for _, along := range []float64{-0.5, 34, math.NaN(), math.Inf(1)} {
		_, err := a.At(along)
		var beyond *Beyond
		if !errors.As(err, &beyond) {
			t.Errorf("at %g: %v", along, err)
		}
		if _, err := a.Chord(0, along); err == nil {
			t.Errorf("a chord to %g", along)
		}
		if _, err := a.JobFromStation(along); err == nil {
			t.Errorf("a frame at %g", along)
		}
	}
	_, err := a.Along(40)
	if err == nil || !strings.Contains(err.Error(), "40 m") || !strings.Contains(err.Error(), "33.5 m") || !strings.Contains(err.Error(), "6.5 m") {
		t.Errorf("got %v", err)
	}
	p := a.Point(36.5) // an apron runs on straight
	near1(t, "apron", p.Sub(a.Point(33.5)).Sub(geom.Vec{3 * math.Cos(deg), 3 * math.Sin(deg), -0.09}).Len(), 0, 1e-12)
}

func TestFaultsNameTheirKeyAndNumbers(t *testing.T) {
	ok := []Element{Tangent(30)}
	nan := math.NaN()
	for _, c := range []struct {
		start   Start
		plan    []Element
		profile []PVI
		fall    float64
		want    string
	}{
		{Start{}, nil, nil, 0, "plan: is not there"},
		{Start{}, []Element{Arc(2, 3)}, nil, 0, "plan[0].curve.radius: 2 m is not from 5 m"},
		{Start{}, []Element{Arc(10, 100)}, nil, 0, "plan[0].curve.length"},
		{Start{}, []Element{Tangent(nan)}, nil, 0, "plan[0].tangent"},
		{Start{}, []Element{Tangent(-3)}, nil, 0, "plan[0].tangent: -3 m"},
		{Start{}, []Element{Tangent(5), AnglePoint(2), Tangent(5)}, nil, 0, "plan[1].turn: 114.592 deg"},
		{Start{}, []Element{Tangent(5), AnglePoint(.1)}, nil, 0, "plan[1].turn: an angle point at the alignment's start or end"},
		{Start{}, ok, []PVI{{0, 0, 0}}, 0, "profile: has one point"},
		{Start{}, ok, []PVI{{0, 0, 0}, {20, 0, 0}, {15, 0, 0}, {30, 0, 0}}, 0, "profile[2].station: 15 m does not lie beyond 20 m"},
		{Start{}, ok, []PVI{{0, 0, 0}, {26, 0, 0}}, 0, "profile[1].station: the profile ends at 26 m, 4 m short"},
		{Start{}, ok, []PVI{{2, 0, 0}, {30, 0, 0}}, 0, "profile[0].station: the profile begins at 2 m"},
		{Start{}, ok, []PVI{{0, 0, 0}, {10, 0, 8}, {17, 0, 8}, {30, 0, 0}}, 0, "profile[2].curve: this vertical curve and the one before overlap"},
		{Start{}, ok, []PVI{{0, 0, 4}, {30, 0, 0}}, 0, "profile[0].curve: a vertical curve needs"},
		{Start{}, ok, []PVI{{0, 0, 0}, {30, 9, 0}}, 0, "profile[1].elevation: the grade of 30 %"},
		{Start{Elevation: 5}, ok, []PVI{{0, 5.2, 0}, {30, 5, 0}}, 0, "start.elevation: 5 m is not the profile's 5.2 m"},
		{Start{Grade: .5}, ok, nil, 0, "grade: 50 %"},
		{Start{Easting: nan}, ok, nil, 0, "start.easting"},
		{Start{}, ok, nil, .2, "crossfall: 20 %"},
	} {
		a, faults := New(c.start, c.plan, c.profile, c.fall)
		if a != nil || len(faults) == 0 || !strings.Contains(faults[0].Error(), c.want) {
			t.Errorf("got %v, want %q", faults, c.want)
		}
	}
}

// drawn is any sound line.
func drawn(t *rapid.T) *Alignment {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	plan := []Element{Tangent(f("first", 1, 30))}
	for range rapid.IntRange(0, 5).Draw(t, "elements") {
		if rapid.Bool().Draw(t, "bend") {
			plan = append(plan, AnglePoint(f("turn", -.3, .3)))
		}
		r := f("radius", 10, 1000)
		if rapid.Bool().Draw(t, "right") {
			r = -r
		}
		plan = append(plan, Arc(r, f("length", 0.1, 30)), Tangent(f("tangent", 0.1, 30)))
	}
	length := 0.0
	for _, e := range plan {
		length += e.Length
	}
	s := Start{Station: f("station", -100, 5000), Bearing: f("bearing", -7, 7), Easting: f("e", -1e5, 1e5), Northing: f("n", -1e5, 1e5)}
	var profile []PVI
	n := rapid.IntRange(0, 4).Draw(t, "points")
	for i := 0; n > 0 && i <= n+1; i++ {
		p := PVI{Station: s.Station + length*float64(i)/float64(n+1), Elevation: 50 + length*f("z", -.02, .02)/float64(n+1)}
		if i > 0 && i <= n {
			p.Curve = f("curve", 0, 1) * length / float64(n+1)
		}
		profile = append(profile, p)
	}
	if s.Elevation = 50; n > 0 {
		s.Elevation = profile[0].Elevation
	}
	a, faults := New(s, plan, profile, 0)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return a
}

func TestTheLineIsContinuousAndAsLongAsItsStations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawn(t)
		const h = 1e-4
		for _, x := range append(a.Breaks(), rapid.Float64Range(h, a.Length()-h).Draw(t, "x")) {
			before, after := a.Point(x-h/2), a.Point(x+h/2)
			if d := math.Hypot(after[0]-before[0], after[1]-before[1]); !(d <= h*(1+1e-6)) || d < 0.9*h {
				t.Fatalf("at %g the alignment runs %g m in plan over %g m", x, d, h)
			}
			if rise := math.Abs(after[2] - before[2]); rise > 0.3*h {
				t.Fatalf("at %g it jumps by %g m", x, rise)
			}
		}
	})
}

func TestFramesStandOnTheLineAlongItsTangent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawn(t)
		x := rapid.Float64Range(0, a.Length()-1e-5).Draw(t, "x")
		for _, b := range a.Breaks() {
			if math.Abs(b-x) < 2e-5 {
				t.Skip("at a joint")
			}
		}
		pose, err := a.JobFromStation(x)
		if err != nil {
			t.Fatal(err)
		}
		step := pose.Inverse().Apply(a.Point(x + 1e-5))
		if math.Abs(step[1]) > 1e-10 || math.Abs(step[2]) > 1e-10 || step[0] < 1e-5*(1-1e-6) {
			t.Fatalf("10 micrometres on the alignment is at %v", step)
		}
		if y := pose.Turn(geom.Vec{0, 1, 0}); y[2] != 0 {
			t.Fatal("y is not level")
		}
	})
}

func TestAPartOfTheLineTellsTheSamePlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawn(t)
		from := rapid.Float64Range(0, a.Length()*0.9).Draw(t, "from")
		to := rapid.Float64Range(from+0.05, a.Length()).Draw(t, "to")
		part, err := a.Between(from, to)
		if err != nil {
			t.Fatal(err)
		}
		x := rapid.Float64Range(from, to).Draw(t, "x")
		p, q := a.GroundFromJob().Apply(a.Point(x)), part.GroundFromJob().Apply(part.Point(x-from))
		if d := p.Sub(q).Len(); !(d < 1e-8) {
			t.Fatalf("off by %g", d)
		}
		if part.Station(0) != a.Station(from) {
			t.Fatal("another station")
		}
	})
}

func TestMidOrdinatesAreTheGreatestDistancesOfTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawn(t)
		from := rapid.Float64Range(0, a.Length()*0.8).Draw(t, "from")
		to := math.Min(a.Length(), from+rapid.Float64Range(0.1, 12).Draw(t, "pour"))
		c, err := a.Chord(from, to)
		if err != nil {
			t.Fatal(err)
		}
		sin, cos := math.Sincos(c.Heading)
		var most float64
		const n = 2000
		for i := range n + 1 {
			d := a.Point(from + (to-from)*float64(i)/n).Sub(c.Rear)
			most = math.Max(most, math.Abs(cos*d[1]-sin*d[0]))
		}
		if most > c.Plan+1e-11 || most < c.Plan*(1-1e-3)-2e-3*(to-from)/n*100 {
			t.Fatalf("sampled %g, told %g", most, c.Plan)
		}
	})
}

func TestAnyBearingElevationAndPlaceGiveTheSameLineInTheJobFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawn(t)
		s := a.Start()
		dz := rapid.Float64Range(-1e3, 1e3).Draw(t, "dz")
		plan, points := a.Elements()
		for i := range points {
			points[i].Elevation += dz
		}
		s.Bearing, s.Easting, s.Northing, s.Elevation = 1, 7e5, -3e6, s.Elevation+dz
		b, faults := New(s, plan, points, 0)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		x := rapid.Float64Range(0, a.Length()).Draw(t, "x")
		if d := a.Point(x).Sub(b.Point(x)).Len(); !(d < 1e-9) {
			t.Fatalf("off by %g", d)
		}
	})
}

func TestVeryLargeRadiusIsATangent(t *testing.T) {
	a := must(t, Start{}, []Element{Tangent(5), Arc(1e9, 0.5), Arc(-1e9, 0.5)}, nil)
	b := must(t, Start{}, []Element{Tangent(6)}, nil)
	near1(t, "distance", a.Point(6).Sub(b.Point(6)).Len(), 0, 1e-9)
}

func TestCrossfallIsKeptAndHeldAgainstItsLimit(t *testing.T) {
	a, faults := lane(t).WithCrossfall(0.02)
	if len(faults) > 0 || a.Crossfall() != 0.02 || a.Length() != 33.5 {
		t.Errorf("%v, %v", a, faults)
	}
	if a, faults = lane(t).WithCrossfall(math.NaN()); a != nil || len(faults) != 1 {
		t.Errorf("%v, %v", a, faults)
	}
}

package motion

import (
	"errors"
	"math"
	"testing"

	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

func mustCourse(t testing.TB, legs ...Leg) *Course {
	t.Helper()
	c, err := NewCourse(legs)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// onBase has its guides B apart on the body's centreline, the rear one at 0.
func onBase(b float64) Guides { return Guides{Front: geom.Vec{b, 0, 0}} }

func mustGuided(t testing.TB, c *Course, g Guides, from, to float64) *Guided {
	t.Helper()
	out, err := NewGuided(c, g, from, to)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestYawPastAnAnglePointFollowsTheClosedForm(t *testing.T) {
	const b, phi = 6.6, 3 * math.Pi / 180
	g := mustGuided(t, mustCourse(t, Leg{Length: 20}, Leg{Turn: phi}, Leg{Length: 20}), onBase(b), 5, 25)
	for i := range 101 {
		s := float64(i) / 100
		rear, front := g.Rear(s)-20, g.Front(s)-20
		want := 0.0
		switch {
		case rear >= 0:
			want = phi
		case front > 0: // sin psi = u sin phi / B, rear v before it: v = B cos psi - u cos phi
			want = math.Asin(front * math.Sin(phi) / b)
			near(t, "rear before the angle point", -rear, b*math.Cos(want)-front*math.Cos(phi), 1e-11)
		}
		near(t, "yaw", g.Yaw(s), want, 1e-12)
	}
}

func TestYawRateAtAnAnglePointIsTheClosedForm(t *testing.T) {
	const b, phi = 6.6, 1.5 * math.Pi / 180
	c := mustCourse(t, Leg{Length: 20}, Leg{Turn: phi}, Leg{Length: 20})
	g := mustGuided(t, c, onBase(b), 12, 19.5)
	cut := g.Stretches()
	if len(cut) != 2 {
		t.Fatalf("%d stretches, want 2", len(cut))
	}
	// by the rear guide's travel: sin chi = v sin phi / B, psi' = sin phi / (B cos chi), psi” = psi'^2 tan chi
	const s0, s1 = 0.5, 0.5001
	way := cut[1].Rear(1) - cut[1].Rear(0)
	chi := math.Asin((20 - cut[1].Rear(s0)) * math.Sin(phi) / b)
	rate := math.Sin(phi) / (b * math.Cos(chi)) * way
	got := cut[1].Bound(Ground, 0, s0, s1)
	near(t, "A of the rear guide", got.A, 0, 0)
	near(t, "Omega", got.Omega, rate, 1e-7)
	near(t, "Alpha", got.Alpha, rate*rate*math.Tan(chi), 1e-7)
}

func TestOnOneCircleABodyTurnsAboutItsCentre(t *testing.T) {
	for _, r := range []float64{90, -90} {
		g := mustGuided(t, mustCourse(t, Leg{Length: 60, Radius: r}), Guides{geom.Vec{1, 0.1, 0}, geom.Vec{7.6, -0.1, 0}}, 1, 40)
		b := g.Bound(Ground, 0, 0.2, 0.7)
		near(t, "A", b.A, 0, 0)
		near(t, "Alpha", b.Alpha, 0, 0)
		near(t, "Omega", b.Omega, 39/90.0, 1e-12)
		for _, s := range []float64{0, 0.3, 1} {
			if d := g.Pose(Ground, 0, s).Apply(b.C).Sub(geom.Vec{0, r, 0}).Len(); d > 1e-11 {
				t.Errorf("the centre is off by %g", d)
			}
		}
	}
}

// drawn is a course of tangents, bends and curves of both hands.
func drawn(t *rapid.T) *Course {
	var legs []Leg
	for range rapid.IntRange(1, 6).Draw(t, "legs") {
		l := Leg{Length: rapid.Float64Range(0.5, 25).Draw(t, "length")}
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 1:
			l.Radius = rapid.Float64Range(25, 500).Draw(t, "radius") * float64(rapid.IntRange(0, 1).Draw(t, "hand")*2-1)
		case 2:
			legs = append(legs, Leg{Turn: rapid.Float64Range(-0.15, 0.15).Draw(t, "turn")})
		}
		legs = append(legs, l)
	}
	c, err := NewCourse(legs)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func guided(t *rapid.T) *Guided {
	c := drawn(t)
	x := rapid.Float64Range(-2, 2).Draw(t, "x")
	guides := Guides{geom.Vec{x, rapid.Float64Range(-0.1, 0.1).Draw(t, "offset"), 0.1}, geom.Vec{x + rapid.Float64Range(2, 8).Draw(t, "base"), 0, 0}}
	from := rapid.Float64Range(-5, c.Length()).Draw(t, "from")
	g, err := NewGuided(c, guides, from, from+rapid.Float64Range(-30, 30).Draw(t, "way"))
	var sharp *TooSharp
	if errors.As(err, &sharp) {
		t.Skip("too sharp")
	}
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func TestBothGuidesStayOnTheCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := guided(t)
		s := rapid.Float64Range(0, 1).Draw(t, "s")
		p := g.Pose(Ground, 0, s)
		flat := func(v geom.Vec) geom.Vec { return geom.Vec{v[0], v[1], 0} }
		for _, at := range [][2]geom.Vec{{g.guides.Rear, g.course.Point(g.Rear(s))}, {g.guides.Front, g.course.Point(g.Front(s))}} {
			if d := flat(p.Apply(at[0])).Sub(at[1]).Len(); !(d < 1e-10) {
				t.Fatalf("a guide is %g off the course", d)
			}
		}
		if !(g.Front(s) > g.Rear(s)) {
			t.Fatal("the front guide is behind the rear one")
		}
	})
}

func TestGuidedBoundHoldsForSampledAccelerations(t *testing.T) {
	bounded := 0
	rapid.Check(t, func(t *rapid.T) {
		g := guided(t)
		cut := g.Stretches()
		g = cut[rapid.IntRange(0, len(cut)-1).Draw(t, "stretch")]
		if math.Abs(g.to-g.from) < 1e-3 {
			t.Skip("no way")
		}
		s0 := rapid.Float64Range(0, 0.95).Draw(t, "s0")
		s1 := rapid.Float64Range(s0+0.04, 1).Draw(t, "s1")
		b := g.Bound(Ground, 0, s0, s1)
		if math.IsInf(b.A, 0) || math.IsNaN(b.A+b.Omega+b.Alpha) {
			t.Fatalf("no bound on a stretch: %+v", b)
		}
		bounded++
		v := geom.Vec{rapid.Float64Range(-6, 12).Draw(t, "vx"), rapid.Float64Range(-3, 3).Draw(t, "vy"), 1}
		k := b.Curvature(v)
		h := (s1 - s0) / 100
		for i := range 9 {
			s := s0 + h + (s1-s0-2*h)*float64(i)/8
			p := func(s float64) geom.Vec { return g.Pose(Ground, 0, s).Apply(v) }
			got := p(s-h).Add(p(s+h)).Sub(p(s).Mul(2)).Len() / (h * h)
			// a second difference is an average of the acceleration; poses are good to 1e-12 m
			if got > k*(1+1e-9)+4e-12/(h*h) {
				t.Fatalf("acceleration %g above the bound %g", got, k)
			}
			if rate := math.Abs(g.Yaw(s+h)-g.Yaw(s-h)) / (2 * h); rate > b.Omega*(1+1e-9)+1e-12/h {
				t.Fatalf("yaw rate %g above the bound %g", rate, b.Omega)
			}
		}
	})
	if bounded == 0 {
		t.Error("no interval was bounded")
	}
}

func TestBoundOfAShortIntervalIsClose(t *testing.T) {
	// from a straight onto a curve: the yaw rate grows from 0 to 1/R over one base
	const b, r = 6.0, 60.0
	g := mustGuided(t, mustCourse(t, Leg{Length: 20}, Leg{Length: 20, Radius: r}), onBase(b), 14.5, 19.5)
	for _, s := range []float64{0.2, 0.5, 0.9} {
		const h = 1e-3
		got := g.Bound(Ground, 0, s-h, s+h)
		rate := (g.Yaw(s+h) - g.Yaw(s-h)) / (2 * h)
		spin := (g.Yaw(s+h) + g.Yaw(s-h) - 2*g.Yaw(s)) / (h * h)
		near(t, "Omega", got.Omega, rate, spin*h*1.05+1e-4*rate)
		near(t, "Alpha", got.Alpha, spin, 0.01*spin)
	}
}

func TestAnIntervalAcrossABreakHasNoBound(t *testing.T) {
	g := mustGuided(t, mustCourse(t, Leg{Length: 20}, Leg{Turn: 0.05}, Leg{Length: 20}), onBase(6), 10, 25)
	for _, s := range g.Breaks() {
		if b := g.Bound(Ground, 0, s-0.01, s+0.01); !math.IsInf(b.A, 1) {
			t.Errorf("across the break at %g the bound is %+v", s, b)
		}
	}
	if n := len(g.Breaks()); n != 2 {
		t.Errorf("%d breaks, want one for each guide", n)
	}
}

func TestReversedTravelGivesTheSamePoses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := guided(t)
		back := *g
		back.from, back.to = g.to, g.from
		s := rapid.Float64Range(0, 1).Draw(t, "s")
		v := geom.Vec{9, -1.5, 2}
		if d := g.Pose(Ground, 0, s).Apply(v).Sub(back.Pose(Ground, 0, 1-s).Apply(v)).Len(); !(d < 1e-10) {
			t.Fatalf("off by %g", d)
		}
	})
}

func TestVeryLargeRadiusIsATangent(t *testing.T) {
	straight := mustGuided(t, mustCourse(t, Leg{Length: 50}), onBase(6.6), 3, 30)
	curved := mustGuided(t, mustCourse(t, Leg{Length: 50, Radius: 1e13}), onBase(6.6), 3, 30)
	for _, s := range []float64{0, 0.31, 1} {
		for _, v := range []geom.Vec{{-1.3, 1.4, 2}, {8, -1.4, 0}} {
			near(t, "distance", curved.Pose(Ground, 0, s).Apply(v).Sub(straight.Pose(Ground, 0, s).Apply(v)).Len(), 0, 1e-9)
		}
	}
	near(t, "curvature", curved.Bound(Ground, 0, 0, 1).Curvature(geom.Vec{8, 1.4, 0}), 0, 1e-9)
}

func TestMirroredCourseMirrorsThePoses(t *testing.T) {
	legs := []Leg{{Length: 10}, {Turn: 0.04}, {Length: 12, Radius: 80}, {Length: 9}}
	var other []Leg
	for _, l := range legs {
		other = append(other, Leg{l.Length, -l.Radius, -l.Turn})
	}
	g := mustGuided(t, mustCourse(t, legs...), onBase(5), 0, 25)
	m := mustGuided(t, mustCourse(t, other...), onBase(5), 0, 25)
	for i := range 21 {
		a := g.Pose(Ground, 0, float64(i)/20).Apply(geom.Vec{7, 1, 2})
		b := m.Pose(Ground, 0, float64(i)/20).Apply(geom.Vec{7, -1, 2})
		near(t, "mirror", a.Sub(geom.Vec{b[0], -b[1], b[2]}).Len(), 0, 1e-11)
	}
}

func TestACourseTooSharpForTheBaseIsRefusedWithItsNumbers(t *testing.T) {
	_, err := NewGuided(mustCourse(t, Leg{Length: 30}, Leg{Length: 10, Radius: 5}), onBase(6), 0, 20)
	var sharp *TooSharp
	if !errors.As(err, &sharp) {
		t.Fatalf("got %v", err)
	}
	near(t, "stretch", sharp.Stretch, 7.2, 1e-12)
	near(t, "turn", sharp.Turn, 7.2/5, 1e-9)
	if _, err := NewGuided(mustCourse(t, Leg{Length: 30}, Leg{Turn: 0.6}, Leg{Length: 2}, Leg{Turn: -0.6}, Leg{Length: 30}), onBase(6), 0, 20); !errors.As(err, &sharp) {
		t.Errorf("turns to and fro: got %v", err)
	}
	if _, err := NewGuided(mustCourse(t, Leg{Length: 30}), Guides{}, 0, 20); err == nil {
		t.Error("guides at one point were taken")
	}
	for _, l := range []Leg{{Length: math.NaN()}, {Length: -1}, {Length: 1, Radius: math.NaN()}, {Turn: 4}} {
		if _, err := NewCourse([]Leg{{Length: 5}, l}); err == nil {
			t.Errorf("%v was taken", l)
		}
	}
}

func BenchmarkBoundPastAnAnglePoint(b *testing.B) {
	c, _ := NewCourse([]Leg{{Length: 20}, {Turn: 0.026}, {Length: 20}})
	g, _ := NewGuided(c, onBase(6.6), 12, 19.9)
	g = g.Stretches()[1]
	for b.Loop() {
		g.Bound(Ground, 0, 0.4, 0.6)
	}
}

package motion

import (
	"errors"
	"math"
	"testing"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
)

// twoLines is the worked carriage: wheelbase 6.60 m, form 9.30 m, guides on its
// wheel lines.
func twoLines() Carriage {
	return Carriage{Rear: 1.35, Front: 7.95, Wheels: []float64{1.35, 7.95}, Centre: 4.65, Uncertain: 0.1}
}

func threeLines(uncertain float64) Carriage {
	c := twoLines()
	c.Wheels = []float64{1.35, 4.65, 7.95}
	c.Uncertain = uncertain
	return c
}

func mustTrack(t testing.TB, grade float64, bends ...TrackJoint) *Track {
	t.Helper()
	out, err := NewTrack(grade, bends)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func mustRide(t testing.TB, track *Track, c Carriage, from, to float64) *Ride {
	t.Helper()
	out, err := NewRide(track, c, from, to, geom.Identity())
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// least is the least height over the track of a body point within x0..x1 along
// the track, over every way of a ride.
func leastHeight(r *Ride, over func(x float64) float64, points ...geom.Vec) float64 {
	least := math.Inf(1)
	for _, w := range r.Ways {
		for _, s := range w.Stretches {
			for i := range 401 {
				p := s.Pose(Ground, 0, float64(i)/400)
				for _, v := range points {
					q := p.Apply(v)
					least = math.Min(least, q[2]-over(q[0]))
				}
			}
		}
	}
	return least
}

func TestOverACrestTheMiddleComesDownByBaseTimesBreakOverFour(t *testing.T) {
	// 2.5 % from a level: 6.60 x 0.025 / 4 = 41.25 mm
	track := mustTrack(t, 0, TrackJoint{At: 20, Grade: -0.025})
	var belly []geom.Vec
	for x := 1.35; x <= 7.95; x += 0.01 {
		belly = append(belly, geom.Vec{x, 0, 0.1})
	}
	ground := func(x float64) float64 { return track.Point(x)[2] }
	got := 0.1 - leastHeight(mustRide(t, track, twoLines(), 1.35, 30), ground, belly...)
	near(t, "loss", got, 0.04125, 0.05e-3)
}

func TestInASagTheOverhangComesDownByItselfTimesBreak(t *testing.T) {
	// the front end, 1.35 beyond its wheels, as they reach the break: 1.35 x 0.025
	// = 33.75 mm
	track := mustTrack(t, 0, TrackJoint{At: 20, Grade: 0.025})
	ground := func(x float64) float64 { return track.Point(x)[2] }
	got := 0.1 - leastHeight(mustRide(t, track, twoLines(), 1.35, 30), ground, geom.Vec{9.3, 0, 0.1})
	near(t, "loss", got, 0.03375, 0.05e-3)
}

func TestAboveTheCrestTheTailRises(t *testing.T) {
	// by overhang x break, seen from the plane behind, when the front wheels run
	// down the grade beyond: at the end of the base's passage, rear at the break
	track := mustTrack(t, 0.025, TrackJoint{At: 20, Grade: 0})
	roof := func(x float64) float64 { return math.Min(0.025*(x-20), 0) + 0.5 }
	r := mustRide(t, track, twoLines(), 1.35, 30)
	most := math.Inf(-1)
	for _, s := range r.Ways[0].Stretches {
		for i := range 401 {
			p := s.Pose(Ground, 0, float64(i)/400)
			for _, x := range []float64{0, 9.3} {
				q := p.Apply(geom.Vec{x, 0, 0})
				most = math.Max(most, q[2]-roof(q[0]))
			}
		}
	}
	near(t, "tail above the plane behind", most, 1.35*0.025, 0.05e-3)
}

func TestACrestUnderTheMiddleOfThreeWheelLinesCarriesTheBodyOnEitherSide(t *testing.T) {
	// the break under the middle line, all three in reach: the body rests on the
	// rear pair along the grade behind or on the front pair along that ahead; the
	// other end line hangs 3.30 x 0.025 = 82.5 mm up
	const g = 0.025
	track := mustTrack(t, 0, TrackJoint{At: 20, Grade: -g})
	r := mustRide(t, track, threeLines(0.05), 1.35, 30)
	if len(r.Ways) != 2 {
		t.Fatalf("%d ways, want 2", len(r.Ways))
	}
	rear := 20 - 3.3 - 1e-9
	var pitch []float64
	var hang []float64
	for _, w := range r.Ways {
		d, s := w.at(rear)
		e := d.ahead(s)
		pitch = append(pitch, math.Asin(e[2]))
		for _, x := range []float64{1.35, 7.95} {
			p := d.Pose(Ground, 0, s).Apply(geom.Vec{x, 0, 0})
			hang = append(hang, p[2]-track.Point(p[0])[2])
		}
	}
	near(t, "on the rear pair", pitch[0], 0, 1e-9)
	near(t, "on the front pair", pitch[1], -math.Atan(g), 1e-5)
	near(t, "front line hangs", hang[1], 3.3*g, 0.05e-3)
	near(t, "rear line hangs", hang[2], 3.3*g, 0.1e-3)
}

func TestRestOfARideIsTheRestOnTheSameGround(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(8, 14).Draw(t, "at")
		g := [3]float64{rapid.Float64Range(-0.05, 0.05).Draw(t, "g0"), rapid.Float64Range(-0.05, 0.05).Draw(t, "g1"), rapid.Float64Range(-0.05, 0.05).Draw(t, "g2")}
		track, err := NewTrack(g[0], []TrackJoint{{At: at, Grade: g[1]}, {At: at + rapid.Float64Range(0.5, 9).Draw(t, "length"), Grade: g[2]}})
		if err != nil {
			t.Fatal(err)
		}
		c := threeLines(0)
		c.Centre = rapid.SampledFrom([]float64{3, 6.4}).Draw(t, "centre")
		r, err := NewRide(track, c, 1.35, 25, geom.Identity())
		if err != nil {
			t.Fatal(err)
		}
		rear := rapid.Float64Range(1.36, 24.9).Draw(t, "rear")
		d, s := r.Ways[0].at(rear)
		p := d.Pose(Ground, 0, s)
		ground := func(x float64) float64 { return track.Point(x)[2] }
		wheels := []Wheel{{1.35, 0}, {4.65, 0}, {7.95, 0}}
		rest, err := Rests(ground, p.T[0], wheels, c.Centre, 0)
		if err != nil {
			t.Fatal(err)
		}
		if off := math.Abs(rest[0].Pitch - math.Asin(p.R.At(2, 0))); off > 1e-7 {
			t.Fatalf("pitch off by %g", off)
		}
		if off := rest[0].Pose.T.Sub(p.T).Len(); off > 1e-6 {
			t.Fatalf("place off by %g", off)
		}
	})
}

// rideDrawn is a ride over bends and breaks of all kinds.
func rideDrawn(t *rapid.T) *Ride {
	var bends []TrackJoint
	at := rapid.Float64Range(-8, 5).Draw(t, "first")
	for range rapid.IntRange(1, 4).Draw(t, "bends") {
		bends = append(bends, TrackJoint{At: at, Turn: rapid.Float64Range(-0.15, 0.15).Draw(t, "turn"), Grade: rapid.Float64Range(-0.1, 0.1).Draw(t, "grade")})
		at += rapid.Float64Range(1, 12).Draw(t, "length")
	}
	track, err := NewTrack(rapid.Float64Range(-0.1, 0.1).Draw(t, "grade0"), bends)
	if err != nil {
		t.Fatal(err)
	}
	c := Carriage{Rear: 1, Wheels: []float64{0.5, 0}, Radius: rapid.Float64Range(0, 0.3).Draw(t, "radius")}
	base := rapid.Float64Range(2, 8).Draw(t, "base")
	c.Front = 1 + base
	c.Wheels = []float64{1, 1 + base}
	if rapid.Bool().Draw(t, "three") {
		c.Wheels = []float64{0.8, 1 + 0.4*base, 1 + 0.9*base}
	}
	c.Centre = 1 + 0.5*base
	if rapid.Bool().Draw(t, "rollers") {
		c.Guide, c.Beside = 1.5, 1.5
	}
	from := rapid.Float64Range(-10, 12).Draw(t, "from")
	r, err := NewRide(track, c, from, from+rapid.Float64Range(-12, 12).Draw(t, "way"), geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, 0.03))
	var sharp *TooSharp
	if errors.As(err, &sharp) {
		t.Skip("too sharp")
	}
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestRideBoundHoldsForSampledAccelerations(t *testing.T) {
	bounded := 0
	rapid.Check(t, func(t *rapid.T) {
		r := rideDrawn(t)
		list := r.Ways[0].Stretches
		x := list[rapid.IntRange(0, len(list)-1).Draw(t, "stretch")]
		if d, ok := x.(*Glide); ok && math.Abs(d.to-d.from) < 1e-3 {
			t.Skip("no way")
		}
		s0 := rapid.Float64Range(0, 0.95).Draw(t, "s0")
		s1 := rapid.Float64Range(s0+0.04, 1).Draw(t, "s1")
		b := x.Bound(Ground, 0, s0, s1)
		if math.IsInf(b.A, 0) || math.IsNaN(b.A+b.Omega+b.Alpha) {
			t.Fatalf("no bound: %+v", b)
		}
		bounded++
		v := geom.Vec{rapid.Float64Range(-6, 12).Draw(t, "vx"), rapid.Float64Range(-3, 3).Draw(t, "vy"), rapid.Float64Range(0, 4).Draw(t, "vz")}
		k := b.Curvature(v)
		h := (s1 - s0) / 100
		for i := range 9 {
			s := s0 + h + (s1-s0-2*h)*float64(i)/8
			p := func(s float64) geom.Vec { return x.Pose(Ground, 0, s).Apply(v) }
			got := p(s-h).Add(p(s+h)).Sub(p(s).Mul(2)).Len() / (h * h)
			if got > k*(1+1e-9)+2e-11/(h*h) {
				t.Fatalf("acceleration %g above the bound %g", got, k)
			}
		}
	})
	if bounded == 0 {
		t.Error("no interval was bounded")
	}
}

func TestStretchesOfARideJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, w := range rideDrawn(t).Ways {
			for i := 1; i < len(w.Stretches); i++ {
				a, b := w.Stretches[i-1].Pose(Ground, 0, 1), w.Stretches[i].Pose(Ground, 0, 0)
				for _, v := range []geom.Vec{{0, 1, 0}, {10, -1, 3}} {
					if d := a.Apply(v).Sub(b.Apply(v)).Len(); d > 1e-7 {
						t.Fatalf("a jump of %g m between stretches %d and %d", d, i-1, i)
					}
				}
			}
		}
	})
}

func TestCarriedWheelsStandOnTheGroundAndNoneIsInIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wheelsStand(t, rideDrawn(t), rapid.Float64Range(0, 1).Draw(t, "s"))
	})
}

// Guided 1.5 m beside four bends on a grade, where the ground steps by 23 mm. Over
// each step the wheel that rises lifts the front, and another line carries behind.
func TestAWheelThatStepsBesideABendLeavesNoOtherInTheGround(t *testing.T) {
	var bends []TrackJoint
	for i := range 4 {
		bends = append(bends, TrackJoint{At: 1 + float64(i), Turn: 0.15, Grade: 0.1})
	}
	c := Carriage{Rear: 1, Front: 3.75, Radius: 0.3, Centre: 2.375, Wheels: []float64{0.8, 2.1, 3.475}, Guide: 1.5, Beside: 1.5}
	r := mustRide(t, mustTrack(t, 0.1, bends...), c, -1, 0)
	for _, s := range []float64{0, 0.5, 1} {
		wheelsStand(t, r, s)
	}
}

// wheelsStand holds, s along each glide of a ride, that the wheel lines that carry
// are on the ground, that none is in it and that the front guide is on its course.
func wheelsStand(t rapid.TB, r *Ride, s float64) {
	t.Helper()
	for _, w := range r.Ways {
		for _, x := range w.Stretches {
			d, ok := x.(*Glide)
			if !ok {
				continue
			}
			e := d.ahead(s)
			p := d.axle(s, e)
			for i := range d.g.carriage.Wheels {
				q := p.Add(e.Mul(d.g.lever(i)))
				up := q[2] - d.g.planes[spanUnder(d.g.planes, flat(q))].under(flat(q))
				// a bend on a grade leaves a step beside its middle, and a wheel there
				// may count as past it
				step := stepBeside(d.g.planes, flat(q))
				if carries := i == d.on.low || i == d.on.high; carries && math.Abs(up) > 1e-9+step {
					t.Fatalf("wheel line %d carries at %g", i, up)
				} else if up < -1e-4-step {
					t.Fatalf("wheel line %d hangs %g deep", i, -up)
				}
			}
			front := p.Add(e.Mul(d.g.carriage.base()))
			k := d.g.course[d.on.front]
			if off := k.left().Dot(flat(front).Sub(k.at)); math.Abs(off) > 1e-10 {
				t.Fatalf("the front guide is %g off the course", off)
			}
		}
	}
}

// stepBeside is how high the step is at a point within a few millimetres of a bend,
// beside its middle; zero away from bends.
func stepBeside(spans []span, p mgl64.Vec2) float64 {
	most := 0.0
	for i := 1; i < len(spans); i++ {
		if math.Abs(beyondBend(spans, i, p)) < 5e-3 {
			most = math.Max(most, math.Abs(spans[i-1].under(p)-spans[i].under(p)))
		}
	}
	return most
}

// With the rear guide v before the angle point and the front one past it the body
// heads at h with B sin(phi - h) = v sin phi: the triangle of the two guides and the
// angle point.
func TestPlanOfALevelRideRoundABendIsTheClosedForm(t *testing.T) {
	const phi, base = 3 * math.Pi / 180, 6.6
	c := twoLines()
	if c.base() != base {
		t.Fatalf("base %g m", c.base())
	}
	r := mustRide(t, mustTrack(t, 0, TrackJoint{At: 20, Turn: phi}), c, 5, 25)
	for i := range 101 {
		v := 6 - 10.9*float64(i)/100
		d, at := r.Ways[0].at(20 - v)
		h, x, y := phi, 20-v, 0.0
		if v > 0 {
			h = phi - math.Asin(v*math.Sin(phi)/base)
		} else {
			x, y = 20-v*math.Cos(phi), -v*math.Sin(phi)
		}
		for _, p := range []geom.Vec{{c.Rear, 0, 0}, {0, 1, 0}, {9.3, -1, 3}} {
			sin, cos := math.Sincos(h)
			want := geom.Vec{x + (p[0]-c.Rear)*cos - p[1]*sin, y + (p[0]-c.Rear)*sin + p[1]*cos, p[2]}
			near(t, "distance", d.Pose(Ground, 0, at).Apply(p).Sub(want).Len(), 0, 1e-10)
		}
	}
}

func TestRideBoundOfOneAxisIsAttained(t *testing.T) {
	// the yaw past an angle point and the pitch over a break at the same angle
	// have one closed form: sin chi = v sin phi / B, chi' = sin phi/(B cos chi),
	// chi” = chi'² tan chi
	const phi = 0.02
	for name, track := range map[string]*Track{
		"yaw":   mustTrack(t, 0, TrackJoint{At: 20, Turn: phi}),
		"pitch": mustTrack(t, 0, TrackJoint{At: 20, Grade: math.Tan(phi)}),
	} {
		for _, x := range mustRide(t, track, twoLines(), 12, 25).Ways[0].Stretches {
			d := x.(*Glide)
			if d.Level() {
				continue
			}
			const s0, s1 = 0.4, 0.6
			b := d.Bound(Ground, 0, s0, s1)
			if b.Axis == (geom.Vec{}) {
				t.Errorf("%s: no axis", name)
			}
			// far from the axis omega² rho is nearly all of it
			v := b.C.Add(geom.Vec{1e3, 0, 0})
			const h = 0.05
			p := func(s float64) geom.Vec { return d.Pose(Ground, 0, s).Apply(v) }
			got := 0.0
			for s := s0 + h; s <= s1-h; s += 0.01 {
				got = math.Max(got, p(s-h).Add(p(s+h)).Sub(p(s).Mul(2)).Len()/(h*h))
			}
			if k := b.Curvature(v); got > k || got < 0.97*k {
				t.Errorf("%s: acceleration %g, bound %g", name, got, k)
			}
			angle := func(s float64) float64 {
				e := d.ahead(s)
				return math.Atan2(e[1], e[0]) + math.Asin(e[2])
			}
			rate := math.Abs(angle(0.501)-angle(0.499)) / 0.002
			if got := d.Bound(Ground, 0, 0.499, 0.501); math.Abs(got.Omega-rate) > 0.01*rate {
				t.Errorf("%s: Omega %g, %g by differences", name, got.Omega, rate)
			}
			spin := math.Abs(angle(0.51)+angle(0.49)-2*angle(0.5)) / 1e-4
			if got := d.Bound(Ground, 0, 0.499, 0.501); math.Abs(got.Alpha-spin) > 0.01*spin+1e-9 {
				t.Errorf("%s: Alpha %g, %g by differences", name, got.Alpha, spin)
			}
		}
	}
}

func TestReversedRideGivesTheSamePoses(t *testing.T) {
	track := mustTrack(t, 0.01, TrackJoint{At: 9, Turn: 0.02, Grade: -0.02}, TrackJoint{At: 18, Turn: -0.03, Grade: 0.03})
	there, back := mustRide(t, track, threeLines(0.05), 1.35, 12), mustRide(t, track, threeLines(0.05), 12, 1.35)
	for i, w := range there.Ways {
		for x := 1.35; x < 12; x += 0.07 {
			a, s := w.at(x)
			b, u := back.Ways[i].at(x)
			v := geom.Vec{9.3, 1, 2}
			near(t, "distance", a.Pose(Ground, 0, s).Apply(v).Sub(b.Pose(Ground, 0, u).Apply(v)).Len(), 0, 1e-9)
		}
	}
}

func TestMirroredTrackMirrorsTheRide(t *testing.T) {
	a := mustRide(t, mustTrack(t, 0.01, TrackJoint{At: 9, Turn: 0.02, Grade: -0.02}), twoLines(), 1.35, 12)
	b := mustRide(t, mustTrack(t, 0.01, TrackJoint{At: 9, Turn: -0.02, Grade: -0.02}), twoLines(), 1.35, 12)
	for x := 1.35; x < 12; x += 0.13 {
		d, s := a.Ways[0].at(x)
		e, u := b.Ways[0].at(x)
		p, q := d.Pose(Ground, 0, s).Apply(geom.Vec{9, 1, 2}), e.Pose(Ground, 0, u).Apply(geom.Vec{9, -1, 2})
		near(t, "mirror", p.Sub(geom.Vec{q[0], -q[1], q[2]}).Len(), 0, 1e-11)
	}
}

func TestTracksAndCarriagesThatAreNoneAreRefused(t *testing.T) {
	for _, b := range [][]TrackJoint{{{At: math.NaN()}}, {{At: 5}, {At: 4}}, {{At: 5, Turn: 2}}, {{At: 5, Grade: 0.5}}, {{Step: math.Inf(1)}}} {
		if _, err := NewTrack(0, b); err == nil {
			t.Errorf("%v was taken", b)
		}
	}
	track := mustTrack(t, 0)
	tips := twoLines()
	tips.Centre = 8
	var unstable *Unstable
	if _, err := NewRide(track, tips, 0, 1, geom.Identity()); !errors.As(err, &unstable) {
		t.Errorf("got %v", err)
	}
	var sharp *TooSharp
	hook := mustTrack(t, 0, TrackJoint{At: 10, Turn: 0.6}, TrackJoint{At: 12, Turn: -0.6})
	if _, err := NewRide(hook, twoLines(), 0, 10, geom.Identity()); !errors.As(err, &sharp) {
		t.Errorf("got %v", err)
	}
	if _, err := NewRide(track, Carriage{}, 0, 1, geom.Identity()); err == nil {
		t.Error("a carriage without guides was taken")
	}
	if _, err := NewRide(track, twoLines(), math.NaN(), 1, geom.Identity()); err == nil {
		t.Error("no place was taken")
	}
}

package proof

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// modelOf reads the records of one carrier with one step.
func modelOf(t interface {
	Fatalf(string, ...any)
	Helper()
}, records string) (*carrier, *step) {
	t.Helper()
	x := newText(stream(lines("carrier 0", records)), usual)
	m := &model{zones: map[string]string{}}
	for x.next() {
		if !m.record(x) {
			t.Fatalf("no record %q", x.words[0])
		}
	}
	if m.close(x); x.bad != nil {
		t.Fatalf("%v", x.bad)
	}
	return m.carriers[0], m.step
}

func coordinateAt(c *carrier, s *step, body int, x float64) float64 {
	return newInstant(&c.gear, s.drives, x, x).coordinate(body).v.mid()
}

func TestTurnByLinkFollowsTheLawOfCosines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// lever r from the hinge at the origin to (0,0,r), ground g to (0,-g,0)
		r, g := rapid.Float64Range(0.3, 3).Draw(t, "r"), rapid.Float64Range(0.3, 3).Draw(t, "g")
		least, most := math.Abs(r-g), r+g
		to := least + (most-least)*rapid.Float64Range(0.1, 0.9).Draw(t, "to")
		c, s := modelOf(t, lines(`body 0 -1 turn 1,0,0 0,0,0 0 "panel"`, "link 0 -1 0 "+point(0, -g, 0)+" "+point(0, 0, r),
			`step 1 strip "s"`, "drive 0 "+num(math.Hypot(r, g))+" "+num(to)))
		want := math.Pi/2 - math.Acos((r*r+g*g-to*to)/(2*r*g))
		if got := coordinateAt(c, s, 0, 1); math.Abs(got-want) > 1e-12 {
			t.Fatalf("angle %g, the triangle gives %g", got, want)
		}
		if got := coordinateAt(c, s, 0, 0); math.Abs(got) > 1e-12 {
			t.Fatalf("angle %g as raised", got)
		}
	})
}

func TestLadderSlidesDownAWall(t *testing.T) {
	c, s := modelOf(t, lines(ladderBodies, `step 1 strip "s"`, "drive 0 0 1"))
	for n := range 11 {
		x := float64(n) / 10
		want := math.Sqrt(25-(3+x)*(3+x)) - 4
		if got := coordinateAt(c, s, 1, x); math.Abs(got-want) > 1e-13 {
			t.Errorf("at %g the top is at %g, not %g", x, got, want)
		}
	}
	q := newInstant(&c.gear, s.drives, 0, 0).coordinate(1)
	if math.Abs(q.d.mid()+0.75) > 1e-12 || math.Abs(q.dd.mid()+25.0/64) > 1e-12 { // -y/z, -l²/z³
		t.Errorf("speed %v, acceleration %v, not -3/4 and -25/64", q.d, q.dd)
	}
}

func TestAimPointsAtTheFarPin(t *testing.T) {
	c, s := modelOf(t, lines(aimBodies, `step 1 strip "s"`, "drive 0 0 1"))
	in := newInstant(&c.gear, s.drives, 1, 1)
	q := in.coordinate(2)
	want := math.Atan2(4, -4) - math.Atan2(4, -3)
	if math.Abs(q.v.mid()-want) > 1e-14 {
		t.Errorf("turned by %v, not %g", q.v, want)
	}
	if got := in.pose(ground, 2).apply(vec{0, 0, 4}); math.Abs(math.Atan2(got[2], got[1]-4)-math.Atan2(4, -4)) > 1e-14 {
		t.Errorf("the raised far pin is carried to %v, off the line to the far pin", got)
	}
}

// machines are carriers with many kinds of joint in line; the numbers are drives.
var machines = []struct {
	name, bodies string
	drives       []int
	around       []float64 // what a drive starts from
	last         int
}{
	{"turns about one axis", `body 0 -1 turn 1,0,0 0,0,0 - "a"
body 1 0 slide 0,0.6,0.8 0,0,0 - "b"
body 2 1 turn 1,0,0 0,1,0 - "c"
body 3 2 turn -1,0,0 0,1,2 - "d"`, []int{0, 1, 2, 3}, []float64{0, 0, 0, 0}, 3},
	{"turns about three axes", `body 0 -1 turn 1,0,0 0,0,0 - "a"
body 1 0 turn 0,1,0 0,1,0 - "b"
body 2 1 slide 0,0,2 0,0,0 - "c"
body 3 2 turn 0,0,1 1,0,1 - "d"
body 4 3 turn 1,0,0 0,2,1 - "e"`, []int{0, 1, 2, 3, 4}, []float64{0, 0, 0, 0, 0}, 4},
	{"a panel by a link from a lever", `body 0 -1 turn 1,0,0 0,-2,0 - "lever"
body 1 -1 slide 0,0,1 0,0,0 - "lift"
body 2 1 turn 1,0,0 0,0,0 0 "panel"
body 3 2 turn 1,0,0 0,0,2 - "flap"
link 0 0 2 0,-2,1 0,0,1.5`, []int{0, 1, 2, 3}, []float64{0, 0, math.Sqrt(4.25), 0}, 3},
	{"a slide by a link from a lever", `body 0 -1 turn 1,0,0 0,-2,0 - "lever"
body 1 -1 slide 0,0.2,0.9 0,0,0 0 "slide"
body 2 1 turn 0,1,0 0,0,2 - "flap"
link 0 0 1 0,-2,1 0,0.5,3`, []int{0, 1, 2}, []float64{0, math.Sqrt(6.25 + 4), 0}, 2},
	{"a bar that aims", `body 0 -1 turn 1,0,0 0,-2,0 - "lever"
body 1 -1 turn 1,0,0 0,0,0 - "panel"
body 2 1 aim 1,0,0 0,0,1.5 0 "bar"
link 0 0 1 0,-2,1 0,0,1.5`, []int{0, 1}, []float64{0, 0}, 2},
}

// The bound K of a point holds against second differences of where poses put it.
func TestCurvatureBoundHoldsAgainstSecondDifferences(t *testing.T) {
	for _, m := range machines {
		t.Run(m.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				text := m.bodies + "\nstep 1 strip \"s\"\n"
				for i, b := range m.drives {
					to := m.around[i] + rapid.SampledFrom([]float64{0, 0.3, -0.3, 0.1}).Draw(t, "turn")
					from := m.around[i] + rapid.SampledFrom([]float64{0, 0.2, -0.2}).Draw(t, "start")
					text += lines("drive " + itoa(b) + " " + num(from) + " " + num(to))
				}
				c, s := modelOf(t, text)
				p := vec{rapid.Float64Range(-3, 3).Draw(t, "x"), rapid.Float64Range(-3, 3).Draw(t, "y"), rapid.Float64Range(-3, 3).Draw(t, "z")}
				holdCurvature(t, c, s, m.last, p)
			})
		})
	}
}

func holdCurvature(t *rapid.T, c *carrier, s *step, body int, p vec) {
	t.Helper()
	const h = 1.0 / 64
	s0 := rapid.Float64Range(0, 0.75).Draw(t, "s0")
	s1 := s0 + rapid.SampledFrom([]float64{2 * h, 0.1, 0.25}).Draw(t, "length")
	over := newInstant(&c.gear, s.drives, s0, s1)
	k := over.curve(curve{}, ground, body)
	n := rapid.SampledFrom([]vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.6, 0.8, 0}, {0.8, 0, -0.6}}).Draw(t, "n")
	most, along := k.of(p, 1), k.of(p, k.across(n))
	place := func(x float64) vec { return newInstant(&c.gear, s.drives, x, x).pose(ground, body).apply(p) }
	for x := s0 + h; x <= s1-h; x += h {
		a := place(x - h).add(place(x + h)).sub(place(x).mul(2)).mul(1 / (h * h))
		if over.why == "" && !(a.length() <= most+1e-9 && math.Abs(a.dot(n)) <= along+1e-9) {
			t.Fatalf("at %g the point curves by %g, %g along %v, and the bounds are %g and %g", x, a.length(), a.dot(n), n, most, along)
		}
	}
}

// Enclosures hold the coordinate at every moment within.
func TestCoordinatesOverAnIntervalHoldThoseWithin(t *testing.T) {
	for _, m := range machines[2:] {
		rapid.Check(t, func(t *rapid.T) {
			text := m.bodies + "\nstep 1 strip \"s\"\n"
			for i, b := range m.drives {
				text += lines("drive " + itoa(b) + " " + num(m.around[i]) + " " + num(m.around[i]+rapid.Float64Range(-0.3, 0.3).Draw(t, "to")))
			}
			c, s := modelOf(t, text)
			s0 := rapid.Float64Range(0, 0.8).Draw(t, "s0")
			over := newInstant(&c.gear, s.drives, s0, s0+0.2)
			x := s0 + 0.2*rapid.Float64Range(0, 1).Draw(t, "s")
			in := newInstant(&c.gear, s.drives, x, x)
			for b := range c.bodies {
				w, n := over.coordinate(b), in.coordinate(b)
				if over.why != "" {
					return
				}
				for i, pair := range [3][2]iv{{w.v, n.v}, {w.d, n.d}, {w.dd, n.dd}} {
					if got := pair[1].mid(); got < pair[0].lo-1e-12 || got > pair[0].hi+1e-12 {
						t.Fatalf("%s: derivative %d of body %d is %g at %g, outside %v", m.name, i, b, got, x, pair[0])
					}
				}
			}
		})
	}
}

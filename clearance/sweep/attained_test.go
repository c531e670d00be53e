package sweep

import (
	"math"
	"testing"

	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// tight is a motion over [0, 1] at whose end values and one bound on curvature
// the plane bound is nearly the least gap itself. The part is a fine tip, so that
// one vertex decides; n looks to the face it passes.
type tight struct {
	name string
	m    Motion
	body int
	tip  geom.Vec // in body coordinates
	n    geom.Vec
	wall float64 // n.p of the face
}

// gap of the tip at s.
func (c *tight) gap(s float64) float64 {
	return c.wall - c.n.Dot(c.m.Pose(Ground, c.body, s).Apply(c.tip))
}

// least is the least gap over a dense sample: within 1e-4 of the sagitta.
func (c *tight) least() float64 {
	least := math.Inf(1)
	for i := range 2001 {
		least = math.Min(least, c.gap(float64(i)/2000))
	}
	return least
}

// bound is the plane bound with the curvature scaled.
func (c *tight) bound(scale float64) float64 {
	m := bent{c.m, func(b geom.Bound) geom.Bound {
		b.A *= scale
		b.Alpha *= scale
		b.Omega *= math.Sqrt(scale)
		return b
	}}
	const fine = 1e-6
	tip := c.tip
	part := Part{c.body, block(tip[0]-fine, tip[0], tip[1]-fine, tip[1], tip[2]-fine, tip[2])}
	face := geom.Block(geom.Box{Min: geom.Vec{0, -5, -5}, Max: geom.Vec{1, 5, 5}}).Moved(facing(c.n, c.wall))
	var w cache
	w.reset(m, Ground)
	var s stretch
	s.load(&w, part, ground(solidOf(face)), 0, 1)
	return s.plane(xyz(c.n[0], c.n[1], c.n[2]))
}

// facing takes x to n and the origin to the face.
func facing(n geom.Vec, wall float64) geom.Pose {
	axis := geom.Vec{1, 0, 0}.Cross(n)
	p := geom.Identity()
	if l := axis.Len(); l > 0 {
		p = geom.Rotation(geom.Vec{}, axis.Mul(1/l), math.Atan2(l, n[0]))
	}
	return geom.Translation(n.Mul(wall)).Mul(p)
}

// tights are one case for each way in which a joint bends a path. half is the
// half width of the interval in the joint's own unit.
func tights(t *testing.T) []tight {
	const half = 0.02
	x := geom.Vec{1, 0, 0}
	// A slide on a hinge, passing the hinge: the path bends by twice the rates'
	// product, towards where the slide's direction turns. The turn is so small
	// that its own share, Om^2 d against 2 Om d', is nothing.
	coriolis := tree{
		{parent: Ground, hinge: true, dir: alongY, drive: drive{q0: -half / 40, q1: half / 20}},
		{parent: 0, dir: x, drive: drive{q0: -0.02, q1: 0.04}},
	}
	// A slide that slows down and turns back half way.
	push := tree{{parent: Ground, dir: x, drive: drive{q0: 0, q1: 0.5, q2: -1}}}
	return []tight{
		{"hinge", hinge(geom.Vec{}, alongY, 0).through(-half, half), 0, geom.Vec{2, 0, 0}, x, 2.01},
		{"chain of two hinges", twoHinges(t, half), 1, geom.Vec{2, 0, 0}, x, 2.01},
		{"slide on a hinge", coriolis, 1, geom.Vec{0, 0, 0}, geom.Vec{0, 0, 1}, 0.001},
		{"slide that slows down", push, 0, geom.Vec{0, 0, 0}, x, 0.2},
		{"hinge driven by a link", linkDriven(t), 0, geom.Vec{2, 0, 0}, x, 2.01},
	}
}

// through replaces the drive of body 0.
func (t tree) through(from, to float64) tree {
	t[0].drive = drive{q0: from, q1: to - from}
	return t
}

// twoHinges is an arm that is straight half way, where the tip is farthest out:
// 1.2 m at the first rate and 0.8 m at the sum of both.
func twoHinges(t *testing.T, half float64) Motion {
	t.Helper()
	joint := motion.Joint{Kind: motion.Revolute, Axis: alongY, Link: motion.None}
	m := &motion.Mechanism{Bodies: []motion.Body{{Name: "arm", Parent: Ground, Joint: joint}, {Name: "hand", Parent: 0, Joint: joint}}}
	m.Bodies[1].Joint.Pin = geom.Vec{1.2, 0, 0}
	p, err := motion.NewPath(m, []motion.Drive{{From: -half, To: half}, {From: -half, To: half}})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// linkDriven turns a lever by a link that stands square to it half way, where
// the angle's rate is least and hardly changes. The tip is farthest out there.
func linkDriven(t *testing.T) Motion {
	t.Helper()
	const a, b, stroke = 1.0, 0.5, 0.0005
	// Square: a² = b² + l². The lever's pin is at the angle whose cosine is b/a
	// from the far pin.
	square := math.Sqrt(a*a - b*b)
	m := &motion.Mechanism{
		Bodies: []motion.Body{{Name: "lever", Parent: Ground,
			Joint: motion.Joint{Kind: motion.Revolute, Axis: alongY, Link: 0}}},
		Links: []motion.Link{{Name: "link", A: Ground, B: 0,
			PinA: geom.Vec{0, 0, a}, PinB: geom.Vec{math.Sqrt(1-b*b/(a*a)) * b, 0, b * b / a}}},
	}
	p, err := motion.NewPath(m, []motion.Drive{{From: square - stroke, To: square + stroke}})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A bound on curvature that is not attained somewhere could be made smaller: 95 %
// of it would be wrong here.
func TestEachBoundOnCurvatureIsAttainedAndNoSmallerOneWouldDo(t *testing.T) {
	for _, c := range tights(t) {
		least, bound := c.least(), c.bound(1)
		// What the bound takes off for bending: all of it must be needed.
		straight := c.bound(0)
		taken := straight - bound
		if bound > least || least-bound > 0.01*taken {
			t.Errorf("%s: bound %.9g, least %.9g: %.2g %% of the %.3g m taken off for bending is not needed", c.name, bound, least, 100*(least-bound)/taken, taken)
		}
		if less := c.bound(0.95); less <= least {
			t.Errorf("%s: with 95 %% of the curvature the bound is %.9g, still not above %.9g", c.name, less, least)
		}
	}
}

package motion

import (
	"fmt"
	"math"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
)

// Carriage is a rigid body as it is guided and carried. Its two guides, in its
// own coordinates, run in plan on the course that lies Beside to the left of
// the track: two wheel lines on the centreline (Beside and the guides' y are
// zero), wheels steered beside it, or rollers on a wall (both as far out). A
// body whose guides are set to run elsewhere than they stand with its middle on
// the track is moved over first, and back at the end. It stands on wheel lines at the given places
// ahead; all wheels have one radius and touch z = 0 of the body. Centre is
// where its centre of gravity is along it, Uncertain how far that may be off.
type Carriage struct {
	Rear, Front, Guide float64 // guides: ahead in the body, and left
	Beside             float64 // of the course, left of the track
	Wheels             []float64
	Radius             float64
	Centre, Uncertain  float64
}

func (c Carriage) base() float64 { return c.Front - c.Rear }

// check names what is wrong with a carriage.
func (c Carriage) check() error {
	if !(c.base() > 1e-3 && c.base() < apart/10) || !(math.Abs(c.Guide) < 100) || !(math.Abs(c.Beside) < 100) || !(c.Radius >= 0 && c.Radius < 10) {
		return fmt.Errorf("guides at %g and %g m, %g m left, with wheels of radius %g m, guide nothing", c.Rear, c.Front, c.Guide, c.Radius)
	}
	if len(c.Wheels) < 2 {
		return fmt.Errorf("a body on %d wheel lines does not stand", len(c.Wheels))
	}
	for i, x := range c.Wheels {
		if math.IsNaN(x) || (i > 0 && !(x > c.Wheels[i-1]+1e-3)) {
			return fmt.Errorf("wheel line %d at %g m does not lie ahead of the one before", i+1, x)
		}
	}
	if first, last := c.Wheels[0], c.Wheels[len(c.Wheels)-1]; !(c.Uncertain >= 0 && c.Centre-c.Uncertain > first && c.Centre+c.Uncertain < last) {
		return &Unstable{c.Centre, c.Uncertain, first, last}
	}
	return nil
}

// Stretch is a piece of a ride over which every point moves smoothly while s
// runs over [0, 1]: body 0 seen from Ground, with a bound on any interval. Rear
// is how far along the course the rear guide is.
type Stretch interface {
	Pose(ref, body int, s float64) geom.Pose
	Bound(ref, body int, s0, s1 float64) geom.Bound
	ErrorBound(ref, body int, s float64) geom.ErrorBound
	Rear(s float64) float64
}

// Ride is a carriage on a track, over ground of several grades and round bends:
// one way for each way in which it may stand on its wheels.
type Ride struct {
	Ways []RideWay
	g    *ground
}

// RideWay is a ride with the centre of gravity over one place: stretch after
// stretch from From to To.
type RideWay struct {
	Over      float64
	Stretches []Stretch
}

// ground is everything a ride's stretches share.
type ground struct {
	track     *Track
	carriage  Carriage
	course    []span // of the guides
	planes    []span // of the axles
	fromLevel geom.Pose
}

// NewRide rolls a carriage along a track; its rear guide goes from one distance
// along the course to another, ahead or back. groundFromLevel takes the
// track's level frame to that of the answers. Where the centre of gravity is
// within its uncertainty of a wheel line, the ride has several ways; what lies
// between them is told by Between. It returns a *TooSharp error when the track
// bends too much for the base, an *Unstable error when the body may tip over
// its end wheels.
func NewRide(t *Track, c Carriage, from, to float64, groundFromLevel geom.Pose) (*Ride, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if !(math.Abs(from) < apart/4) || !(math.Abs(to) < apart/4) {
		return nil, fmt.Errorf("the rear guide cannot roll from %g m to %g m", from, to)
	}
	g := &ground{t, c, t.beside(c.Beside), t.lifted(c.Radius).spans, groundFromLevel}
	if err := g.sharp(); err != nil {
		return nil, err
	}
	out := &Ride{g: g}
	for _, over := range c.overs() {
		w, err := g.way(over, from, to)
		if err != nil {
			return nil, err
		}
		out.Ways = append(out.Ways, w)
	}
	return out, nil
}

// overs are the places of the centre of gravity that make a difference: its
// least, and just beyond each wheel line that it may be ahead of.
func (c Carriage) overs() []float64 {
	out := []float64{c.Centre - c.Uncertain}
	for _, x := range c.Wheels {
		if x >= c.Centre-c.Uncertain && x <= c.Centre+c.Uncertain {
			out = append(out, math.Nextafter(x, math.Inf(1)))
		}
	}
	return out
}

// sharp refuses bends that the guides are not taken through.
func (g *ground) sharp() error {
	stretch := sharpOver * g.carriage.base()
	for i, k := range g.course {
		if i > 0 && !(k.to > k.from) {
			return fmt.Errorf("the course %g m beside the track has no length between two bends", g.carriage.Beside)
		}
		var turn float64
		for j := i + 1; j < len(g.course) && g.course[j].from <= k.to+stretch; j++ {
			turn += math.Abs(g.course[j].heading - g.course[j-1].heading)
		}
		if !(turn <= mostSharp) {
			return &TooSharp{At: k.to, Stretch: stretch, Turn: turn}
		}
	}
	return nil
}

// footing is which planes and wheels count at one moment: the spans of the
// course that the guides are on, the wheel lines that carry and the planes they
// stand on.
type footing struct {
	rear, front int // spans of the course
	low, high   int // wheel lines that carry, low behind high
	lowOn       int // planes under them
	highOn      int
	hang        float64 // how far above its plane the wheel line high hangs
}

// Glide is a stretch on one footing. Its body's direction ahead e, a unit
// vector in the level frame, obeys two equations that are linear in it: the
// front guide is on its straight, n.(P + B e) = n.A with P the rear guide, and
// the two wheels that carry stand on their planes c + q.p,
//
//	(a_h q_h - a_l q_l - (a_h - a_l) z).e = c_l - c_h + (q_l - q_h).P
//
// with a the wheels' distances ahead of the rear guide. P moves evenly in plan,
// so that e(s) = p + q s + k sqrt(1 - |p + q s|²) with p and q square to k: in
// closed form, plan and profile at once.
//
// Heights are those under the course; how a plane of some grade leans under a
// body that lies across it is told by Track.CrossSlope.
type Glide struct {
	g        *ground
	on       footing
	from, to float64 // of the rear guide along the course
	p, q, k  geom.Vec
}

func (g *ground) glide(on footing, from, to float64) *Glide {
	d := &Glide{g: g, on: on, from: from, to: to}
	rear, front := g.course[on.rear], g.course[on.front]
	al, ah := g.lever(on.low), g.lever(on.high)
	cl, ql := g.planes[on.lowOn].plane()
	ch, qh := g.planes[on.highOn].plane()
	ch += on.hang
	wide := ah - al
	n := front.left()
	w := qh.Mul(ah / wide).Sub(ql.Mul(al / wide))
	start, way := rear.point(from), rear.along().Mul(to-from)
	base := g.carriage.base()
	r1 := n.Dot(front.at.Sub(start)) / base
	r2 := (cl - ch + ql.Sub(qh).Dot(start)) / wide
	var d1, d2 float64
	if rear.heading != front.heading { // on one straight exactly nothing turns
		d1 = -n.Dot(way) / base
	}
	if on.lowOn != on.highOn {
		d2 = ql.Sub(qh).Dot(way) / wide
	}
	// the least vector on both planes n.e = r1, (w, -1).e = r2
	g12, g22 := n.Dot(w), 1+w.Dot(w)
	det := g22 - g12*g12
	least := func(r1, r2 float64) geom.Vec {
		x, y := (g22*r1-g12*r2)/det, (r2-g12*r1)/det
		return geom.Vec{x*n[0] + y*w[0], x*n[1] + y*w[1], -y}
	}
	d.p, d.q = least(r1, r2), least(d1, d2)
	u := front.along()
	d.k = geom.Vec{u[0], u[1], u.Dot(w)}.Normalize()
	return d
}

// lever of a wheel line ahead of the rear guide.
func (g *ground) lever(wheel int) float64 { return g.carriage.Wheels[wheel] - g.carriage.Rear }

// Rear is how far along the course the rear guide is at s.
func (d *Glide) Rear(s float64) float64 { return lerp(d.from, d.to, s) }

// ahead is e at s, NaN where the footing cannot be.
func (d *Glide) ahead(s float64) geom.Vec {
	m := d.p.Add(d.q.Mul(s))
	return m.Add(d.k.Mul(math.Sqrt(1 - m.Dot(m))))
}

// axle is the rear guide at axle height, in the level frame.
func (d *Glide) axle(s float64, e geom.Vec) geom.Vec {
	p := d.g.course[d.on.rear].point(d.Rear(s))
	a := d.g.lever(d.on.low)
	z := d.g.planes[d.on.lowOn].under(p.Add(flat(e).Mul(a))) - a*e[2]
	return geom.Vec{p[0], p[1], z}
}

func flat(v geom.Vec) mgl64.Vec2 { return mgl64.Vec2{v[0], v[1]} }

// Pose is groundFromBody at s. body is 0; Ground, or ref == body, gives the
// identity.
func (d *Glide) Pose(ref, body int, s float64) geom.Pose {
	if body == ref {
		return geom.Identity()
	}
	e := d.ahead(s)
	return d.g.fromLevel.Mul(d.g.carriage.along(e, d.axle(s, e)))
}

// along is the body with its x along e and its y level, its rear guide at p at
// axle height.
func (c Carriage) along(e, p geom.Vec) geom.Pose {
	level := math.Hypot(e[0], e[1])
	left := geom.Vec{-e[1] / level, e[0] / level, 0}
	pose := geom.Pose{R: mgl64.Mat3FromCols(e, left, e.Cross(left))}
	pose.T = p.Sub(pose.R.Mul3x1(c.anchor()))
	return pose
}

// anchor is the rear guide in the body, at axle height.
func (c Carriage) anchor() geom.Vec { return geom.Vec{c.Rear, c.Guide, c.Radius} }

// Level tells whether the body keeps its direction: it neither turns nor
// pitches.
func (d *Glide) Level() bool { return d.q == geom.Vec{} }

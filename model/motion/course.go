package motion

import (
	"fmt"
	"math"
	"sort"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
)

// Leg is one piece of a course in plan: an angle point when Length is zero,
// then only Turn counts; a straight when Radius is zero; a circular curve
// tangent to what comes before otherwise. Radius and Turn are positive to the
// left.
type Leg struct{ Length, Radius, Turn float64 }

// Course is the line in plan that a body's two guides run along. It starts at
// the origin along x, with y to its left; beyond its ends it runs on straight.
// It does not change and is safe for use by many goroutines.
type Course struct {
	strokes []stroke
	length  float64
}

// stroke is a straight or an arc placed in plan.
type stroke struct {
	from, to float64
	mark     float64 // along the course, where at and heading hold
	at       mgl64.Vec2
	heading  float64
	radius   float64 // 0 for a straight
}

// apart is how far a course runs on straight beyond its ends: further than any
// carrier is long.
const apart = 1e4

// NewCourse lays the legs end to end. It refuses lengths that are negative or
// not finite, a radius of less than a millimetre, and a course without length.
func NewCourse(legs []Leg) (*Course, error) {
	c := &Course{strokes: []stroke{{from: -apart}}}
	next := stroke{}
	for i, l := range legs {
		if !(l.Length >= 0 && l.Length <= 1e9) || !(math.Abs(l.Turn) < math.Pi) || math.IsNaN(l.Radius) || (l.Radius != 0 && math.Abs(l.Radius) < 1e-3) {
			return nil, fmt.Errorf("leg %d of the course is not one: length %g m, radius %g m, turn %g rad", i+1, l.Length, l.Radius, l.Turn)
		}
		if l.Length == 0 {
			next.heading += l.Turn
			continue
		}
		if next.radius = l.Radius; math.IsInf(l.Radius, 0) {
			next.radius = 0
		}
		next.to = next.from + l.Length
		c.strokes = append(c.strokes, next)
		next = stroke{from: next.to, mark: next.to, at: next.point(next.to), heading: next.headingAt(next.to)}
	}
	if c.length = next.from; !(c.length > 0) {
		return nil, fmt.Errorf("the course has no length")
	}
	next.to = next.from + apart
	c.strokes = append(c.strokes, next)
	return c, nil
}

// Length of the course, without the straights beyond its ends.
func (c *Course) Length() float64 { return c.length }

// Point on the course at a distance along it, z = 0.
func (c *Course) Point(t float64) geom.Vec {
	p := c.strokes[c.strokeAt(t)].point(t)
	return geom.Vec{p[0], p[1], 0}
}

// Heading of the course at a distance along it, from x, positive left; ahead of
// an angle point.
func (c *Course) Heading(t float64) float64 { return c.strokes[c.strokeAt(t)].headingAt(t) }

func (c *Course) strokeAt(t float64) int {
	i := sort.Search(len(c.strokes), func(i int) bool { return c.strokes[i].from > t })
	return max(0, i-1)
}

// curvature, positive left.
func (k stroke) curvature() float64 {
	if k.radius == 0 {
		return 0
	}
	return 1 / k.radius
}

func (k stroke) headingAt(t float64) float64 {
	if k.radius == 0 {
		return k.heading
	}
	return k.heading + (t-k.mark)/k.radius
}

// turned is by how much the stroke turns from its start to t.
func (k stroke) turned(t float64) float64 { return math.Abs(k.headingAt(t) - k.heading) }

// point at t, also beyond the stroke's own ends. r(1 - cos a) = 2 r sin²(a/2)
// keeps its digits on the largest radius.
func (k stroke) point(t float64) mgl64.Vec2 {
	x, y := t-k.mark, 0.0
	if k.radius != 0 {
		h := math.Sin(x / (2 * k.radius))
		x, y = k.radius*math.Sin(x/k.radius), 2*k.radius*h*h
	}
	sin, cos := math.Sincos(k.heading)
	return mgl64.Vec2{k.at[0] + cos*x - sin*y, k.at[1] + sin*x + cos*y}
}

func (k stroke) tangent(t float64) mgl64.Vec2 {
	sin, cos := math.Sincos(k.headingAt(t))
	return mgl64.Vec2{cos, sin}
}

// reach is where the stroke, run on beyond its ends, is at distance b from
// point p, near the guess t: Newton on |P - p|² = b², whose slope 2 (P-p).T is
// far from zero on any course that NewGuided accepts. NaN if it does not settle.
func (k stroke) reach(p mgl64.Vec2, b, t float64) float64 {
	// what rounding leaves of a coordinate
	fine := 8 * ulp * (math.Abs(t) + math.Abs(p[0]) + math.Abs(p[1]) + b)
	for range 60 {
		d := k.point(t).Sub(p)
		step := (d.Dot(d) - b*b) / (2 * d.Dot(k.tangent(t)))
		t -= step
		if math.Abs(step) <= fine {
			return t
		}
	}
	return math.NaN()
}

// ahead is where the course is at distance b from its point at t, beyond t, and
// on which stroke; behind is the same before t. Within 1.2 b the course gets
// there, on any course that NewGuided accepts.
func (c *Course) ahead(t, b float64) (float64, int) {
	p := c.strokes[c.strokeAt(t)].point(t)
	i := c.strokeAt(t)
	for ; i+1 < len(c.strokes); i++ {
		end := math.Min(c.strokes[i].to, t+sharpOver*b)
		if c.strokes[i].point(end).Sub(p).Len() >= b {
			break
		}
	}
	return c.strokes[i].reach(p, b, math.Max(t+b/2, math.Min(t+b, c.strokes[i].to))), i
}

func (c *Course) behind(t, b float64) float64 {
	p := c.strokes[c.strokeAt(t)].point(t)
	i := c.strokeAt(t)
	for ; i > 0; i-- {
		start := math.Max(c.strokes[i].from, t-sharpOver*b)
		if c.strokes[i].point(start).Sub(p).Len() >= b {
			break
		}
	}
	return c.strokes[i].reach(p, b, math.Min(t-b/2, math.Max(t-b, c.strokes[i].from)))
}

// sharpest is the most that the course turns, to and fro, within any stretch of
// the given length, and where that begins. The turning up to t jumps at angle
// points and is straight between, so a stretch that begins or ends where a
// stroke does has the most.
func (c *Course) sharpest(stretch float64) (most, at float64) {
	sum := make([]float64, len(c.strokes)) // up to a stroke's start, its angle point included
	for i := 1; i < len(c.strokes); i++ {
		b := c.strokes[i-1]
		end := b.headingAt(b.to)
		sum[i] = sum[i-1] + math.Abs(end-b.heading) + math.Abs(c.strokes[i].heading-end)
	}
	upTo := func(t float64) float64 {
		i := c.strokeAt(t)
		return sum[i] + c.strokes[i].turned(t)
	}
	for i := 1; i < len(c.strokes); i++ {
		t := c.strokes[i].from
		before := sum[i-1] + c.strokes[i-1].turned(t)
		if m := upTo(t+stretch) - before; m > most {
			most, at = m, t
		}
		back := t - stretch
		j := c.strokeAt(back)
		start := sum[j] + c.strokes[j].turned(back)
		if c.strokes[j].from == back && j > 0 { // its angle point lies in the stretch
			start = sum[j-1] + c.strokes[j-1].turned(back)
		}
		if m := sum[i] - start; m > most {
			most, at = m, back
		}
	}
	return most, at
}

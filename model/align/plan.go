package align

import (
	"math"
	"sort"

	"github.com/go-gl/mathgl/mgl64"
)

// piece is a tangent or a curve placed in the job frame.
type piece struct {
	from, to float64    // along the alignment
	at       mgl64.Vec2 // where it starts
	heading  float64    // there, positive left of x
	radius   float64    // signed; 0 for a tangent
	turn     float64    // by which the alignment turns where it starts
}

// planOf lays the elements end to end from the origin.
func planOf(elements []Element) []piece {
	var out []piece
	next := piece{}
	for _, e := range elements {
		if e.Length == 0 {
			next.turn += e.Turn
			next.heading += e.Turn
			continue
		}
		next.to, next.radius = next.from+e.Length, e.Radius
		out = append(out, next)
		next = piece{from: next.to, at: next.point(e.Length), heading: next.heading + e.angle()}
	}
	return out
}

// point at a distance from the piece's start, also beyond its ends.
func (p piece) point(s float64) mgl64.Vec2 {
	x, y := curve(p.radius, s)
	sin, cos := math.Sincos(p.heading)
	return mgl64.Vec2{p.at[0] + cos*x - sin*y, p.at[1] + sin*x + cos*y}
}

// headingAt a distance from the piece's start.
func (p piece) headingAt(s float64) float64 {
	if p.radius == 0 {
		return p.heading
	}
	return p.heading + s/p.radius
}

// pieceAt is the piece at a distance along the alignment: where two meet, the one
// ahead; beyond the ends, the end pieces.
func (a *Alignment) pieceAt(along float64) piece {
	i := sort.Search(len(a.plan), func(i int) bool { return a.plan[i].from > along })
	return a.plan[max(0, i-1)]
}

// planPoint at a distance along the alignment. Beyond the ends the alignment runs on
// straight.
func (a *Alignment) planPoint(along float64) mgl64.Vec2 {
	inside := math.Max(0, math.Min(a.length, along))
	p := a.pieceAt(inside)
	q := p.point(inside - p.from)
	sin, cos := math.Sincos(p.headingAt(inside - p.from))
	return q.Add(mgl64.Vec2{cos, sin}.Mul(along - inside))
}

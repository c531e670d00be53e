package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Point2 is a point of a cross-section: {y, z} in metres.
type Point2 = mgl64.Vec2

// Prism is the solid between x0 and x1 over a convex polygon given in y and z,
// in either turning sense. x0 must be less than x1.
func Prism(section []Point2, x0, x1 float64) *Solid {
	return SkewPrism(section, SquareEnd(x0), SquareEnd(x1))
}

// End is a plane that closes a prism: it crosses y = z = 0 at X and runs ahead
// by Slope metres per metre to the left (the tangent of the skew) and by Lean
// metres per metre up (a plumb face seen from a frame on a grade).
type End struct{ X, Slope, Lean float64 }

// SquareEnd is an end square to the cell.
func SquareEnd(x float64) End { return End{X: x} }

// At is where the end stands at distance y left of the axis and height z.
func (e End) At(y, z float64) float64 { return e.X + e.Slope*y + e.Lean*z }

// SkewPrism is the solid over a convex polygon in y and z between two ends.
func SkewPrism(section []Point2, rear, front End) *Solid {
	loop := counterClockwise(section)
	n := len(loop)
	s := &Solid{Vertices: make([]Vec, 0, 2*n), Faces: make([][]int, 0, n+2)}
	for _, e := range [2]End{rear, front} {
		for _, p := range loop {
			s.Vertices = append(s.Vertices, Vec{e.At(p[0], p[1]), p[0], p[1]})
		}
	}
	all := make([]int, 6*n) // four for each side, n for each end
	sides, back, ahead := all[:4*n], all[4*n:5*n:5*n], all[5*n:]
	for i := range n {
		j := (i + 1) % n
		back[n-1-i], ahead[i] = i, n+i
		side := sides[4*i : 4*i+4 : 4*i+4]
		copy(side, []int{i, j, n + j, n + i})
		s.Faces = append(s.Faces, side)
	}
	s.Faces = append(s.Faces, back, ahead)
	return s
}

// counterClockwise is the polygon turning from y to z, which seen from ahead
// (against x) is counter-clockwise.
func counterClockwise(section []Point2) []Point2 {
	out := append([]Point2(nil), section...)
	if signed(section) < 0 {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}

// signed is the area of a polygon, positive if it turns from y to z.
func signed(section []Point2) float64 {
	var area float64
	for i, p := range section {
		q := section[(i+1)%len(section)]
		area += (p[0]*q[1] - q[0]*p[1]) / 2
	}
	return area
}

// Area of a polygon, in square metres.
func Area(section []Point2) float64 { return math.Abs(signed(section)) }

// Block is the axis-parallel box as a solid.
func Block(b Box) *Solid {
	return Prism([]Point2{
		{b.Min[1], b.Min[2]}, {b.Max[1], b.Min[2]}, {b.Max[1], b.Max[2]}, {b.Min[1], b.Max[2]},
	}, b.Min[0], b.Max[0])
}

// Bar is a straight square bar of the given thickness between two points of
// one cross-section plane x, its axis running from one to the other.
func Bar(x float64, from, to Point2, thickness float64) *Solid {
	along := to.Sub(from).Normalize().Mul(thickness / 2)
	across := Point2{-along[1], along[0]}
	return Prism([]Point2{
		from.Sub(across), to.Sub(across), to.Add(across), from.Add(across),
	}, x-thickness/2, x+thickness/2)
}

// Drum is a disc of the given radius about an axis parallel to y, between y0
// and y1, as a circumscribed prism with the given number of sides: it sticks
// out by r (sec(pi/n) - 1). One side's middle points straight down, so that a wheel
// stands exactly at its radius.
func Drum(x, z, radius, y0, y1 float64, sides int) *Solid {
	circum := radius / math.Cos(math.Pi/float64(sides))
	s := &Solid{}
	for _, y := range [2]float64{y0, y1} {
		for i := range sides {
			t := 2*math.Pi*(float64(i)+0.5)/float64(sides) - math.Pi/2
			s.Vertices = append(s.Vertices, Vec{x + circum*math.Cos(t), y, z + circum*math.Sin(t)})
		}
	}
	var right, left []int
	for i := range sides {
		j := (i + 1) % sides
		right = append(right, i)
		left = append([]int{sides + i}, left...)
		s.Faces = append(s.Faces, []int{j, i, sides + i, sides + j})
	}
	s.Faces = append(s.Faces, right, left)
	return s
}

package geom

// Bound encloses how a body moves over an interval of its path parameter s:
// C is a point of the body (in body coordinates), Axis its turning axis in
// body coordinates if the axis keeps its direction (else zero), A the largest
// acceleration of C, Omega the largest angular speed and Alpha the largest
// angular acceleration, all per s. A point at distance rho from the line
// C + R Axis (from C alone when Axis is zero) then has
// |p”| <= A + (Omega^2 + Alpha) rho.
type Bound struct {
	C, Axis         Vec
	A, Omega, Alpha float64
}

// Curvature is the least bound on |p”| that b gives for the body point p.
func (b Bound) Curvature(p Vec) float64 {
	turning := b.Omega*b.Omega + b.Alpha
	if turning == 0 {
		return b.A
	}
	return b.A + turning*b.Radius(p)
}

// Radius is the distance rho of body point p from the turning line. The part of
// the arm across the axis is formed by a cross product: a difference of squares
// would lose it for points near the axis and far along it.
func (b Bound) Radius(p Vec) float64 {
	r := p.Sub(b.C)
	if b.Axis == (Vec{}) {
		return r.Len()
	}
	return r.Cross(b.Axis).Len()
}

package scene

import (
	"fmt"
	"math"

	"boxwalk/model/geom"
)

// NearestSeen is the distance before the eye, in metres, from which on a
// Perspective camera shows things: an arm's length, so that a part beside the
// eye does not fill the picture.
const NearestSeen = 0.5

// Camera says how a scene is looked at. The view plane goes through Target
// square to ToViewer; there lengths are true. Target is its origin.
type Camera struct {
	Target   geom.Vec
	ToViewer geom.Vec // direction from the scene to the viewer, any length
	Up       geom.Vec // points up in the picture; only its part in the view plane counts
	// Distance of the eye from Target, m; 0 is a parallel projection.
	Distance float64
	// Near is how far before the eye things start to be seen, m; only for a
	// perspective.
	Near float64
	Cuts []Cut
}

// Orthographic looks along parallel rays, from the given side.
func Orthographic(toViewer, up geom.Vec) Camera { return Camera{ToViewer: toViewer, Up: up} }

// Isometric looks from the corner given by the signs of octant, so that all
// three axes are shortened alike (by the square root of 2/3). A zero counts as
// positive.
func Isometric(octant geom.Vec) Camera {
	var d geom.Vec
	for i := range d {
		d[i] = 1
		if octant[i] < 0 {
			d[i] = -1
		}
	}
	return Orthographic(d, geom.Vec{0, 0, 1})
}

// Perspective looks from eye at target.
func Perspective(eye, target, up geom.Vec) Camera {
	d := eye.Sub(target)
	return Camera{Target: target, ToViewer: d, Up: up, Distance: d.Len(), Near: NearestSeen}
}

// Cutting is the camera with more cuts.
func (c Camera) Cutting(cuts ...Cut) Camera {
	c.Cuts = append(append([]Cut(nil), c.Cuts...), cuts...)
	return c
}

// Eye is where a perspective camera stands.
func (c Camera) Eye() geom.Vec {
	return c.Target.Add(c.ToViewer.Normalize().Mul(c.Distance))
}

// ViewFromScene takes scene coordinates to the view frame: x right and y up in
// the picture, z to the viewer, origin at Target, still in metres. The camera
// must have passed Check.
func (c Camera) ViewFromScene() geom.Pose {
	z := c.ToViewer.Normalize()
	x := c.Up.Cross(z).Normalize()
	y := z.Cross(x)
	r := geom.Identity().R
	for i, row := range [3]geom.Vec{x, y, z} {
		for j := range row {
			r.Set(i, j, row[j])
		}
	}
	return geom.Pose{R: r, T: r.Mul3x1(c.Target).Mul(-1)}
}

// Check reports what makes the camera unfit: numbers that are not finite, no
// direction, Up along the direction of view, or a near distance that is not
// between the eye and infinity.
func (c Camera) Check() error {
	for _, v := range []geom.Vec{c.Target, c.ToViewer, c.Up, {c.Distance, c.Near, 0}} {
		if m := v.Len(); math.IsNaN(m) || math.IsInf(m, 0) {
			return fmt.Errorf("camera: a number is not finite")
		}
	}
	// A sine under 1e-6 leaves the picture's right-hand side to rounding.
	if !(c.ToViewer.Cross(c.Up).Len() > 1e-6*c.ToViewer.Len()*c.Up.Len()) {
		return fmt.Errorf("camera: direction %v and up %v do not span a picture", c.ToViewer, c.Up)
	}
	if c.Distance < 0 || (c.Distance > 0 && !(c.Near > 0)) {
		return fmt.Errorf("camera: distance %v m and near %v m must be positive", c.Distance, c.Near)
	}
	for i, k := range c.Cuts {
		if l := k.Plane.N.Len(); !(math.Abs(l-1) < 1e-9) || math.IsNaN(k.Plane.D) || math.IsInf(k.Plane.D, 0) {
			return fmt.Errorf("camera: cut %d has normal %v of length %v, not 1, or no position", i, k.Plane.N, l)
		}
	}
	return nil
}

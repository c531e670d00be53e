package motion

import (
	"fmt"
)

// Wheel is the lowest point of a wheel line in its body: X ahead, Z up.
type Wheel struct{ X, Z float64 }

// Unstable says that the centre of gravity may lie beyond the end wheels.
type Unstable struct {
	Centre, Uncertain float64 // m ahead in the body
	First, Last       float64 // of the wheel lines, m
}

func (e *Unstable) Error() string {
	return fmt.Sprintf("the centre of gravity at %.3f m, give or take %.3f m, does not lie between the first wheels at %.3f m and the last at %.3f m: the body tips",
		e.Centre, e.Uncertain, e.First, e.Last)
}

// facet is the pair of wheels that bounds the facet over a place of the upper
// hull of (wheel, ground below it).
func facet(wheels []Wheel, heights []float64, over float64) (rear, front int) {
	p := func(i int) (float64, float64) { return wheels[i].X, heights[i] - wheels[i].Z }
	var hull []int
	for k := range wheels {
		for len(hull) > 1 {
			x0, z0 := p(hull[len(hull)-2])
			x1, z1 := p(hull[len(hull)-1])
			x2, z2 := p(k)
			if (z1-z0)*(x2-x0) > (z2-z0)*(x1-x0) {
				break
			}
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, k)
	}
	i := 1
	for i < len(hull)-1 && wheels[hull[i]].X < over {
		i++
	}
	return hull[i-1], hull[i]
}

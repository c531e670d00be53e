package sweep

import (
	"slices"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// Share is the portion of a vertex in a point of a solid.
type Share struct {
	Vertex  int
	Portion float64
}

// Nearest tells a point of each of two parts at one moment, by shares of at most
// four vertices each in rising order, and how far apart they are: as far as the
// parts themselves to rounding, or nothing where these overlap.
func Nearest(m Motion, ref int, a, b Part, s float64) (onA, onB []Share, apart float64) {
	pa, pb := m.Pose(ref, a.Body, s), m.Pose(ref, b.Body, s)
	n := gap.Nearest(a.Solid, b.Solid, &pa, &pb)
	onA, onB = added(n.A[:n.N], n), added(n.B[:n.N], n)
	return onA, onB, pa.Apply(pointOf(a.Solid, onA)).Sub(pb.Apply(pointOf(b.Solid, onB))).Len()
}

// added adds up what each vertex has.
func added(vertices []int, n gap.Shares) []Share {
	var out []Share
	for i, v := range vertices {
		k := slices.IndexFunc(out, func(s Share) bool { return s.Vertex == v })
		switch {
		case !(n.Portion[i] > 0):
		case k >= 0:
			out[k].Portion += n.Portion[i]
		default:
			out = append(out, Share{v, n.Portion[i]})
		}
	}
	slices.SortFunc(out, func(a, b Share) int { return a.Vertex - b.Vertex })
	return out
}

func pointOf(s *gap.Solid, list []Share) (p geom.Vec) {
	for _, w := range list {
		p = p.Add(s.Vertices()[w.Vertex].Vec().Mul(w.Portion))
	}
	return p
}

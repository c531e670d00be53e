// Package gap measures the signed distance between two convex solids.
//
// The signed distance sd(A, B) is the distance when the solids are apart, and
// minus the length of the shortest translation that separates them when they
// overlap. With sep(n) = min over B of n.b - max over A of n.a it is
//
//	sd(A, B) = max over unit n of sep(n),
//
// so every unit n gives a lower bound, and every pair of points of two solids
// that are apart gives an upper bound. Both are computed, and their difference
// is reported with the result as Slack.
//
// The normal always points from A to B. Lengths are metres. u is 2^-53.
//
// # How
//
// Apart: the Gilbert-Johnson-Keerthi iteration (GJK) on B - A. It yields an
// upper bound |v| and a lower bound sep(v/|v|); when they do not meet (slivers,
// exhausted arithmetic) the answer comes from all pairs of features instead.
//
// Overlapping: the nearest facet of the polytope B - A. Its facets belong to
// faces of A, faces of B, and pairs of edges whose arcs on the Gauss sphere
// cross (an edge's arc runs between the normals of its two faces). Enumerating
// them is exact.
//
// # Rounding
//
// Let S be the sum of the largest coordinates that take part (Solid.Reach of
// both plus the offset between the body origins). A coordinate of a placed
// vertex is a sum of three products and an offset: error <= 4u S. The dot of a
// difference with a direction that is unit to 3u adds <= 5u S, so any computed
// sep(n) is within 16u S of the true one, and so is the length of a computed
// difference. Slack includes 32u S for both together.
package gap

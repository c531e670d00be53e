// Package sweep certifies the clearance between moving convex solids over a
// whole motion: it does not sample. Every answer is a bracket whose lower end
// is proved for every s of the interval and whose upper end was evaluated.
//
// Signed distance sd is the distance when apart and minus the least separating
// translation in overlap (package gap). The normal n points from A to B.
// Lengths are metres; s is the path parameter, without unit; u is 2^-53.
//
// # The plane bound
//
// Let f be a function on an interval of length D with end values f0, f1 and
// f” <= K. Then f is at least the parabola through the ends with curvature K,
// whose least value is
//
//	m(f0, f1, K, D) = min(f0, f1)                                     if |f1-f0| >= K D²/2,
//	                  (f0+f1)/2 - K D²/8 - (f1-f0)²/(2 K D²)          otherwise.
//
// (f minus the parabola is concave and zero at both ends, hence not negative.)
// For any fixed unit n, sd(s) >= min over w in B of n.w(s) + min over v in A of
// -n.v(s). Each n.w(s) is such a function with K = A + (Ω² + α) ρ from the body's
// geom.Bound (see curvature), so
//
//	sd(s) >= min_w m(n.w(s0), n.w(s1), K_w, D) + min_v m(-n.v(s0), -n.v(s1), K_v, D) - E.
//
// It holds when both bodies move and in overlap. But with both moving the two
// minima may lie at different s, and the bound forgets what the motions have in
// common: it is then of first order in D only. So when both move the two are
// bounded pair by pair,
//
//	sd(s) >= min over v, w of m(n.(w-v)(s0), n.(w-v)(s1), K_v + K_w, D) - E,
//
// which is never weaker (m of a sum is at least the sum of the m) and the same
// when one of them is still. It is exact when the bodies translate linearly and
// of second order in D otherwise. A wrong n makes it weak, never false.
//
// # Swinging planes
//
// Where the contact normal turns, a plane fixed in space is of first order only:
// the search then lets it turn from one end's normal to the other's, see
// stretch.swing. Separate, which serves proofs, uses fixed planes alone.
//
// # Rounding
//
// E = 16u (1 + depth) S covers the poses, the dots and the sums; S is the sum
// of the largest lengths |v| + |t| + |w| that enter: reach of both solids and
// twice the offset of each body's origin. One joint of a chain costs a
// rotation's product and an offset: <= 5u of the length it is applied to, on
// each side of the pair; the two dots and their sum cost 8u; a normal that is
// unit to 3u scales the value by as much. A Motion must keep its poses within
// 8u (1 + depth) of its own path, relative to the same lengths.
// Curvatures are raised by 2^-40 of their value against their own rounding.
// Lower is rounded down after E is taken off, Upper is rounded up after E and
// the query's slack are added.
package sweep

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
// E is the sum of one part for either body. For a solid of the frame ref itself,
// with its farthest vertex r away, that is
//
//	7u r:  3u for the product n.v, u for the sum of both sides, and 3u for a
//	       normal that is unit to 3u,
//
// which a case in the tests attains. For a solid on a body whose origin is as far
// as t away, with F = r + t, it is
//
//	26u F + ErrorBound.At(r):  10u for n'.v + n.T with n' the normal in the body (the
//	       matrix of sizes of a rotation is no longer than sqrt 3: 3 sqrt 3 u and
//	       3u of r, 3u of t, u for the sum), 9u for m where it bends, 3u for the
//	       sum of both sides, which a bend may take to 3F, and 3u for the normal;
//	       and what the Motion says of its poses.
//
// m bends only while K D² < 8F counts: beyond, the rounding up of K covers it.
// Boxes and swinging planes cost less than twice that, and twice is taken off.
// Curvatures are raised by 2^-40 of their value against their own rounding.
// Lower is rounded down after E is taken off, Upper is rounded up after E and
// the query's slack are added.
package sweep

package motion

import (
	"math"
	"testing"

	"boxwalk/model/geom"
)

// A chain of straights of 0.5 m about a circle of a million metres, in plan or in
// profile: each touches the circle with its middle, the first and the last run on.
// On it a ride is that on a tangent but for sagittas.
const (
	wideRadius   = 1e6
	wideStraight = 0.5
)

// wideBends are the joints between them; the circle touches x at 0.
func wideBends(turn, slope float64) (grade float64, bends []TrackJoint) {
	const n = 60
	grade = -slope * n * wideStraight / wideRadius
	for i := -n; i <= n; i++ {
		b := TrackJoint{At: (float64(i) + 0.5) * wideStraight, Turn: turn * 2 * math.Atan(wideStraight/2/wideRadius)}
		b.Grade = grade + slope*float64(i+n+1)*wideStraight/wideRadius
		bends = append(bends, b)
	}
	return grade, bends
}

// posesOf are those of a ride's first way, five to a stretch.
func posesOf(r *Ride) (out []geom.Pose) {
	for _, s := range r.Ways[0].Stretches {
		for i := range 5 {
			out = append(out, s.Pose(Ground, 0, float64(i)/4))
		}
	}
	return out
}

// On straights of l the guides lie outside the circle by up to l²/8R. The body
// between and beyond them is a line: at x from its middle it lies inside the
// circle by (B²/4 - x²)/2R, less what its guides are outside, in proportion.
func TestRideOnAVeryLargeRadiusIsThatOnATangentButForSagittas(t *testing.T) {
	const base, over = 6.6, 1.35
	const corner = wideStraight * wideStraight / 8 / wideRadius
	for name, c := range map[string]struct{ turn, slope float64 }{"left": {1, 0}, "right": {-1, 0}, "sag": {0, 1}, "crest": {0, -1}} {
		grade, bends := wideBends(c.turn, c.slope)
		track := mustTrack(t, grade, bends...)
		list := append(posesOf(mustRide(t, track, twoLines(), -8, 6)), posesOf(mustRide(t, track, twoLines(), 6, -8))...)
		if len(list) < 200 {
			t.Errorf("%s: %d poses", name, len(list))
		}
		for _, p := range list {
			for x := -base/2 - over; x <= base/2+over; x += 0.165 {
				q := p.Apply(geom.Vec{4.65 + x})
				// the circle is x²/2R off the tangent; the next term is x⁴/8R³
				got := q[1]*c.turn + q[2]*c.slope - q[0]*q[0]/2/wideRadius
				want := (base*base/4 - x*x) / 2 / wideRadius
				beyond := math.Max(0, math.Abs(x)/base-0.5) // of the guides, in bases
				if !(got > want-corner*(1+beyond)-1e-12 && got < want+corner*beyond+1e-12) {
					t.Fatalf("%s: at %.3f from the middle %.4g m inside the circle, want %.4g but for %.4g", name, x, got, want, corner)
				}
				if aside := q[1]*c.slope + q[2]*c.turn; aside != 0 {
					t.Fatalf("%s: %g m aside", name, aside)
				}
			}
		}
	}
}

// Where the tangent's own ride stands, the body stands on the circle but for how
// far that leaves the tangent: (|t| + B + l)²/2R for its guides, and outside them
// in proportion.
func TestRideOnAVeryLargeRadiusStandsWhereThatOnATangentDoes(t *testing.T) {
	const base, over = 6.6, 1.35
	straight := mustRide(t, mustTrack(t, 0), twoLines(), -8, 6)
	for _, turn := range []float64{1, -1} {
		_, bends := wideBends(turn, 0)
		r := mustRide(t, mustTrack(t, 0, bends...), twoLines(), -8, 6)
		for at := -8.0; at <= 6; at += 0.07 {
			a, s := straight.Ways[0].at(at)
			b, u := r.Ways[0].at(at)
			reach := math.Abs(at) + base + wideStraight
			most := reach * reach / 2 / wideRadius * (1 + 2*over/base)
			for _, v := range []geom.Vec{{0, 0, 2.4}, {9.3, 0, 0}} {
				if off := a.Pose(Ground, 0, s).Apply(v).Sub(b.Pose(Ground, 0, u).Apply(v)).Len(); off > most || off == 0 {
					t.Fatalf("at %.2f the point %v is %.3g m off, want at most %.3g", at, v, off, most)
				}
			}
		}
	}
}

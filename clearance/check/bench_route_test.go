package check

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// windingDemo are the changes that make the demo one cell of so many pours of
// 9 m, with a bend of 1 degree, left and right by turns, and a grade break at
// every joint. Every bend is greater than the one before by more, in degrees, so
// that no two pours are alike where that is not zero.
func windingDemo(pours int, more float64) [][2]string {
	var plan, profile strings.Builder
	elevation := 182.4
	profile.WriteString("{station: 0, elevation: 182.4 m}")
	for i := range pours {
		if i > 0 {
			fmt.Fprintf(&plan, "{turn: %.4f deg %s}, ", 1+more*float64(i), [2]string{"right", "left"}[i%2])
		}
		plan.WriteString("{tangent: 9 m}, ")
		elevation -= 9 * [2]float64{0.010, 0.014}[i%2]
		fmt.Fprintf(&profile, ", {station: %d m, elevation: %.3f m}", 9*(i+1), elevation)
	}
	return [][2]string{{"cells: 2", "cells: 1"}, {"[8 m, 9.15 m, 8.85 m, 7.5 m]", fmt.Sprintf("{each: 9 m, total: %d m}", 9*pours)},
		{"[{tangent: 17.15 m}, {turn: 0.4 deg left}, {tangent: 16.35 m}]", "[" + strings.TrimSuffix(plan.String(), ", ") + "]"},
		{"[{station: 0+000, elevation: 182.400 m}, {station: 0+026, elevation: 182.010 m, curve: 6 m}, {station: 0+033.5, elevation: 181.785 m}]", "[" + profile.String() + "]"},
		{"lap: [165 mm, 0 mm, 0 mm]", "lap: 0 mm"}, {"skew: {inlet: 20 deg, outlet: 20 deg, joints: square}", "skew: {inlet: 0 deg}"}}
}

// BenchmarkCheckBends grows the number of pours on a winding line, from built
// study to result. From the second size on it reports exponent, the growth of
// the time since the size before as a power of the number of pours: 1 is
// proportional. Alike pours are worked out once, so it is below.
func BenchmarkCheckBends(b *testing.B) { growBends(b, 0) }

// BenchmarkCheckUnlikeBends is the same with every bend a little greater than
// the one before, so that each pour is worked out.
func BenchmarkCheckUnlikeBends(b *testing.B) { growBends(b, 0.001) }

func growBends(b *testing.B, more float64) {
	before, took := 0, map[int]float64{}
	for _, n := range []int{8, 16, 50} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			s := demoStudy(b, windingDemo(n, more))
			if len(s.Bays) != n {
				b.Fatalf("%d bays", len(s.Bays))
			}
			b.ResetTimer()
			for range b.N {
				Run(s, Options{})
			}
			took[n] = b.Elapsed().Seconds() / float64(b.N)
			b.ReportMetric(float64(len(s.Reported())), "bays")
			if before > 0 {
				b.ReportMetric(math.Log(took[n]/took[before])/math.Log(float64(n)/float64(before)), "exponent")
			}
		})
		before = n
	}
}

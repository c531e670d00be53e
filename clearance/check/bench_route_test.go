package check

import (
	"fmt"
	"math"
	"testing"

	"boxwalk/clearance/worked"
)

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
			s := worked.Demo(b, worked.WindingDemo(n, more))
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

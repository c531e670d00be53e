package frame

import (
	"fmt"
	"testing"
)

// Growth by spans, each loaded or not: n+1 loadings over 2n places.
func BenchmarkEachSpanOrNot(b *testing.B) {
	for _, n := range []int{5, 10, 20} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r := must(equal(n).Solve(spans(n)...))
				must(EachOrNot(r[0], r[1:]...))
			}
		})
	}
}

package check

import (
	"testing"

	"boxwalk/clearance/worked"
)

// BenchmarkPour is what the statics of the pour take of the demo's check.
func BenchmarkPour(b *testing.B) {
	s := worked.Demo(b, nil)
	b.ReportAllocs()
	for b.Loop() {
		PartAlone(s, Poured)
	}
}

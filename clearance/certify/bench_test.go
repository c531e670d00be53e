package certify

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/proof"
	"boxwalk/clearance/worked"
)

// BenchmarkProveDemo writes the demo's proof from what its check found.
func BenchmarkProveDemo(b *testing.B) {
	e := check.Examine(worked.Demo(b, nil), check.Options{Proof: true})
	b.ResetTimer()
	for range b.N {
		text := proofOf(b, e)
		b.ReportMetric(float64(len(text))/1e6, "MB")
	}
}

// BenchmarkVerifyDemo verifies the demo's proof.
func BenchmarkVerifyDemo(b *testing.B) {
	verifies(b, proofOf(b, check.Examine(worked.Demo(b, nil), check.Options{Proof: true})))
}

// BenchmarkProveUnlikeBends and BenchmarkVerifyUnlikeBends grow the number of pours no
// two of which are alike.
func BenchmarkProveUnlikeBends(b *testing.B) {
	for _, n := range []int{2, 4, 8} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			e := check.Examine(worked.Demo(b, worked.WindingDemo(n, 0.001)), check.Options{Proof: true})
			b.ResetTimer()
			for range b.N {
				proofOf(b, e)
			}
		})
	}
}

func BenchmarkVerifyUnlikeBends(b *testing.B) {
	for _, n := range []int{2, 4, 8} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			verifies(b, proofOf(b, check.Examine(worked.Demo(b, worked.WindingDemo(n, 0.001)), check.Options{Proof: true})))
		})
	}
}

func proofOf(b *testing.B, e *check.Examination) []byte {
	b.Helper()
	var out bytes.Buffer
	if err := Write(&out, e, Options{Result: strings.Repeat("0", 64)}); err != nil {
		b.Fatal(err)
	}
	return out.Bytes()
}

func verifies(b *testing.B, text []byte) {
	b.Helper()
	b.SetBytes(int64(len(text)))
	b.ResetTimer()
	for range b.N {
		if r, err := proof.Verify(bytes.NewReader(text)); err != nil || !r.Whole {
			b.Fatal(err)
		}
	}
}

package carrier

import (
	"math"
	"testing"
)

func TestShortIsTheSumOfWhatIsMissing(t *testing.T) {
	reached := Finding{Value: 1, Min: 0.5, Max: 1}
	low, off := Finding{Value: 0.2, Min: 0.5, Max: 1}, Finding{Value: 0.7, Min: 0.5, Max: 1, Off: 0.01}
	none := Finding{Value: 0.7, Min: math.Inf(1), Max: math.Inf(-1)}
	for _, c := range []struct {
		name     string
		findings []Finding
		count    int
		by       float64
	}{
		{"nothing asked for", nil, 0, 0},
		{"at the end of its range", []Finding{reached}, 0, 0},
		{"below its range", []Finding{reached, low}, 1, 0.3},
		{"between two holes", []Finding{off}, 1, 0.01},
		{"both", []Finding{low, off}, 2, 0.31},
		{"made for one size, with play", []Finding{{Value: 0.2003, Min: 0.2, Max: 0.2}}, 0, 0},
		{"made for another size", []Finding{{Value: 0.3, Min: 0.2, Max: 0.2}}, 1, 0.1},
		{"without any value", []Finding{none}, 1, hopeless},
	} {
		if count, by := (Setting{Findings: c.findings}).Short(); count != c.count || math.Abs(by-c.by) > 1e-12 {
			t.Errorf("%s: %d by %g, want %d by %g", c.name, count, by, c.count, c.by)
		}
	}
}

package sheet

import (
	"fmt"
	"strconv"
)

// Reduction scales of ISO 5455, as denominators.
var scalesISO = []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000}

// Scales of US practice, as denominators: architectural (a fraction of an inch
// to the foot, down to 1/16) and then engineering (an inch to tens of feet).
// From memory; every one is exact by arithmetic.
var scalesUS = []float64{1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 240, 360, 480, 600, 1200, 2400, 4800, 12000}

// Scales lists the denominators a sheet in these units may use, largest drawing first.
func (u Units) Scales() []float64 {
	if u.Imperial {
		return append([]float64(nil), scalesUS...)
	}
	return append([]float64(nil), scalesISO...)
}

// FitScale gives the largest standard scale, as its denominator, at which a
// model of the given size (mm) fits a paper of the given size (mm). Room for
// lettering and dimensions is the caller's to leave; Arrange does that by itself.
func (u Units) FitScale(model, paper Box) (float64, error) {
	for _, n := range u.Scales() {
		if model.Width() <= paper.Width()*n && model.Height() <= paper.Height()*n {
			return n, nil
		}
	}
	return 0, fmt.Errorf("sheet: %.0f x %.0f mm does not fit %.0f x %.0f mm of paper at any standard scale",
		model.Width(), model.Height(), paper.Width(), paper.Height())
}

// ScaleText letters a scale: 1:50, or 1/4" = 1'-0" in US units.
func (u Units) ScaleText(denominator float64) string {
	if u.Imperial {
		if s := usScaleText(denominator); s != "" {
			return s
		}
	}
	if denominator < 1 && denominator > 0 {
		return strconv.FormatFloat(1/denominator, 'g', 6, 64) + ":1"
	}
	return "1:" + strconv.FormatFloat(denominator, 'g', 6, 64)
}

func usScaleText(denominator float64) string {
	switch sixteenths := 192 / denominator; {
	case denominator >= 240:
		return fmt.Sprintf(`1" = %g'`, denominator/12)
	case denominator >= 4 && sixteenths == float64(int64(sixteenths)):
		return inchText(int64(sixteenths)) + ` = 1'-0"`
	case denominator == 128:
		return `3/32" = 1'-0"`
	}
	return ""
}

package report

import (
	"strconv"
	"strings"
)

// Six is a number of a working to six digits, without idle zeros: what the steps after
// it can be done with again.
func Six(v float64) string {
	text := strconv.FormatFloat(v, 'g', 6, 64)
	if v == 0 {
		return "0"
	}
	if size := max(v, -v); size >= 1e6 && size < 1e12 {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	return strings.Replace(text, "e+", "e", 1)
}

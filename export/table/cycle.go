package table

import (
	"io"
	"slices"
	"strconv"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// Cycle writes cycle.csv: the plan of the pours, a row for each piece of work in the
// order of their beginning; only headings where the job asks for no plan.
func Cycle(w io.Writer, r *result.Result) error {
	rows := [][]string{{"begins", "ends", "from (h)", "to (h)", "pour", "cell", "work", "gang", "waited (h)", "waited for"}}
	hours := func(h float64) string { return units.Decimal(h, 2) }
	for _, p := range r.Plan {
		cell := "all"
		if p.Cell > 0 {
			cell = strconv.Itoa(p.Cell)
		}
		rows = append(rows, []string{p.Begins, p.Ends, hours(p.From), hours(p.To), strconv.Itoa(p.Pour), cell, p.Work, p.Gang, hours(p.Waited), p.For})
	}
	return written(w, r, slices.Values(rows))
}

package table

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// StepsCSV writes steps.csv: every step of the collapse, of raising and of rolling on, with how far
// its jacks, pads and adjusters may get apart. What a crew may not go beyond is
// rounded down. Safe is not worked out for raising.
func StepsCSV(w io.Writer, r *result.Result, s units.System) error {
	m := lengths(s)
	rows := [][]string{{"cell", "pour", "list", "number", "step", "say", "jacks or pads apart, at most (" + m.Name + ")", "safe up to (" + m.Name + ")",
		"adjusters out of step, at most (" + m.Name + ")", "not proved", "level", "in step", "caution"}}
	number := counter{}
	for _, row := range r.Steps {
		kept, safe, level := "", "", ""
		if l := row.Level; l != nil {
			kept, safe, level = m.Down(l.Kept), m.Down(l.Safe), l.Say
		}
		rows = append(rows, stepCells(number.next("collapse", row.Cell, row.Pour), row.Name, row.Say, kept, safe, "", level, row.Lag, row.Caution, m))
	}
	for _, row := range r.Raising {
		kept, level := "", ""
		if l := row.Level; l != nil {
			kept, level = m.Down(l.Kept), l.Say
		}
		rows = append(rows, stepCells(number.next("raising", row.Cell, row.Pour), row.Name, row.Say, kept, "", strings.Join(row.Unproved, "; "), level, row.Lag, row.Caution, m))
	}
	for _, row := range r.Rolling {
		rows = append(rows, stepCells(number.next("rolling", row.Cell, row.Pour), row.Name, row.Say, "", "", strings.Join(row.Unproved, "; "), "", nil, row.Caution, m))
	}
	return written(w, r, slices.Values(rows))
}

// counter numbers the steps of each list at each place.
type counter map[[3]string]int

// next are the cells that name one more step.
func (c counter) next(list string, cell, pour int) []string {
	key := [3]string{strconv.Itoa(cell), strconv.Itoa(pour), list}
	c[key]++
	return append(key[:], strconv.Itoa(c[key]))
}

func stepCells(place []string, name, say, kept, safe, unproved, level string, lag *result.LagRow, caution string, m units.Measure) []string {
	apart, inStep := "", ""
	if lag != nil {
		apart, inStep = m.Down(lag.Kept), lag.Say
	}
	return append(place, plain(name), plain(say), kept, safe, apart, unproved, level, inStep, plain(caution))
}

package report

import (
	"fmt"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/export/plot"
	"boxwalk/model/units"
)

// works are the tones of the bars of a plan.
var works = []struct {
	tone string
	of   []string
}{
	{"raise and close", []string{"raise", "close"}},
	{"pour", []string{"pour"}},
	{"free", []string{"free"}},
	{"roll", []string{"roll"}},
}

// planDays is how many days of a plan one chart shows.
const planDays = 28

// plan is the plan of the pours, as bars and row by row.
func (w *writer) plan() []Block {
	list := w.result.Plan
	if len(list) == 0 {
		return []Block{Paragraph{"The job asks for no plan (cycle).", Plain}}
	}
	out := []Block{Paragraph{"Of all work that can begin, what can begin first does, with the gang that is free first. Hours count from midnight of the first day; between pour and free the concrete hardens.", Plain}}
	last := slices.MaxFunc(list, func(a, b result.PlanRow) int { return int(a.To - b.To) }).To
	for from := 0.0; from < last; from += 24 * planDays {
		out = append(out, Figure{planChart(list, from, from+24*planDays).Draw(figureWide)})
	}
	t := Table{Caption: "The plan, piece by piece", Heads: []Head{{Title: "Begins", Share: 1.6}, {Title: "Ends", Share: 1.6}, {Title: "Pour", Number: true, Share: 0.6}, {Title: "Cell", Share: 0.6}, {Title: "Work", Share: 0.8}, {Title: "Gang", Share: 1.2}, {Title: "Waited, h", Number: true, Share: 0.9}, {Title: "For", Share: 2}}, Fixed: true}
	for _, p := range list {
		t.Rows = append(t.Rows, Row{Cells: texts(p.Begins, p.Ends, fmt.Sprint(p.Pour), cellOf(p), p.Work, p.Gang, units.Decimal(p.Waited, 1), p.For)})
	}
	return append(out, t)
}

func texts(list ...string) []Cell {
	var out []Cell
	for _, text := range list {
		out = append(out, Cell{Text: text})
	}
	return out
}

func cellOf(p result.PlanRow) string {
	if p.Cell == 0 {
		return "all"
	}
	return fmt.Sprint(p.Cell)
}

// planChart is the bars of a plan between two times, a lane for each cell; what is
// poured in all cells stands in each lane.
func planChart(list []result.PlanRow, from, to float64) plot.Chart {
	c := plot.Chart{Title: "Plan of the pours", Across: "Hours since midnight of the first day", Says: fmt.Sprintf("Bars of work in each cell between hour %.0f and hour %.0f; the same stands in the table below.", from, to)}
	for _, k := range works {
		c.Tones = append(c.Tones, k.tone)
	}
	cells := map[int]bool{}
	for _, p := range list {
		cells[p.Cell] = cells[p.Cell] || p.Cell > 0
	}
	delete(cells, 0)
	for cell := 1; len(cells) > 0; cell++ {
		if !cells[cell] {
			continue
		}
		delete(cells, cell)
		lane := plot.Lane{Name: fmt.Sprintf("cell %d", cell)}
		for _, p := range list {
			if (p.Cell == cell || p.Cell == 0) && p.To > from && p.From < to {
				lane.Bars = append(lane.Bars, planBar(p, from, to))
			}
		}
		c.Lanes = append(c.Lanes, lane)
	}
	return c
}

func planBar(p result.PlanRow, from, to float64) plot.Bar {
	tone := slices.IndexFunc(works, func(k struct {
		tone string
		of   []string
	}) bool {
		return slices.Contains(k.of, p.Work)
	})
	name := ""
	if p.Work == "pour" {
		name = fmt.Sprint(p.Pour)
	}
	return plot.Bar{From: max(from, p.From), To: min(to, p.To), Name: name, Tone: tone}
}

package table

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/units"
)

// Parts writes parts.csv: the pieces of one mark in one row, with how many of them
// a carrier has and the cells and pours in which it has so many. The
// size is that of the box around the part as raised: along the cell, across
// it, and up; of a link its thickness twice and its length. Masses are the
// greatest there can be; what is neither stated nor derived has a lesser least
// one. The last column is how much of that carrier's weight is guessed, raised,
// with what lies on it.
func Parts(w io.Writer, s *model.Study, r *result.Result) error {
	system := jobSystem(s)
	l, m := units.Shown("m", system), massMeasure(system)
	size := " (" + l.Name + ")"
	rows := [][]string{{"cells", "pours", "mark", "role", "name", "side", "count", "mass each (" + m.Name + ")", "mass together (" + m.Name + ")",
		"along" + size, "across" + size, "up" + size, "least mass together (" + m.Name + ")", "mass is", "guessed of the carrier's weight (%)"}}
	for _, g := range partGroups(s, l.Nearest, m) {
		for _, b := range blocks(g.places) {
			rows = append(rows, []string{runs(b.cells), runs(b.pours), g.mark, string(g.role), plain(g.name), g.side,
				strconv.Itoa(g.count), g.each, g.together, g.size[0], g.size[1], g.size[2], g.least, massIs(g.known), g.guessed})
		}
	}
	return written(w, r, slices.Values(rows))
}

// massIs says where a mass comes from.
func massIs(known bool) string {
	if known {
		return "stated or derived"
	}
	return "guessed"
}

// jobSystem is the units of a study's job.
func jobSystem(s *model.Study) units.System {
	if s.Job.Job.Units == units.Imperial.String() {
		return units.Imperial
	}
	return units.Metric
}

// massMeasure is mass to a tenth: single lugs weigh less than a kilogram.
func massMeasure(s units.System) units.Measure {
	m := units.Shown("kg", s)
	m.Decimals = 1
	return m
}

// partKind is what makes two parts interchangeable, as printed.
type partKind struct {
	mark  string
	role  carrier.Role
	name  string
	side  string
	each  string
	size  [3]string
	known bool
}

// partRow is all parts of a kind in one carrier, as printed.
type partRow struct {
	partKind
	count    int
	together string
	least    string
	guessed  string // of the whole carrier's weight, per cent
}

// partGroup is a row and where it holds.
type partGroup struct {
	partRow
	places []place
}

func partGroups(s *model.Study, length func(float64) string, m units.Measure) []partGroup {
	var out []partGroup
	at := map[partRow]int{}
	for _, b := range s.Bays {
		guessed := fmt.Sprintf("%.0f", 100*b.Carrier.WeighRaised().Guessed)
		for _, row := range partRows(b.Carrier.Parts, length, m) {
			row.guessed = guessed
			n, ok := at[row]
			if !ok {
				n = len(out)
				at[row] = n
				out = append(out, partGroup{partRow: row})
			}
			out[n].places = append(out[n].places, place{b.Cell.Number, b.Pour.Number})
		}
	}
	return out
}

// partRows groups the parts of one carrier, in the order they are built.
func partRows(parts []carrier.Part, length func(float64) string, m units.Measure) []partRow {
	var order []partKind
	count, mass := map[partKind]int{}, map[partKind]carrier.Mass{}
	for _, p := range whole(parts) {
		d := p.Size()
		k := partKind{p.Mark, p.Role, p.Name, sideOf(p.Side), m.Nearest(math.Round(p.Mass.High*1e6) / 1e6), [3]string{length(d[0]), length(d[1]), length(d[2])}, p.Mass.Known()}
		if count[k] == 0 {
			order = append(order, k)
		}
		count[k]++
		mass[k] = mass[k].Plus(p.Mass)
	}
	var out []partRow
	for _, k := range order {
		out = append(out, partRow{partKind: k, count: count[k], together: m.Nearest(mass[k].High), least: m.Nearest(mass[k].Low)})
	}
	return out
}

// whole are the parts with those that are pieces of one panel put together, as
// they are lifted: the first of them, with the mass and the size of all.
func whole(parts []carrier.Part) []carrier.Part {
	var out []carrier.Part
	for _, p := range parts {
		if p.Piece == 0 {
			out = append(out, p)
			continue
		}
		last := &out[len(out)-1]
		last.Mass = last.Mass.Plus(p.Mass)
		last.Solid = &geom.Solid{Vertices: append(slices.Clone(last.Vertices), p.Vertices...)}
	}
	return out
}

// sideOf is empty for parts that belong to no side.
func sideOf(s culvert.Side) string {
	if s == culvert.Both {
		return ""
	}
	return fmt.Sprint(s)
}

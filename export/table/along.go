package table

import (
	"io"
	"slices"
	"strconv"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// Along writes along.csv: the carrier place by place on its way to the next
// pour, a row for every gap, pull and wheel load there. Gaps are samples at that
// place; what is proved over the whole way is roll.clear.
func Along(w io.Writer, r *result.Result, s units.System) error {
	m, load := lengths(s), forces(s)
	rows := [][]string{{"cell", "pour", "rolled (" + m.Name + ")", "station of rear end (" + m.Name + ")", "what", "of", "value", "unit", "allowance (" + m.Name + ")", "governs"}}
	for _, a := range r.Along {
		at := []string{strconv.Itoa(a.Cell), strconv.Itoa(a.Pour), m.Nearest(a.Rolled), m.Nearest(a.Station)}
		row := func(what, of string, value float64, u units.Measure, off, governs string) {
			rows = append(rows, append(at[:4:4], what, plain(of), u.Nearest(value), u.Name, off, governs))
		}
		for _, g := range a.Gaps {
			row("gap, sample", g.Zone+", "+g.Part, g.Gap, m, m.Nearest(g.Allowance), governs(a, g.Zone))
		}
		if a.Pulling != nil {
			row("pull to start", "", a.Pulling.Start, load, "", "")
			row("restraint", "", a.Pulling.Hold, load, "", "")
		}
		for i, l := range a.Wheels {
			line := "wheel line " + strconv.Itoa(i+1)
			row("wheel load, rigid frame", line+" left", l.RigidLeft, load, "", "")
			row("wheel load, rigid frame", line+" right", l.RigidRight, load, "", "")
			row("wheel load, soft frame", line+" left", l.SoftLeft, load, "", "")
			row("wheel load, soft frame", line+" right", l.SoftRight, load, "", "")
		}
	}
	return written(w, r, slices.Values(rows))
}

// governs is yes where a zone's roll.clear is found at a place.
func governs(a result.AlongRow, zone string) string {
	for _, z := range a.Governs {
		if z == zone {
			return "yes"
		}
	}
	return "no"
}

// forces are kN, or kip, finer than anyone weighs.
func forces(s units.System) units.Measure { return finer("kN", s, 3, 4) }

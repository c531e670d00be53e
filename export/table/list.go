package table

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/units"
)

// List is a table as a drawing letters it, every cell as text.
type List struct {
	Heads []Head
	Rows  [][]string
	// Sums is how many of the last rows sum up the others.
	Sums int
	// Notes say how to read it.
	Notes []string
}

// Head is the heading of a column.
type Head struct {
	Title  string
	Number bool // numbers stand at the right
	Long   bool // long entries may be broken into lines
}

// SettingList is settings.csv for a drawing: lengths as tapes and screws have
// them, tenths of a millimetre or sixteenths of an inch.
func SettingList(r *result.Result, s units.System) List {
	m := onTape(s)
	out := List{
		Heads: []Head{{Title: "Where", Long: true}, {Title: "Bents", Long: true}, {Title: "Adjuster", Long: true}, {Title: "Raised", Number: true}, {Title: "Collapsed", Number: true}, {Title: "Unit"}},
		Notes: []string{
			"Raised: set for the pour. Collapsed: ready to travel.",
			"Jacks read from the sill's underside to the plate's underside, braces and turnbuckles pin to pin.",
			"Bents count from the rear. Every place has its own carrier or the same one moved on; set it before the pour.",
		},
	}
	for _, g := range settingGroups(r.Settings, m.print) {
		out.Rows = append(out.Rows, []string{where(g.cells, g.pours), g.bents, g.adjuster, g.raised, g.collapsed, m.name})
	}
	return out
}

// PartList is parts.csv for a drawing, mark by mark, with the mass of the
// whole carrier in the last rows.
func PartList(s *model.Study) List {
	system := jobSystem(s)
	l, m := onTape(system), massMeasure(system)
	size := "Size along x across x up, " + l.name
	out := List{
		Heads: []Head{{Title: "Mark"}, {Title: "Part", Long: true}, {Title: "Where", Long: true}, {Title: "Side"}, {Title: size},
			{Title: "Count", Number: true}, {Title: "Each, " + m.Name, Number: true}, {Title: "Together, " + m.Name, Number: true}},
		Notes: []string{
			"A mark is one size and shape in all carriers of the job. L and R of one number are mirror images; pieces of one mark are interchangeable. W1L/3 elsewhere is the third piece of mark W1L, counted row by row from the rear.",
			"Counts and masses are those of one carrier. Sizes are those of the box around the part as raised; of a link, its thickness twice and its length.",
			guessNote(s),
		},
	}
	for _, g := range byRole(partGroups(s, l.short, m)) {
		for _, b := range blocks(g.places) {
			out.Rows = append(out.Rows, []string{g.mark, partName(g.partKind), where(b.cells, b.pours), g.side,
				strings.Join(g.size[:], " x "), strconv.Itoa(g.count), g.each, g.together})
		}
	}
	for _, t := range totals(s, m) {
		out.Sums++
		out.Rows = append(out.Rows, []string{"", t.what, t.where, "", "", strconv.Itoa(t.count), "", t.mass})
	}
	return out
}

// guessNote says how much of the masses is not known.
func guessNote(s *model.Study) string {
	var most carrier.Weighed
	for _, b := range s.Bays {
		if w := b.Carrier.WeighRaised(); w.Guessed >= most.Guessed {
			most = w
		}
	}
	m := massMeasure(jobSystem(s))
	return fmt.Sprintf("Masses are the greatest there can be: stated in the gear file, or from the size. With decking and concrete that sticks a carrier weighs %s to %s %s, %.0f %% of it guessed; weigh before lifting.",
		m.Nearest(most.Mass.Low), m.Nearest(most.Mass.High), m.Name, 100*most.Guessed)
}

// byRole brings the groups of a role together, roles in the order they come in, each
// in the order of its marks.
func byRole(list []partGroup) []partGroup {
	first := map[carrier.Role]int{}
	for i, g := range list {
		if _, ok := first[g.role]; !ok {
			first[g.role] = i
		}
	}
	slices.SortStableFunc(list, func(a, b partGroup) int {
		return cmp.Or(first[a.role]-first[b.role], markNumber(a.mark)-markNumber(b.mark), cmp.Compare(a.mark, b.mark))
	})
	return list
}

// partName is what a part is, with what it belongs to.
func partName(k partKind) string {
	if k.name == "" {
		return string(k.role)
	}
	return string(k.role) + ", " + k.name
}

// tape is how lengths are lettered on a drawing.
type tape struct {
	name  string
	print func(float64) string
}

// short is a length without an idle zero.
func (t tape) short(v float64) string { return strings.TrimSuffix(t.print(v), ".0") }

// onTape is tenths of a millimetre, or feet, inches and sixteenths.
func onTape(s units.System) tape {
	if s == units.Imperial {
		return tape{"ft-in", feetInches}
	}
	m := units.Shown("m", s)
	return tape{m.Name, m.Nearest}
}

// where names a full block of places.
func where(cells, pours []int) string { return spans("cell", cells) + ", " + spans("pour", pours) }

// markNumber is the number in a piece mark.
func markNumber(mark string) int {
	n, _ := strconv.Atoi(strings.TrimFunc(mark, unicode.IsLetter))
	return n
}

// total is the mass of all parts of a carrier, or of those of all cells.
type total struct {
	where, what, mass string
	count             int
}

// totals are the masses of one carrier, place by place, and, where several
// cells are cast together, of all their carriers.
func totals(s *model.Study, m units.Measure) []total {
	type sum struct {
		count int
		mass  string
	}
	var order []sum
	places := map[sum][]place{}
	mass, count, pours := map[int]float64{}, map[int]int{}, map[int][]int{}
	for _, b := range s.Bays {
		own := 0.0
		for _, p := range b.Carrier.Parts {
			own += p.Mass.High
		}
		pieces := len(whole(b.Carrier.Parts))
		k := sum{pieces, m.Nearest(own)}
		if places[k] == nil {
			order = append(order, k)
		}
		places[k] = append(places[k], place{b.Cell.Number, b.Pour.Number})
		mass[b.Pour.Number] += own
		count[b.Pour.Number] += pieces
		pours[b.Pour.Number] = append(pours[b.Pour.Number], b.Cell.Number)
	}
	what := "GRAND TOTAL"
	if len(s.Culvert.Cells) > 1 {
		what = "total, one carrier"
	}
	var out []total
	for _, k := range order {
		for _, b := range blocks(places[k]) {
			out = append(out, total{where(b.cells, b.pours), what, k.mass, k.count})
		}
	}
	if len(s.Culvert.Cells) > 1 {
		out = append(out, together(mass, count, pours, m)...)
	}
	return out
}

// together are the sums over the cells of a pour; pours with the same share a row.
func together(mass map[int]float64, count map[int]int, cells map[int][]int, m units.Measure) []total {
	var out []total
	same := map[total][]int{}
	for _, pour := range sortedKeys(mass) {
		t := total{spans("cell", cells[pour]), fmt.Sprintf("GRAND TOTAL, %d carriers", len(cells[pour])), m.Nearest(mass[pour]), count[pour]}
		if same[t] == nil {
			out = append(out, t)
		}
		same[t] = append(same[t], pour)
	}
	for i, t := range out {
		out[i].where += ", " + spans("pour", same[t])
	}
	return out
}

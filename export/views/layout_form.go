package views

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// layoutScale is the first denominator at which layouts are wanted.
const layoutScale = 50

// layoutNotes say how to read a layout.
var layoutNotes = []string{
	"Every piece bears its mark; W1L/3 is the third piece of mark W1L, row by row from the rear. Pieces of one mark are interchangeable, L and R of one number mirror images.",
	"Panels are bolted along every seam drawn between them; holes and bolts are those of the yard's panels.",
}

// layoutGroup are the bays whose carriers bear the same marks in the same places, as
// far as the roles of a layout go.
type layoutGroup = pourGroup

// alike groups the bays by the marks of some roles; label is set where there are
// several groups.
func (o *drafter) alike(roles ...carrier.Role) []layoutGroup {
	var out []layoutGroup
	place := map[string]int{}
	for i := range o.study.Bays {
		b := &o.study.Bays[i]
		key := ""
		for _, p := range b.Carrier.Parts {
			if slices.Contains(roles, p.Role) {
				key += fmt.Sprintf("%s %.0f ", p.At(), 1e4*(p.Box().Center()[0]-b.Carrier.Rear))
			}
		}
		n, known := place[key]
		if !known {
			n = len(out)
			place[key] = n
			out = append(out, layoutGroup{})
		}
		out[n].bays = append(out[n].bays, b)
	}
	if len(out) > 1 {
		for i, g := range out {
			out[i].label = fmt.Sprintf("-cell-%d-pour-%d", g.bays[0].Cell.Number, g.bays[0].Pour.Number)
		}
	}
	return out
}

// layouts are the sheets on which every piece that forms concrete, or stiffens what
// does, bears its mark: the walls, and the roof.
func (o *drafter) layouts() []plan {
	var out []plan
	for _, g := range o.alike(carrier.WallPanel, carrier.CornerPanel, carrier.Waler, carrier.Tie) {
		out = append(out, o.layout("wall-layout", "Wall elevations", g, func(s *sheet.Sheet, b *model.Bay, n float64) {
			s.Add(o.wallElevation(s, b, culvert.Left, n), o.wallElevation(s, b, culvert.Right, n))
		}))
	}
	for _, g := range o.alike(carrier.RoofPanel, carrier.Filler, carrier.Stringer) {
		out = append(out, o.layout("roof-layout", "Roof layout", g, func(s *sheet.Sheet, b *model.Bay, n float64) {
			s.Add(o.roofLayout(s, b, n))
		}))
	}
	for _, g := range o.alike(bentRoles...) {
		out = append(out, o.bentLayout(g))
	}
	return out
}

func (o *drafter) layout(name, title string, g layoutGroup, draw func(s *sheet.Sheet, b *model.Bay, n float64)) plan {
	size := perMetre * float64(g.bays[0].Carrier.Gear.Form.Length)
	return plan{
		name: name + g.label, title: title, supplement: g.text(), kind: "Layout drawing", notes: layoutNotes,
		least: size / layoutScale, size: size,
		build: func(s *sheet.Sheet, n float64) error {
			draw(s, g.bays[0], n)
			return nil
		},
	}
}

// flatPlace takes a part's box to the plane of a layout.
type flatPlace func(x, y, z float64) sheet.Point

// rectOf is a part in the plane of a layout.
func (f flatPlace) rectOf(p carrier.Part) sheet.Box {
	b := p.Box()
	return sheet.EmptyBox().Grow(f(b.Min[0], b.Min[1], b.Min[2]), f(b.Max[0], b.Max[1], b.Max[2]))
}

// wholeRect is the box around a piece that may be several solids, the first of which
// is number i.
func (f flatPlace) wholeRect(parts []carrier.Part, i int) sheet.Box {
	out := f.rectOf(parts[i])
	for k := i + 1; k < len(parts) && parts[k].Piece > 0; k++ {
		out = out.Union(f.rectOf(parts[k]))
	}
	return out
}

// clearest is the middle of the widest gap between lo and hi that lines leave.
func clearest(lo, hi float64, lines []float64) float64 {
	at := []float64{lo}
	for _, v := range lines {
		if v > lo && v < hi {
			at = append(at, v)
		}
	}
	at = append(at, hi)
	slices.Sort(at)
	best := 0
	for i := range len(at) - 1 {
		if at[i+1]-at[i] > at[best+1]-at[best]+1e-6 {
			best = i
		}
	}
	return (at[best] + at[best+1]) / 2
}

// fits tells whether a mark has room in a piece as drawn at 1:n.
func fits(s *sheet.Sheet, r sheet.Box, text string, n float64) bool {
	h := s.LetteringHeight() * n
	return sheet.TextWidth(text, h)+h < r.Width() && 1.4*h < r.Height()
}

// markers collects the marks of pieces that are too small to bear them, those at one
// place under one leader.
type markers struct {
	tips  []sheet.Point
	texts [][]string
}

// sharing is how far apart pieces may lie and share a leader, mm of the real thing.
const sharing = 260

func (m *markers) add(tip sheet.Point, mark string) {
	for i, t := range m.tips {
		if t.Sub(tip).Len() < sharing {
			if !slices.Contains(m.texts[i], mark) {
				m.texts[i] = append(m.texts[i], mark)
			}
			return
		}
	}
	m.tips, m.texts = append(m.tips, tip), append(m.texts, []string{mark})
}

// callouts are the leaders of what was collected.
func (m *markers) callouts() []callout {
	var out []callout
	for i, tip := range m.tips {
		out = append(out, callout{tip, strings.Join(m.texts[i], ", ")})
	}
	return out
}

// rowOf letters callouts beside each other at height y, in the order of their tips,
// each a little ahead of its own and clear of lines that run through the row at avoid.
func rowOf(s *sheet.Sheet, v *sheet.View, list []callout, y, n float64, avoid []float64) {
	h := s.LetteringHeight() * n
	slices.SortFunc(list, func(a, b callout) int { return cmp.Compare(a.tip[0], b.tip[0]) })
	avoid = slices.Sorted(slices.Values(avoid))
	right := math.Inf(-1)
	for _, c := range list {
		half := sheet.TextWidth(c.text, h)/2 + h/2
		x := math.Max(c.tip[0]+1.5*h, right+half)
		for _, a := range avoid {
			if math.Abs(a-x) < half {
				x = a + half
			}
		}
		right = x + half
		anchor, foot := sheet.BaseCentre, sheet.Pt(x, y-0.4*h)
		if c.tip[1] > y {
			anchor, foot = sheet.TopCentre, sheet.Pt(x, y+0.4*h)
		}
		v.Add(sheet.Text{On: sheet.Notes, At: sheet.Pt(x, y), Anchor: anchor, Lines: []string{c.text}})
		v.Add(sheet.Leader{On: sheet.Notes, Tip: c.tip, Knee: foot})
	}
}

// thin collects pieces of one mark that are too small to bear it: one has the leader,
// with how many there are.
type thin struct {
	order []string
	at    map[string]sheet.Box
	count map[string]int
}

func (t *thin) add(mark string, r sheet.Box) {
	if t.count == nil {
		t.count, t.at = map[string]int{}, map[string]sheet.Box{}
	}
	if t.count[mark]++; t.count[mark] == 1 {
		t.order = append(t.order, mark)
		t.at[mark] = r
	}
	if r.Min[0] < t.at[mark].Min[0] {
		t.at[mark] = r
	}
}

// letter writes the marks beside their pieces, toward the middle, each a step farther
// along and away than the one before.
func (t *thin) letter(v *sheet.View, middle, n float64) {
	const step, away = 18, 6    // mm of paper
	count := map[bool]float64{} // above and below
	for _, m := range t.order {
		r := t.at[m]
		above := r.Centre()[1] > middle
		tip := sheet.Pt(r.Min[0]+(4+step*count[above])*n, r.Centre()[1])
		count[above]++
		up := away * n
		if above {
			up = -up
		}
		v.Note(tip, tip.Add(sheet.Pt(3*n, up)), fmt.Sprintf("%s (%d)", m, t.count[m]))
	}
}

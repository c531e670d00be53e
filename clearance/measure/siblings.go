package measure

import (
	"fmt"

	"boxwalk/clearance/sweep"
	"boxwalk/model"
	"boxwalk/model/geom"
)

// Siblings are the bays that have the same carrier, set the same way: among
// itself it goes through the same motion wherever it stands along the cell, so
// that gaps between its own parts, and the boxes that hold them, are worked out
// once. The members differ by a shift along x, which every joint of a carrier
// leaves alone: its joints slide across and up, or turn about x.
type siblings struct {
	lead    *Bay
	boxes   [][]geom.Box // of each part in each step
	raising [][]geom.Box
	Alike   [][]*cohort // of parts in each step, that measure alike among themselves
	Selves  [][]SelfGaps
}

// join finds the siblings of each bay, in the order of their founders. The
// founder measures for all.
func join(s *model.Study, reports []*Report) []*siblings {
	kin := map[string]*siblings{}
	var out []*siblings
	for _, i := range s.Reported() {
		r := reports[i]
		c := r.Bay.Carrier
		key := fmt.Sprintf("%v %v %v", c.Setting, c.Kept.Over, c.Kept.Untied)
		if kin[key] == nil {
			kin[key] = &siblings{lead: r.Bay}
			out = append(out, kin[key])
		}
		// how adjusters out of step move bodies depends on the path alone
		r.kin, r.Bay.nudges = kin[key], out[0].lead.nudges
	}
	return out
}

// box queues what every other measurement wants: the boxes, and which parts
// measure alike.
func (f *siblings) box(w *workers, seen *memo, a Ask) {
	b := f.lead
	shapes := seen.shapesOf(b.Carrier)
	f.boxes = make([][]geom.Box, len(b.Steps))
	f.raising = make([][]geom.Box, len(b.Raising))
	f.Selves = make([][]SelfGaps, len(b.Steps))
	f.Alike = make([][]*cohort, len(b.Steps))
	for k, s := range b.Raising {
		if a.Raising && s.Stop == nil {
			w.Add(func() { f.raising[k] = b.sweptBoxes(s.Path) })
		}
	}
	for k, s := range b.Steps {
		if a.strips(b, k) {
			w.Add(func() {
				f.boxes[k] = b.sweptBoxes(s.Path)
				f.Alike[k] = b.selfCohorts(k, b.Present(s), shapes, f.boxes[k])
			})
		}
	}
}

// plan queues the measurements of the founder's parts among themselves.
func (f *siblings) plan(w *workers, a Ask) {
	for k, cohorts := range f.Alike {
		if !a.EveryPart {
			w.Add(func() { f.Selves[k] = f.lead.selvesGoverning(k, cohorts) })
			continue
		}
		f.Selves[k] = make([]SelfGaps, len(cohorts))
		for n, c := range cohorts {
			w.Add(func() {
				f.Selves[k][n] = f.lead.selfOf(k, c.part, c.meets, true)
				f.Selves[k][n].Alike = c.Alike
			})
		}
	}
}

// shift is how far a member stands ahead of the founder.
func (f *siblings) shift(b *Bay) geom.Vec { return geom.Vec{b.Carrier.Rear - f.lead.Carrier.Rear} }

func (f *siblings) boxAt(b *Bay, k, part int) geom.Box {
	return f.boxes[k][part].Moved(f.shift(b))
}

func (f *siblings) raisingBox(b *Bay, k, part int) geom.Box {
	return f.raising[k][part].Moved(f.shift(b))
}

// selvesOf are the founder's gaps at the place of a member.
func (f *siblings) selvesOf(b *Bay, k int) []SelfGaps {
	by := f.shift(b)
	if by == (geom.Vec{}) {
		return f.Selves[k]
	}
	moved := func(v sweep.Bracket) sweep.Bracket {
		if v.Against >= 0 {
			v.A, v.B = v.A.Add(by), v.B.Add(by)
		}
		return v
	}
	out := make([]SelfGaps, len(f.Selves[k]))
	for i, m := range f.Selves[k] {
		m.MustClear, m.Seam = moved(m.MustClear), moved(m.Seam)
		end := make([]selfEnd, len(m.end))
		for n, e := range m.end {
			end[n] = selfEnd{e.part, e.other, moved(e.value)}
		}
		m.end = end
		out[i] = m
	}
	return out
}

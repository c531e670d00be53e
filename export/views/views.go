package views

import (
	"errors"
	"fmt"
	"slices"
	"sync"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model"
)

// Named is one finished sheet with the name its file shall have, without
// extension.
type Named struct {
	Name  string
	Sheet *sheet.Sheet
}

// Sheets are the drawings of a job: an index, raised and collapsed section of every
// distinct cell, the sequence, a longitudinal section of every pour that differs, the
// plan, and the lists given, each on as many sheets as it takes, all on one size of
// paper. The index carries every caution and every sheet where to find them, and the
// stamp NOT CLEARED unless the result covers every check and all of them pass. It
// fails when a sheet does not fit the largest paper.
func Sheets(s *model.Study, r *result.Result, lists ...List) ([]Named, error) {
	o := &drafter{study: s, result: r}
	if len(s.Bays) == 0 {
		return nil, errNothing
	}
	for _, paper := range o.papers() {
		o.paper = &paper
		plans, err := o.set(lists)
		if err != nil {
			return nil, err
		}
		out, larger, err := o.drawn(plans)
		if err != nil || !larger || len(o.papers()) == 1 {
			return out, err
		}
	}
	return nil, errNoFit
}

// set are the sheets to be made, the index first.
func (o *drafter) set(lists []List) ([]plan, error) {
	groups := o.cells()
	plans, err := o.pages(o.holds())
	if err != nil {
		return nil, err
	}
	for _, g := range groups {
		plans = append(plans, o.raised(g))
		if len(g.bay().Steps) > 0 {
			plans = append(plans, o.collapsed(g))
		}
	}
	for _, g := range groups {
		plans = append(plans, o.sequence(g)...)
	}
	for _, g := range o.pourGroups() {
		plans = append(plans, o.long(g))
	}
	plans = append(append(plans, o.plan()), o.layouts()...)
	for _, l := range lists {
		pages, err := o.pages(l)
		if err != nil {
			return nil, fmt.Errorf("sheet %q: %w", l.Name, err)
		}
		plans = append(plans, pages...)
	}
	plans = append(plans, o.trackSheets()...)
	return append([]plan{o.index(plans)}, plans...), nil
}

// drawn are the sheets of a set; larger tells that one of them takes larger paper
// than all shall have.
func (o *drafter) drawn(plans []plan) (out []Named, larger bool, err error) {
	out = make([]Named, len(plans))
	err = Each(len(plans), func(i int) error {
		p := plans[i]
		p.number, p.of = i+1, len(plans)
		s, err := o.fit(p)
		if err != nil {
			return fmt.Errorf("sheet %q: %w", p.name, err)
		}
		out[i] = Named{Name: fmt.Sprintf("%02d-%s", i+1, p.name), Sheet: s}
		return nil
	})
	for _, n := range out {
		if n.Sheet != nil && n.Sheet.Paper != *o.paper {
		}
		larger = larger || n.Sheet != nil && n.Sheet.Paper != *o.paper
	}
	return out, larger, err
}

var errNothing = errors.New("the study has no pour to draw")

// drafter is what every sheet of a job needs.
type drafter struct {
	study  *model.Study
	result *result.Result
	paper  *sheet.Paper // that all sheets shall have; nil for the job's
	bents  sync.Map     // of bentKey: a func() ([]sheet.Item, error)
	shots  sync.Map     // of shotKey: a func() (*sheet.View, error)
}

// cellGroup are the cells that one section stands for.
type cellGroup struct {
	bays  []*model.Bay // one for each cell of the group, its first pour
	label string       // set only where there is more than one group
}

// bay is the one that is drawn.
func (g cellGroup) bay() *model.Bay { return g.bays[0] }

// standsFor tells whether a cell is one of the group.
func (g cellGroup) standsFor(cell int) bool {
	return slices.ContainsFunc(g.bays, func(b *model.Bay) bool { return b.Cell.Number == cell })
}

// castFirst tells whether no pour of a bay's cell is cast before its own.
func (o *drafter) castFirst(b *model.Bay) bool {
	for _, p := range o.study.Culvert.PoursIn(b.Cell) {
		if p.Cast < b.Pour.Cast {
			return false
		}
	}
	return true
}

// cells groups the cells with the same opening and the same slabs; only their
// walls may differ. Each stands for the first pour cast in it.
func (o *drafter) cells() []cellGroup {
	var out []cellGroup
	place := map[string]int{}
	for i := range o.study.Bays {
		b := &o.study.Bays[i]
		if !o.castFirst(b) {
			continue
		}
		key := b.Cell.Section
		key.Left, key.Right = 0, 0
		k := fmt.Sprintf("%v", key)
		if n, ok := place[k]; ok {
			out[n].bays = append(out[n].bays, b)
			continue
		}
		place[k] = len(out)
		out = append(out, cellGroup{bays: []*model.Bay{b}})
	}
	if len(out) > 1 {
		for i := range out {
			out[i].label = fmt.Sprintf("-cell-%d", out[i].bay().Cell.Number)
		}
	}
	return out
}

// cellsText says for which cells a section stands.
func (g cellGroup) cellsText() string {
	if len(g.bays) == 1 {
		return fmt.Sprintf("Cell %d", g.bay().Cell.Number)
	}
	out := "Cells "
	for i, b := range g.bays {
		switch {
		case i > 0 && i == len(g.bays)-1:
			out += " and "
		case i > 0:
			out += ", "
		}
		out += fmt.Sprint(b.Cell.Number)
	}
	return out
}

package views

import (
	"fmt"
	"sort"

	"boxwalk/export/sheet"
)

// List is a table that fills sheets of its own.
type List struct {
	Name    string // of the file, without number and extension
	Title   string
	Kind    string // document type
	Columns []sheet.Column
	// Rows are lettered from the top; a column with a Width breaks its entries
	// into lines. The last rows, as many as Sums says, sum up the others.
	Rows [][]string
	Sums int
	// Notes say how to read the list; they stand with the cautions of each sheet.
	Notes []string
}

// listLettering are the letter heights of a list, ISO 3098, mm: the larger one
// where all of it then stands on one sheet.
var listLettering = []float64{3.5, 2.5}

// page is a part of a list on one sheet.
type page struct {
	list      List
	columns   []sheet.Column
	lettering float64
	from, to  int
}

// pages divides a list over sheets of the smallest paper that its columns fit:
// the job's own, or the next. A list without rows has a sheet that says so.
func (o *drafter) pages(l List) ([]plan, error) {
	if len(l.Rows) == 0 {
		l.Columns, l.Rows, l.Sums = []sheet.Column{{Title: l.Title}}, [][]string{{"none"}}, 0
	}
	for _, paper := range o.papers() {
		for _, h := range listLettering {
			list := o.divide(l, paper, h)
			if len(list) > 0 && (len(list) == 1 || h == listLettering[len(listLettering)-1]) {
				return o.listPlans(list), nil
			}
		}
	}
	return nil, errNoFit
}

// divide is the list in pages that each fit a paper, nil where not even one row
// does.
func (o *drafter) divide(l List, paper sheet.Paper, h float64) []page {
	s := o.blank(plan{notes: l.Notes}, paper)
	s.Lettering = h
	p := page{list: l, columns: s.Fixed(l.Columns, l.Rows), lettering: h}
	var out []page
	for p.from < len(l.Rows) {
		left := len(l.Rows) - p.from
		most := sort.Search(left, func(i int) bool {
			p.to = p.from + i + 1
			return !p.fits(s)
		})
		if most == 0 {
			return nil
		}
		p.to = p.from + most
		out = append(out, p)
		p.from = p.to
	}
	return out
}

// fits tells whether a page has room on a blank sheet, which stays blank.
func (p page) fits(blank *sheet.Sheet) bool {
	s := blank.WithoutViews()
	p.draw(s, "(sheet 99 of 99)")
	return s.Arrange() == nil
}

// draw adds the page's table to a sheet.
func (p page) draw(s *sheet.Sheet, which string) {
	s.Lettering = p.lettering
	emphasis := make([]sheet.Emphasis, p.to-p.from)
	for i := range emphasis {
		if p.from+i >= len(p.list.Rows)-p.list.Sums {
			emphasis[i] = sheet.Sum
		}
	}
	title := p.list.Title
	if which != "" {
		title += " " + which
	}
	s.Add(s.Table(title, p.columns, p.list.Rows[p.from:p.to], emphasis...))
}

// listPlans are the sheets of a list; from the second on they say which they are.
func (o *drafter) listPlans(list []page) []plan {
	var out []plan
	for i, p := range list {
		name, which := p.list.Name, ""
		supplement := plural(len(o.study.Culvert.Cells), "cell") + ", " + plural(len(o.study.Culvert.Pours), "pour")
		if len(list) > 1 {
			name = fmt.Sprintf("%s-%d", p.list.Name, i+1)
			which = fmt.Sprintf("(sheet %d of %d)", i+1, len(list))
			supplement += fmt.Sprintf(", sheet %d of %d", i+1, len(list))
		}
		out = append(out, plan{
			name: name, title: p.list.Title, supplement: supplement, kind: p.list.Kind, notes: p.list.Notes,
			build: func(s *sheet.Sheet, _ float64) error {
				p.draw(s, which)
				return nil
			},
		})
	}
	return out
}

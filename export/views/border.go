package views

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
)

// plan is one sheet to be made: build draws its views for a scale.
type plan struct {
	name       string
	title      string
	supplement string
	kind       string // document type
	notes      []string
	number, of int
	whole      bool    // carries every caution in full; the others point to the one that does
	least      float64 // size that the main view keeps on paper, mm, where a larger paper can give it
	size       float64 // the same of the real thing, mm; 0 where nothing depends on a scale
	tall       float64 // of a picture, what size is across
	brief      bool    // a picture, which has no scale
	paper      *sheet.Paper
	build      func(s *sheet.Sheet, n float64) error
}

// largest first denominator and how far sheets may be reduced.
const (
	largestScale  = 5
	smallestScale = 1000
)

var errNoFit = errors.New("the drawing does not fit the largest paper; report this with the job file")

// fit makes the sheet on the job's paper at the largest scale at which all fits
// and nothing is lettered over anything else, down to oneSize of what the main view
// should keep: a set is of one size. The next larger paper is taken where
// it would become smaller yet, unless that does not help either. Where lettering crosses on every
// paper and scale, the sheet on which least of it does is taken: a detailer can
// move a number, but not draw what is not there.
func (o *drafter) fit(p plan) (*sheet.Sheet, error) {
	papers := o.papers()
	if p.paper != nil {
		papers = append([]sheet.Paper{*p.paper}, papers...)
	}
	t := trial{drafter: o, plan: p}
	for _, try := range []struct {
		papers []sheet.Paper
		least  float64
	}{{papers[:1], 1}, {papers[:1], oneSize}, {papers[:min(2, len(papers))], 1}, {papers[:1], 0}, {papers, 1}, {papers, 0}} {
		for _, paper := range try.papers {
			if s, err := t.on(paper, try.least*p.least); s != nil || err != nil {
				return s, err
			}
		}
	}
	if t.least == nil {
		return nil, errNoFit
	}
	return t.least, nil
}

// oneSize is the share of what the main view should keep on paper, mm, that it may
// shrink to before the whole set takes larger paper; judgement.
const oneSize = 0.6

// trial keeps the sheet with the fewest crossings of those tried.
type trial struct {
	*drafter
	plan
	least     *sheet.Sheet
	crossings int
}

// on is the sheet on a paper at the largest scale at which nothing crosses and the
// main view keeps so many mm; nil if there is none.
func (t *trial) on(paper sheet.Paper, least float64) (*sheet.Sheet, error) {
	blank := t.blank(t.plan, paper)
	width, height := blank.WithoutViews().Room()
	for _, n := range t.ladder(t.units()) {
		if n < largestScale || n > smallestScale || t.size/n < least {
			continue
		}
		if t.brief && (t.size/n > width || t.tall/n > height) {
			continue
		}
		s, err := t.at(t.plan, blank.WithoutViews(), n)
		if err != nil {
			return nil, err
		}
		if s == nil {
			continue
		}
		k := len(sheet.Overlaps(s))
		if k == 0 {
			return s, nil
		}
		if t.least == nil || k < t.crossings {
			t.least, t.crossings = s, k
		}
	}
	return nil, nil
}

// ladder are the scales to try: standard ones for drawings, fine steps for
// pictures, which have no scale, and one of any where nothing depends on it.
func (p plan) ladder(u sheet.Units) []float64 {
	if p.size == 0 {
		return []float64{largestScale}
	}
	if !p.brief {
		return u.Scales()
	}
	var out []float64
	for n := float64(largestScale); n < smallestScale; n *= 1.06 {
		out = append(out, n)
	}
	return out
}

// at is a blank sheet filled at one scale, nil if that does not go.
func (o *drafter) at(p plan, s *sheet.Sheet, n float64) (*sheet.Sheet, error) {
	if w, _ := s.Paper.Size(); p.size/n > w {
		return nil, nil
	}
	if err := p.build(s, n); err != nil {
		return nil, err
	}
	if s.Arrange() != nil {
		return nil, nil
	}
	return s, nil
}

// papers are the size that all sheets shall have, else the job's own, and those larger.
func (o *drafter) papers() []sheet.Paper {
	list := o.sizes()
	for i, p := range list {
		if o.paper != nil && p == *o.paper {
			return list[i:]
		}
	}
	return list
}

// smallWidth is the width of the largest sheet that counts as small, mm: A3 and US B.
const smallWidth = 440

// small tells whether the set is on paper on which less stands on a sheet.
func (o *drafter) small() bool {
	if o.paper == nil {
		return false
	}
	width, _ := o.paper.Size()
	return width <= smallWidth
}

// sizes are the job's own and those larger.
func (o *drafter) sizes() []sheet.Paper {
	iso := []sheet.Paper{sheet.A4, sheet.A3, sheet.A2, sheet.A1, sheet.A0}
	us := []sheet.Paper{sheet.USB, sheet.USC, sheet.USD}
	size := o.study.Job.Sheet.Size
	family := iso
	// the default of the job file is A3; a job in feet gets the US size next to it
	if o.units().Imperial {
		family = us
		size = map[string]string{"A4": "B", "A3": "B", "A2": "C", "A1": "D", "A0": "D"}[size] + strings.Trim(size, "A01234")
	}
	for _, list := range [][]sheet.Paper{family, iso, us} {
		for i, p := range list {
			if p.Name() == size {
				return list[i:]
			}
		}
	}
	return family[1:]
}

// units of all sheets: tenths of a millimetre are what clearances are told to.
func (o *drafter) units() sheet.Units {
	return sheet.Units{Imperial: o.study.Job.Job.Units == "imperial", Decimals: 1}
}

// blank is the sheet with everything but its views.
func (o *drafter) blank(p plan, paper sheet.Paper) *sheet.Sheet {
	d := o.study.Job.Sheet
	s := &sheet.Sheet{Paper: paper, Units: o.units(), Cautions: o.cautions(p), Notes: p.notes, Footer: o.result.Origin(),
		Title: sheet.Title{
			Owner: d.Owner, Number: o.numbered(p), Title: p.title, Supplement: o.study.Job.Job.Name + " - " + p.supplement,
			Creator: d.Creator, Approver: d.Approver, Date: d.Date, Revision: d.Revision,
			Sheet: p.number, Sheets: p.of, DocumentType: p.kind,
		}}
	s.Stamp, s.StampReason = o.stamp()
	if o.result.Verdict == result.Fail {
		s.Title.Status = doesNotPass
	}
	if !o.approved() { // nobody has approved or issued what was changed since, or is not cleared
		s.Title.Approver, s.Title.Date = "", ""
		if s.Stamp == "" {
			s.Title.Status = forChecking
		}
	}
	return s
}

// cautions of a sheet: all of them on the index and on pictures, which are handed on
// by themselves; elsewhere those that come first, and where the others stand.
func (o *drafter) cautions(p plan) []string {
	r := o.result
	switch {
	case p.brief:
		return slices.Concat([]string{explainsOnly}, r.Cautions, r.Reservations())
	case p.whole:
		return slices.Concat(r.Cautions, r.Reservations())
	}
	out := slices.Clone(r.Cautions[:min(shortCautions, len(r.Cautions))])
	out = append(out, fmt.Sprintf("All cautions, what is not checked and where hold points are signed stand on sheet %s: read it before this one.", o.sheetNumber(1)))
	for _, l := range r.Looser {
		out = append(out, "Set looser than the default: "+l.Text+".")
	}
	return out
}

// shortCautions is how many cautions every sheet carries: that an engineer checks
// before use, and that nothing is released but in writing.
const shortCautions = 2

// numbered is the identification number of a sheet of the set; pictures have the job's.
func (o *drafter) numbered(p plan) string {
	if p.brief || p.number == 0 {
		return o.study.Job.Job.Number
	}
	return o.sheetNumber(p.number)
}

// doesNotPass is the document status of every sheet of a job that fails.
const doesNotPass = "does not pass: see result"

// forChecking is the document status of a cleared job that nobody has approved as it is.
const forChecking = "For checking: not approved"

// approved tells whether the job names an approver, and as approved what it was worked
// out from now.
func (o *drafter) approved() bool {
	d := o.study.Job.Sheet
	return d.Approver != "" && o.result.Approved(d.Approved)
}

// explainsOnly is the first caution on a picture.
const explainsOnly = "A picture to explain, not to set by; read it with the drawings."

// stamp is NOT CLEARED with its reason unless everything was checked and passes.
func (o *drafter) stamp() (stamp, reason string) {
	r := o.result
	if r.Cleared() {
		return "", ""
	}
	count := map[result.Verdict]int{}
	first := map[result.Verdict]string{}
	for _, c := range r.Checks {
		if count[c.Verdict]++; first[c.Verdict] == "" {
			first[c.Verdict] = c.ID + ", " + c.Subject.String()
		}
	}
	var parts []string
	for _, v := range []result.Verdict{result.Fail, result.Open} {
		if count[v] > 0 {
			parts = append(parts, fmt.Sprintf("%s: %s, first %s.", map[result.Verdict]string{result.Fail: "Fails", result.Open: "Open"}[v], plural(count[v], "check"), first[v]))
		}
	}
	if r.Scope != nil {
		parts = append(parts, "Only "+strings.Join(r.Scope, ", ")+" was checked.")
	}
	if len(parts) == 0 {
		parts = append(parts, "Nothing was checked.")
	}
	return "NOT CLEARED", strings.Join(parts, " ")
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

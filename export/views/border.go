package views

import (
	"errors"
	"fmt"
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
// and nothing is lettered over anything else; a larger paper is taken where
// the main view would become too small to read. Where lettering crosses on every
// paper and scale, the sheet on which least of it does is taken: a detailer can
// move a number, but not draw what is not there.
func (o *drafter) fit(p plan) (*sheet.Sheet, error) {
	papers := o.papers()
	if p.paper != nil {
		papers = append([]sheet.Paper{*p.paper}, papers...)
	}
	var least *sheet.Sheet
	crossings := 0
	for _, legible := range []bool{true, false} {
		for _, paper := range papers {
			blank := o.blank(p, paper)
			width, height := blank.WithoutViews().Room()
			for _, n := range p.ladder(o.units()) {
				if n < largestScale || n > smallestScale || legible && p.size/n < p.least {
					continue
				}
				if p.brief && (p.size/n > width || p.tall/n > height) {
					continue
				}
				s, err := o.at(p, blank.WithoutViews(), n)
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
				if least == nil || k < crossings {
					least, crossings = s, k
				}
			}
		}
	}
	if least == nil {
		return nil, errNoFit
	}
	return least, nil
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

// papers are the job's own size and those larger.
func (o *drafter) papers() []sheet.Paper {
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
	s := &sheet.Sheet{Paper: paper, Units: o.units(), Cautions: o.result.Cautions, Notes: p.notes, Footer: o.result.Origin(),
		Title: sheet.Title{
			Owner: d.Owner, Number: o.study.Job.Job.Number, Title: p.title, Supplement: o.study.Job.Job.Name + " - " + p.supplement,
			Creator: d.Creator, Approver: d.Approver, Date: d.Date, Revision: d.Revision,
			Sheet: p.number, Sheets: p.of, DocumentType: p.kind,
		}}
	if p.brief {
		s.Cautions = append([]string{explainsOnly}, s.Cautions...)
	}
	s.Cautions = append(s.Cautions, o.result.Reservations()...)
	s.Stamp, s.StampReason = o.stamp()
	if o.result.Verdict == result.Fail {
		s.Title.Status = doesNotPass
	}
	if !o.result.Cleared() { // nobody approves or issues what is not cleared
		s.Title.Approver, s.Title.Date = "", ""
	}
	return s
}

// doesNotPass is the document status of every sheet of a job that fails.
const doesNotPass = "does not pass: see result"

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

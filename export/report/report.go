package report

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/export/table"
	"boxwalk/model"
	"boxwalk/model/units"
)

// Of a study and what was found of it.
func Of(s *model.Study, r *result.Result) Document {
	w := &writer{study: s, result: r}
	if s.Job.Job.Units == units.Imperial.String() {
		w.system = units.Imperial
	}
	d := Document{Title: "Calculation report", Job: strings.TrimSpace(r.Job.Number + "  " + r.Job.Name), Verdict: "pass", Origin: r.Origin(), Letter: w.system == units.Imperial, Dated: s.Job.Sheet.Date}
	if !r.Cleared() {
		d.Stamp, d.Verdict, d.Dated = "NOT CLEARED", strings.ToUpper(r.Verdict.String()), ""
	}
	d.Front = w.front()
	d.Parts = []Chapter{
		{"basis", "Basis", w.basis()},
		{"inputs", "Inputs", w.inputs()},
		{"assumptions", "Assumptions", w.assumptions()},
		{"defaults", "Defaults that entered", w.defaults()},
		{"checks", "Checks", w.checks()},
		{"allowances", "Allowances", w.allowances()},
		{"pour", "Under the pour", w.pour()},
		{"plots", "Along the way", w.plots()},
		{"plan", "Plan of the pours", w.plan()},
		{"not-checked", "Not checked, and looser than usual", w.notChecked()},
		{"masses", "Masses", w.masses()},
		{"cautions", "Cautions", []Block{Bullets{r.Cautions}}},
		{"sign-off", "Sign-off", w.signOff()},
	}
	return d
}

// writer writes the chapters.
type writer struct {
	study  *model.Study
	result *result.Result
	system units.System
}

// front is what stands first: the verdict and what it answers for.
func (w *writer) front() []Block {
	r := w.result
	count := map[result.Verdict]int{}
	for _, e := range r.Checks {
		count[e.Verdict]++
	}
	out := []Block{Paragraph{fmt.Sprintf("%d entries of %d checks: %d pass, %d fail, %d are open.", len(r.Checks), len(r.Governing()), count[result.Pass], count[result.Fail], count[result.Open]), Strong}}
	switch {
	case r.Scope != nil:
		out = append(out, Paragraph{"Only " + strings.Join(r.Scope, ", ") + " was asked for: this clears nothing for use.", Alarm})
	case r.Cleared():
		out = append(out, Paragraph{"A pass is a pass of what was checked, for the duties below and no others. It releases nothing: that is done in writing, by a named person.", Plain})
	default:
		out = append(out, Paragraph{"NOT CLEARED. What fails or stays open stands first in the table and in its chapter; nothing is to be set up, stripped or rolled by this report.", Alarm})
	}
	out = append(out, w.answers())
	for _, sentence := range r.Reservations() {
		out = append(out, Paragraph{sentence, Strong})
	}
	return append(out, w.governing(), Paragraph{"Value: the end of its bracket that is worse. Allowance: what tolerances and turning out of step can take from it. Margin = value - allowance - limit, or limit - allowance - value where the limit is a most.", Note})
}

// answers are the duties that checks of this result answer for.
func (w *writer) answers() Block {
	made := map[string]result.Verdict{}
	for _, e := range w.result.Governing() {
		made[e.ID] = e.Verdict
	}
	t := Table{Caption: "What the verdict answers for", Heads: []Head{{Title: "Duty", Share: 3}, {Title: "Checks", Share: 3}, {Title: "Verdict", Share: 1}}}
	place := map[string]int{}
	for _, c := range check.Table() {
		v, is := made[c.ID]
		if !is {
			continue
		}
		n, known := place[c.Duty]
		if !known {
			n = len(t.Rows)
			place[c.Duty] = n
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: c.Duty}, {}, {Text: v.String()}}, Tone: toneOf(v)})
		}
		row := &t.Rows[n]
		row.Cells[1].Text = strings.TrimPrefix(row.Cells[1].Text+", "+c.ID, ", ")
		if v == result.Fail || v == result.Open && row.Cells[2].Text == "pass" {
			row.Cells[2].Text, row.Tone = v.String(), Alarm
		}
	}
	return t
}

func toneOf(v result.Verdict) Tone {
	if v == result.Pass {
		return Plain
	}
	return Alarm
}

// governing is the table of the governing entry of each check, what does not pass first.
func (w *writer) governing() Block {
	t := Table{Caption: "What governs each check", Heads: entryHeads("Check and where")}
	list := w.result.Governing()
	first := map[result.Verdict]int{result.Fail: 0, result.Open: 1, result.Pass: 2}
	slices.SortStableFunc(list, func(a, b result.Entry) int { return first[a.Verdict] - first[b.Verdict] })
	for _, e := range list {
		row := w.entryRow(e, []result.Entry{e})
		row.Cells[0].Text = e.ID + ": " + e.Subject.String()
		t.Rows = append(t.Rows, row)
	}
	return t
}

func entryHeads(first string) []Head {
	return []Head{{Title: first, Share: 4}, {Title: "Value", Number: true, Share: 1}, {Title: "Allowance", Number: true, Share: 1.1}, {Title: "Limit", Number: true, Share: 1.1}, {Title: "Margin", Number: true, Share: 1}, {Title: "Unit", Share: 0.6}, {Title: "Verdict", Share: 0.9}}
}

// entryRow is an entry, for all that say the same at other places, as a row.
func (w *writer) entryRow(e result.Entry, alike []result.Entry) Row {
	p := e.Printed(w.system)
	of := &Shown{ID: e.ID}
	var places [][2]int
	for _, a := range alike {
		of.Subjects = append(of.Subjects, a.Subject.String())
		if a.Subject.Cell != 0 {
			places = append(places, [2]int{a.Subject.Cell, a.Subject.Pour})
		}
	}
	where := e.Subject.Rest()
	if len(places) > 0 {
		where = strings.TrimSuffix(table.Places(places)+": "+where, ": ")
	}
	sense := "≥ "
	if e.Sense == result.Max {
		sense = "≤ "
	}
	cells := []Cell{{Text: where}, {Text: "-"}, {}, {Text: "-"}, {Text: "-"}, {Text: p.Measure.Name}, {Text: e.Verdict.String()}}
	if e.Value != nil {
		cells[1] = Cell{p.Value, "value", worse(e)}
	}
	if p.Off != "" {
		cells[2] = Cell{p.Off, "allowance", e.Allowance}
	}
	if e.Limit != nil {
		cells[3] = Cell{sense + p.Limit, "limit", *e.Limit}
	}
	if e.Margin != nil {
		cells[4] = Cell{p.Margin, "margin", *e.Margin}
	}
	return Row{Cells: cells, Tone: toneOf(e.Verdict), Of: of}
}

// worse is the end of a value's bracket that counts.
func worse(e result.Entry) float64 {
	if e.Sense == result.Max {
		return e.Value.Upper
	}
	return e.Value.Lower
}

// signOff is who prepared, checked and approved it.
func (w *writer) signOff() []Block {
	text := "Whoever signs has read the chapters on what is not checked and on cautions. The signatures release no form: that is done in writing, pour by pour."
	if !w.result.Cleared() {
		return []Block{Paragraph{"NOT CLEARED: this report is not to be approved. " + text, Alarm}, SignOff{[]string{"Prepared", "Checked"}}}
	}
	return []Block{Paragraph{text, Plain}, SignOff{[]string{"Prepared", "Checked", "Approved"}}}
}

package pdf

import (
	"bytes"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/worked"
	"boxwalk/export/plot"
	"boxwalk/export/report"
	"boxwalk/model/formula"
)

func written(t *testing.T, d report.Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Report(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func documentOf(t *testing.T, name string, swap ...[2]string) report.Document {
	t.Helper()
	s := worked.Job(t, name, swap...)
	return report.Of(s, check.Run(s, check.Options{Version: "test"}))
}

func TestTheSameReportIsTheSameBytes(t *testing.T) {
	first := written(t, documentOf(t, "one-pour"))
	if again := written(t, documentOf(t, "one-pour")); !bytes.Equal(first, again) {
		t.Error("two writings differ")
	}
	for _, day := range []string{"/CreationDate (D:20000101000000)", "/ModDate (D:20000101000000)"} {
		if !bytes.Contains(first, []byte(day)) {
			t.Errorf("no %s", day)
		}
	}
}

// What the fonts have no letter for, and what is none, stops no report.
func TestAnyNameIsPrinted(t *testing.T) {
	d := documentOf(t, "one-pour")
	for _, name := range []string{"", "(a) \\ b) Tj", "桥", "\U0001F600", "\xff\xfe", "a\x00b", strings.Repeat("wide ", 200), strings.Repeat("w", 500)} {
		d.Job, d.Origin, d.Dated = name, name, name
		d.Front = []report.Block{report.Paragraph{Text: name}, report.Table{Caption: name, Heads: []report.Head{{Title: "a", Share: 1}}, Rows: []report.Row{{Cells: []report.Cell{{Text: name}}}}}}
		if text := written(t, d); !bytes.HasPrefix(text, []byte("%PDF-")) {
			t.Errorf("%q", name)
		}
	}
	for text, want := range map[string]string{"a\nb\tc": "a b c", "桥 1": "? 1", "≥ 25 mm·√φ": "≥ 25 mm·√φ", "\x00x\x7f": "x", "\xff": "?"} {
		if got := printable(text); got != want {
			t.Errorf("%q is printed %q, want %q", text, got, want)
		}
	}
}

// A fraction is as wide as the wider of its parts and stands on the axis; a formula set
// from parts is as wide as these together.
func TestFormulasAreSetAsHighAndWideAsTheirParts(t *testing.T) {
	d := newDocument("", "")
	d.AddPage()
	set := func(text string) box {
		n, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		return d.set(n, 10)
	}
	a, b := set("aaaa"), set("b")
	if f := set("aaaa / b"); f.wide < 0.9*a.wide || f.wide > a.wide+5 || f.up < 1.3*a.up || f.down < 0.7*a.up {
		t.Errorf("a fraction is %v wide, %v up, %v down", f.wide, f.up, f.down)
	}
	if s := set("aaaa + b"); s.wide < a.wide+b.wide || s.up != a.up {
		t.Errorf("a sum is %v wide", s.wide)
	}
	if p := set("b^2"); !(p.up > b.up) || !(set("(a / b)^2").up > set("a / b").up) {
		t.Error("a power does not rise")
	}
	for _, text := range []string{"sqrt(1 + i^2)", "max(0, W * (i - f) / sqrt(1 + i^2))", "-abs(a)", "exp(s * (1 - sqrt(28 / t_e)))", "tan(a)^2", "2.5e-6 * C_w"} {
		s := set(text)
		if !(s.wide > 0 && s.up > 0) {
			t.Errorf("%s is nothing", text)
		}
		s.draw(100, 100)
	}
	if d.Err() {
		t.Error(d.Error())
	}
}

// No text is lost where a table goes on over pages: every row is set, each page has the
// heads, and a row higher than what is left begins a page.
func TestATableGoesOnOverPages(t *testing.T) {
	var rows []report.Row
	for range 200 {
		rows = append(rows, report.Row{Cells: []report.Cell{{Text: strings.Repeat("word ", 30)}, {Text: "12.3"}}})
	}
	d := report.Document{Title: "Report", Front: []report.Block{report.Table{Caption: "Long", Heads: []report.Head{{Title: "What", Share: 1}, {Title: "Number", Number: true, Share: 3}}, Rows: rows}}}
	p := &paper{report: d, at: map[string]int{}}
	p.run()
	if n := p.PageCount(); n < 15 || n > 60 || p.y > p.down-bottom+1 {
		t.Errorf("%d pages, ends at %v", n, p.y)
	}
}

func TestEveryDiagramOfAJobIsSet(t *testing.T) {
	d := documentOf(t, "one-pour")
	figures := 0
	for _, c := range d.Parts {
		for _, b := range c.Blocks {
			if _, is := b.(report.Figure); is {
				figures++
			}
		}
	}
	if figures != 6 {
		t.Errorf("%d figures", figures)
	}
	chart := plot.Chart{Title: "cycle", Across: "Hours", Tones: []string{"work"}, Lanes: []plot.Lane{{Name: "cell 1", Bars: []plot.Bar{{From: 0, To: 8, Name: "pour 1"}}}}}
	d.Front = []report.Block{report.Figure{Drawing: chart.Draw(500)}}
	written(t, d)
}

func TestAnImperialReportIsOnLetterPaper(t *testing.T) {
	if text := written(t, documentOf(t, "heron-creek")); !bytes.Contains(text, []byte("/MediaBox [0 0 612.00 792.00]")) {
		t.Error("it is not")
	}
}

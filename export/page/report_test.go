package page

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/export/report"
	"boxwalk/model"
	"boxwalk/model/formula"
	"boxwalk/model/units"
)

// written is the page of a study, and what was found.
func written(t *testing.T, s *model.Study) (string, *result.Result) {
	t.Helper()
	r := check.Run(s, check.Options{Version: "test", Inputs: []result.Input{{Name: "job.yaml", SHA256: strings.Repeat("ab", 32)}}})
	var b strings.Builder
	if err := Report(&b, report.Of(s, r)); err != nil {
		t.Fatal(err)
	}
	return b.String(), r
}

// elements walks a page as a lenient reader of markup does; every element is closed in
// its order.
func elements(t *testing.T, text string, visit func(e xml.StartElement, inside string)) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var last *xml.StartElement
	var inside strings.Builder
	tell := func() {
		if last != nil {
			visit(*last, inside.String())
		}
		last = nil
		inside.Reset()
	}
	for {
		token, err := d.Token()
		switch {
		case errors.Is(err, io.EOF):
			tell()
			return
		case err != nil:
			t.Fatal(err)
		}
		switch k := token.(type) {
		case xml.StartElement:
			tell()
			e := k.Copy()
			last = &e
		case xml.CharData:
			inside.Write(k)
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func TestAReportAsksForNothingFromAnywhere(t *testing.T) {
	text, _ := written(t, worked.Job(t, "one-pour"))
	policy := false
	elements(t, text, func(e xml.StartElement, _ string) {
		if slices.Contains([]string{"script", "link", "img", "iframe", "object", "embed", "form", "base", "video", "audio"}, e.Name.Local) {
			t.Errorf("there is a %s", e.Name.Local)
		}
		for _, a := range e.Attr {
			name := a.Name.Local
			if name == "src" || strings.HasPrefix(name, "on") || name == "href" && !strings.HasPrefix(a.Value, "#") {
				t.Errorf("%s has %s=%q", e.Name.Local, name, a.Value)
			}
		}
		policy = policy || attribute(e, "http-equiv") == "Content-Security-Policy" && strings.HasPrefix(attribute(e, "content"), "default-src 'none';")
	})
	if !policy || strings.Contains(text, "url(") || strings.Contains(text, "@import") {
		t.Error("its policy lets something in, or its style asks for something")
	}
}

func TestAHostileNameStaysAName(t *testing.T) {
	s := worked.Job(t, "one-pour")
	for _, name := range []string{`</title><script>alert(1)</script>`, `</style><script>alert(1)</script>`, `"} body{display:none} @page{content:"`, `" onload="alert(1)`, `\";}*{color:red}`, "a\u2028b<!--", "]]>&amp;"} {
		s.Job.Job.Name, s.Job.Sheet.Date, s.Gear.Gear.Name = name, name, name
		text, _ := written(t, s)
		elements(t, text, func(e xml.StartElement, inside string) {
			if e.Name.Local == "script" || attribute(e, "onload") != "" {
				t.Errorf("%q became markup", name)
			}
			if e.Name.Local == "h1" && !strings.Contains(inside, name) {
				t.Errorf("%q reads %q", name, inside)
			}
			if e.Name.Local == "style" && strings.Contains(strings.ReplaceAll(inside, style, ""), strings.TrimSpace(name)) {
				t.Errorf("%q stands in the style as it is", name)
			}
		})
	}
}

// Every number of an entry that is printed is that of the result, rounded by less than
// its last digit.
func TestEveryNumberOfAReportIsThatOfTheResult(t *testing.T) {
	for _, name := range []string{"one-pour", "pindle-beck", "chalk-hill", "heron-creek"} {
		s := worked.Job(t, name)
		text, r := written(t, s)
		system := units.Metric
		if s.Job.Job.Units == "imperial" {
			system = units.Imperial
		}
		of := map[string]result.Entry{}
		for _, e := range r.Checks {
			of[e.ID+"|"+e.Subject.String()] = e
		}
		told := map[string]bool{}
		var now []result.Entry
		elements(t, text, func(e xml.StartElement, inside string) {
			if id := attribute(e, "data-id"); id != "" {
				now = nil
				for _, subject := range strings.Split(attribute(e, "data-subjects"), "|") {
					now = append(now, of[id+"|"+subject])
					told[id+"|"+subject] = true
				}
			}
			if field := attribute(e, "data-field"); field != "" && len(now) > 0 {
				for i, entry := range now {
					sameNumber(t, name, entry, field, attribute(e, "value"), inside, i == 0, system)
				}
			}
			if e.Name.Local == "table" && attribute(e, "data-id") == "" {
				now = nil
			}
		})
		if len(told) != len(r.Checks) {
			t.Errorf("%s: %d of %d entries are told", name, len(told), len(r.Checks))
		}
	}
}

// sameNumber holds a printed number against that of an entry.
func sameNumber(t *testing.T, name string, e result.Entry, field, exact, printed string, first bool, system units.System) {
	t.Helper()
	var want float64
	times, n := units.Shown(e.Unit, system).Times, -1
	switch field {
	case "value":
		want = e.Value.Lower
		if e.Sense == result.Max {
			want = e.Value.Upper
		}
	case "allowance":
		want = e.Allowance
	case "limit":
		want = *e.Limit
	case "margin":
		want = *e.Margin
	default:
		var err error
		if n, err = strconv.Atoi(strings.TrimPrefix(field, "working ")); err != nil || n >= len(e.Working) {
			t.Fatalf("%s: %s", name, field)
		}
		want, times = e.Working[n].Value, 1
	}
	v, err := strconv.ParseFloat(exact, 64)
	if err != nil || first && v != want || math.Abs(v-want) > 1e-6*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: %s, %s: %s is %s, in the result %v", name, e.ID, e.Subject, field, exact, want)
	}
	digits := strings.Fields(strings.TrimLeft(printed, "≥≤ "))[0]
	p, err := strconv.ParseFloat(digits, 64)
	last := math.Pow10(-len(digits[strings.IndexByte(digits+".", '.'):]) + 1)
	if n >= 0 {
		last = 1e-5 * math.Abs(want)
	}
	if err != nil || math.Abs(p-want*times) > 1.01*last+1e-12 {
		t.Errorf("%s: %s, %s: %s is printed %s, in the result %v", name, e.ID, e.Subject, field, printed, want*times)
	}
}

// What is printed can be done again from the page alone: six digits go in, and five
// come out, less what a difference of alike numbers loses.
func TestAWorkingIsDoneAgainFromWhatIsPrinted(t *testing.T) {
	_, r := written(t, worked.Job(t, "pindle-beck"))
	steps := 0
	for _, e := range r.Governing() {
		printed := map[string]float64{}
		for _, l := range e.Working {
			v, err := strconv.ParseFloat(report.Six(l.Value), 64)
			if err != nil {
				t.Fatal(err)
			}
			if l.Formula != "" {
				n, _ := formula.Parse(l.Formula)
				again, err := formula.Eval(n, printed)
				if err != nil || math.Abs(again-l.Value) > 1e-4*math.Max(math.Abs(l.Value), 0.1) {
					t.Errorf("%s: %s = %s gives %v from what is printed, and is %v", e.ID, l.Symbol, l.Formula, again, l.Value)
				}
				steps++
			}
			printed[l.Symbol] = v
		}
	}
	if steps < 40 {
		t.Errorf("only %d steps", steps)
	}
}

func TestAReportIsNotClearedWhereTheJobIsNot(t *testing.T) {
	for name, cleared := range map[string]bool{"one-pour": true, "chalk-hill": false} {
		text, _ := written(t, worked.Job(t, name))
		if strings.Contains(text, `<p class="stamp">`) == cleared || strings.Contains(text, "Approved</th>") != cleared {
			t.Errorf("%s: stamped or for approval as if the other way round", name)
		}
	}
}

func TestFormulasAreSetAsInPrint(t *testing.T) {
	for text, want := range map[string]string{
		"W / (2 * n)": `<mfrac><mrow><mi>W</mi></mrow><mrow><mrow><mn>2</mn><mo>·</mo><mi>n</mi></mrow></mrow></mfrac>`,
		"C_w^2":       `<msup><msub><mi>C</mi><mtext>w</mtext></msub><mrow><mn>2</mn></mrow></msup>`,
		"-(a + b)^2":  `<mrow><mo>−</mo><msup><mrow><mo>(</mo><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup></mrow>`,
		"(a / b)^2":   `<msup><mrow><mo>(</mo><mfrac><mrow><mi>a</mi></mrow><mrow><mi>b</mi></mrow></mfrac><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup>`,
		"a - (b - c)": `<mrow><mi>a</mi><mo>−</mo><mrow><mo>(</mo><mrow><mi>b</mi><mo>−</mo><mi>c</mi></mrow><mo>)</mo></mrow></mrow>`,
		"a - -b":      `<mrow><mi>a</mi><mo>−</mo><mrow><mo>(</mo><mrow><mo>−</mo><mi>b</mi></mrow><mo>)</mo></mrow></mrow>`,
		"sqrt(phi)":   `<msqrt><mrow><mi>φ</mi></mrow></msqrt>`,
		"abs(x)":      `<mrow><mo>|</mo><mi>x</mi><mo>|</mo></mrow>`,
		"tan(a)^2":    "<msup><mrow><mo>(</mo><mrow><mi>tan</mi><mo>\u2061</mo>" + `<mrow><mo>(</mo><mi>a</mi><mo>)</mo></mrow></mrow><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup>`,
		"2.5e-06 * a": `<mrow><mrow><mn>2.5</mn><mo>×</mo><msup><mn>10</mn><mn>−6</mn></msup></mrow><mo>·</mo><mi>a</mi></mrow>`,
		"max(a, 0)":   "<mrow><mi>max</mi><mo>\u2061</mo>" + `<mrow><mo>(</mo><mi>a</mi><mo>,</mo><mn>0</mn><mo>)</mo></mrow></mrow>`,
	} {
		n, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := mathNode(n); got != want {
			t.Errorf("%s:\n%s, want\n%s", text, got, want)
		}
	}
}

// A negative number in place of a symbol has parentheses wherever the formula asks for
// them, so that a - b with b = -2 reads a - (-2).
func TestNumbersStandForSymbolsAsTheFormulaBindsThem(t *testing.T) {
	for text, want := range map[string]string{"a - b": "1 - -2", "b^2": "(-2)^2", "a * b": "1 * -2"} {
		n, _ := formula.Parse(text)
		got := formula.Text(formula.With(n, func(symbol string) string { return map[string]string{"a": "1", "b": "-2"}[symbol] }))
		if got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}

package page

import (
	"fmt"
	"html"
	"strconv"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/export/report"
	"boxwalk/model/formula"
)

// working is a table of how a number comes about: what it is and where it comes from,
// the formula and the same with numbers, the result.
func working(w report.Working) string {
	var b strings.Builder
	b.WriteString(`<div class="scroll" tabindex="0" role="group" aria-label="` + html.EscapeString(w.Title) + `"><table class="working"` + shown(w.Of) + `><caption>` + html.EscapeString(w.Title) + `</caption><colgroup><col style="width:10%"><col style="width:26%"><col style="width:51%"><col style="width:13%"></colgroup>` +
		`<thead><tr><th scope="col">Symbol</th><th scope="col">What it is, from</th><th scope="col">Formula, and with numbers</th><th scope="col">Result</th></tr></thead><tbody>`)
	numbers := map[string]string{}
	for n, l := range w.Lines {
		b.WriteString("<tr><td class=\"symbol\">" + mathOf(formula.Symbol{Name: l.Symbol}) + "</td><th scope=\"row\">" + html.EscapeString(l.Means) + fromWords(l.From) + "</th><td>" + steps(l, numbers) + "</td>")
		also := ""
		if w.Also != nil && w.Also[n] != "" {
			also = "<br><small>" + html.EscapeString(w.Also[n]) + "</small>"
		}
		fmt.Fprintf(&b, `<td class="number"><data value="%s" data-field="working %d">%s</data> %s%s</td></tr>`, exact(l.Value), n, html.EscapeString(report.Six(l.Value)), html.EscapeString(unit(l.Unit)), also)
		numbers[l.Symbol] = report.Six(l.Value)
	}
	b.WriteString("</tbody></table></div>\n")
	return b.String()
}

func fromWords(from string) string {
	if from == "" {
		return ""
	}
	return ` <small>` + html.EscapeString(from) + `</small>`
}

// steps are a line's formula and the same with the numbers of the lines before, each
// as it is printed there.
func steps(l result.Line, numbers map[string]string) string {
	if l.Formula == "" {
		return "given"
	}
	n, err := formula.Parse(l.Formula)
	if err != nil {
		return html.EscapeString(l.Formula)
	}
	out := equation(n, mathOf(formula.Symbol{Name: l.Symbol}, "=", n), l.Symbol+" = ")
	if len(formula.Symbols(n)) > 0 {
		with := formula.With(n, func(symbol string) string { return numbers[symbol] })
		out += equation(with, mathOf("=", with), "= ")
	}
	return out
}

// column is how wide a formula may be, in ems of its own letters: the formulas' column
// on paper. What is wider is set as text, which breaks where formulas do not.
const column = 29

func equation(n formula.Node, set, before string) string {
	if wide(n) <= column {
		return `<div class="eq">` + set + "</div>"
	}
	return `<div class="eq wide">` + html.EscapeString(before+formula.Text(n)) + "</div>"
}

// unit is a unit as it is printed; a pure number has none.
func unit(u string) string {
	if u == "1" {
		return ""
	}
	return u
}

// exact is a number to its last bit.
func exact(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// shown ties a table or row to the entries it is from.
func shown(of *report.Shown) string {
	if of == nil {
		return ""
	}
	return ` data-id="` + html.EscapeString(of.ID) + `" data-subjects="` + html.EscapeString(strings.Join(of.Subjects, "|")) + `"`
}

package pdf

import (
	"boxwalk/clearance/result"
	"boxwalk/export/report"
	"boxwalk/model/formula"
)

// Letters and air of tables.
const (
	cellSize = 7.3
	cellAir  = 2.6
)

// content is what a cell holds: how high it is at its width, and what draws it.
type content struct {
	high float64
	draw func(x, y, wide float64)
}

// lettered is text in a cell.
func (p *paper) lettered(text, style string, wide float64, right bool, colour [3]int) content {
	rows := p.rows(text, style, cellSize, wide)
	return content{float64(len(rows)) * cellSize * lead, func(x, y, wide float64) {
		p.ink(colour)
		for _, row := range rows {
			at := x
			if right {
				at = x + wide - p.wide(row, style, cellSize)
			}
			p.letters(at, y+cellSize, row, style, cellSize)
			y += cellSize * lead
		}
		p.ink(black)
	}}
}

// under puts contents below each other.
func under(list ...content) content {
	var out content
	for _, c := range list {
		out.high += c.high
	}
	out.draw = func(x, y, wide float64) {
		for _, c := range list {
			c.draw(x, y, wide)
			y += c.high
		}
	}
	return out
}

// grid is a table being set: its columns, and the heads that stand on every page.
type grid struct {
	p       *paper
	caption string
	wides   []float64
	heads   []content
}

// begin sets the caption and the heads; more tells that the table goes on.
func (g *grid) begin(more bool) {
	p := g.p
	caption := g.caption
	if more {
		caption += " (continued)"
	}
	p.text(caption, bold, 8, left, p.across-left-right, black)
	p.y += 1
	g.row(g.heads, 232, false)
}

// row sets a row on the page there is, or with the heads on the next. A row as high as
// a page is set on a page of its own.
func (g *grid) row(cells []content, tone int, breaks bool) {
	p := g.p
	high := 0.0
	for _, c := range cells {
		high = max(high, c.high)
	}
	high += 2 * cellAir
	if breaks && p.y+high > p.down-bottom {
		p.page()
		g.begin(true)
	}
	x := left
	p.SetLineWidth(0.4)
	p.SetDrawColor(150, 150, 150)
	p.SetFillColor(tone, tone, tone)
	if tone == redTone {
		p.SetFillColor(251, 233, 233)
	}
	for i := range cells {
		p.Rect(x, p.y, g.wides[i], high, "FD")
		x += g.wides[i]
	}
	p.ink(black)
	x = left
	for i, c := range cells {
		c.draw(x+cellAir, p.y+cellAir, g.wides[i]-2*cellAir)
		x += g.wides[i]
	}
	p.y += high
}

// redTone stands for the tone of rows that must be seen.
const redTone = -1

func (p *paper) table(t report.Table) {
	if len(t.Rows) == 0 {
		return
	}
	list := make([]float64, len(t.Heads))
	for i, h := range t.Heads {
		list[i] = h.Share
	}
	g := &grid{p: p, caption: t.Caption, wides: shares(p.across-left-right, list)}
	for i, h := range t.Heads {
		g.heads = append(g.heads, p.lettered(h.Title, bold, g.wides[i]-2*cellAir, h.Number, black))
	}
	p.room(60)
	g.begin(false)
	for _, r := range t.Rows {
		style, tone := regular, 255
		if r.Tone == report.Alarm {
			style, tone = bold, redTone
		}
		var cells []content
		for i, c := range r.Cells {
			cells = append(cells, p.lettered(c.Text, style, g.wides[i]-2*cellAir, t.Heads[i].Number, black))
		}
		g.row(cells, tone, true)
	}
	p.y += 7
}

// working sets how a number comes about.
func (p *paper) working(w report.Working) {
	g := &grid{p: p, caption: w.Title, wides: shares(p.across-left-right, []float64{0.8, 2.6, 5.2, 1.4})}
	for i, title := range []string{"Symbol", "What it is, from", "Formula, and with numbers", "Result"} {
		g.heads = append(g.heads, p.lettered(title, bold, g.wides[i]-2*cellAir, i == 3, black))
	}
	p.room(80)
	g.begin(false)
	numbers := map[string]string{}
	for n, l := range w.Lines {
		g.row(p.line(g, w, n, l, numbers), 255, true)
		numbers[l.Symbol] = report.Six(l.Value)
	}
	p.y += 7
}

// line are the cells of one line of a working.
func (p *paper) line(g *grid, w report.Working, n int, l result.Line, numbers map[string]string) []content {
	value := report.Six(l.Value)
	if l.Unit != "1" {
		value += " " + l.Unit
	}
	wide := func(i int) float64 { return g.wides[i] - 2*cellAir }
	last := p.lettered(value, regular, wide(3), true, black)
	if w.Also != nil && w.Also[n] != "" {
		last = under(last, p.lettered(w.Also[n], regular, wide(3), true, grey(0.35)))
	}
	what := p.lettered(l.Means, regular, wide(1), false, black)
	if l.From != "" {
		what = under(what, p.lettered(l.From, regular, wide(1), false, grey(0.35)))
	}
	return []content{p.fitted(p.set(formula.Symbol{Name: l.Symbol}, 8.3), "", wide(0)), what, p.formulas(l, wide(2), numbers), last}
}

// formulas are a line's formula and the same with the numbers of the lines before.
func (p *paper) formulas(l result.Line, wide float64, numbers map[string]string) content {
	n, err := formula.Parse(l.Formula)
	if err != nil {
		return p.lettered("given", regular, wide, false, grey(0.35))
	}
	sign := p.word(" = ", regular, 8.3)
	out := p.fitted(row(p.set(formula.Symbol{Name: l.Symbol}, 8.3), sign, p.set(n, 8.3)), l.Symbol+" = "+formula.Text(n), wide)
	if len(formula.Symbols(n)) == 0 {
		return out
	}
	with := formula.With(n, func(symbol string) string { return numbers[symbol] })
	return under(out, p.fitted(row(sign, p.set(with, 8.3)), "= "+formula.Text(with), wide))
}

// fitted is a box in a cell; one that is wider is set as text, which breaks.
func (p *paper) fitted(b box, text string, wide float64) content {
	if b.wide > wide && text != "" {
		return p.lettered(text, regular, wide, false, black)
	}
	const air = 1.5
	return content{b.up + b.down + 2*air, func(x, y, _ float64) { b.draw(x, y+air+b.up) }}
}

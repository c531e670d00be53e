package pdf

import (
	"strings"

	"github.com/go-pdf/fpdf"

	"boxwalk/export/report"
)

func sizeOf(wide, high float64) fpdf.SizeType { return fpdf.SizeType{Wd: wide, Ht: high} }

// block sets one block of a report.
func (p *paper) block(b report.Block) {
	all := p.across - left - right
	switch b := b.(type) {
	case report.Heading:
		p.room(90)
		p.y += 8
		p.heading(b.Text, b.ID, 10.5, 1, colourOf(b.Tone))
	case report.Paragraph:
		style, size := regular, body
		switch b.Tone {
		case report.Strong, report.Alarm:
			style = bold
		case report.Note, report.Source:
			size = 7.5
		}
		p.text(b.Text, style, size, left, all, colourOf(b.Tone))
		p.y += 3
	case report.Bullets:
		for _, item := range b.Items {
			p.room(2 * body * lead)
			p.letters(left+4, p.y+body, "•", regular, body)
			p.text(item, regular, body, left+14, all-14, black)
			p.y += 1.5
		}
		p.y += 3
	case report.Facts:
		for _, r := range b.Rows {
			p.room(body * lead)
			p.letters(left, p.y+body, r[0], bold, body)
			p.text(r[1], regular, body, left+80, all-80, black)
		}
		p.y += 4
	case report.Table:
		p.table(b)
	case report.Working:
		p.working(b)
	case report.Figure:
		p.plot(b)
	case report.SignOff:
		p.signOff(b)
	}
}

func colourOf(t report.Tone) [3]int {
	switch t {
	case report.Alarm:
		return alarm
	case report.Note, report.Source:
		return grey(0.3)
	}
	return black
}

// plot sets a diagram with what it says and tells below.
func (p *paper) plot(f report.Figure) {
	d, all := f.Drawing, p.across-left-right
	p.room(p.figureHigh(f))
	p.figure(d, left, p.y, all/d.Width)
	p.y += all/d.Width*d.Height + 4
	p.text(caption(f), regular, 7.5, left, all, black)
	for _, t := range d.Told {
		p.text(t, regular, 7.5, left+10, all-10, black)
	}
	p.y += 8
}

// caption is what stands below a diagram.
func caption(f report.Figure) string {
	title := f.Drawing.Title
	n := min(1, len(title))
	return strings.ToUpper(title[:n]) + title[n:] + ". " + f.Drawing.Says
}

// figureHigh is how high a diagram is with what stands below, a page at most.
func (p *paper) figureHigh(f report.Figure) float64 {
	d, all := f.Drawing, p.across-left-right
	rows := len(p.rows(caption(f), regular, 7.5, all)) + len(d.Told)
	return min(all/d.Width*d.Height+float64(rows)*7.5*lead, p.down-top-bottom)
}

// signOff sets boxes for name, date and signature.
func (p *paper) signOff(s report.SignOff) {
	const high = 34
	p.room(high*float64(len(s.Roles)) + 20)
	wides := shares(p.across-left-right, []float64{1.2, 2, 1.2, 2.4})
	p.SetLineWidth(0.5)
	x := left
	for i, title := range []string{"Role", "Name", "Date", "Signature"} {
		p.SetFillColor(232, 232, 232)
		p.Rect(x, p.y, wides[i], 14, "FD")
		p.letters(x+3, p.y+10, title, bold, 8)
		x += wides[i]
	}
	p.y += 14
	for _, role := range s.Roles {
		x = left
		for i := range wides {
			p.Rect(x, p.y, wides[i], high, "D")
			x += wides[i]
		}
		p.letters(left+3, p.y+12, role, bold, 9)
		p.y += high
	}
	p.y += 8
}

// shares are widths in proportion.
func shares(all float64, list []float64) []float64 {
	sum := 0.0
	for _, s := range list {
		sum += s
	}
	out := make([]float64, len(list))
	for i, s := range list {
		out[i] = all * s / sum
	}
	return out
}

package pdf

import (
	"fmt"
	"io"
	"strings"

	"boxwalk/export/report"
)

// Paper and letters of a report, in points.
const (
	a4Wide, a4High         = 595.28, 841.89
	letterWide, letterHigh = 612.0, 792.0

	left, right = 45.0, 45.0
	top, bottom = 58.0, 55.0

	body = 8.5 // letters
	lead = 1.35
)

// Report writes a report. It is set twice: the contents name pages, which are known
// when it has been set once.
func Report(w io.Writer, r report.Document) error {
	first := &paper{report: r, at: map[string]int{}}
	first.run()
	second := &paper{report: r, at: first.at, pages: first.PageCount()}
	second.run()
	return second.write(w)
}

// paper is a report being set.
type paper struct {
	document
	report       report.Document
	across, down float64        // its size
	y            float64        // where the next block begins
	at           map[string]int // the page of each heading, as found when set before
	pages        int            // in all; 0 while that is being found
	links        map[string]int
}

func (p *paper) run() {
	r := p.report
	p.across, p.down = a4Wide, a4High
	if r.Letter {
		p.across, p.down = letterWide, letterHigh
	}
	p.document = newDocument(strings.TrimSpace(r.Title+": "+r.Job), strings.SplitN(r.Origin, ",", 2)[0])
	p.links = map[string]int{}
	p.page()
	p.titles()
	for _, b := range r.Front {
		p.block(b)
	}
	p.contents()
	for n, c := range r.Parts {
		p.room(70)
		p.y += 10
		p.heading(fmt.Sprintf("%d  %s", n+1, c.Title), c.ID, 13, 0, black)
		p.SetLineWidth(1)
		p.Line(left, p.y-4, p.across-right, p.y-4)
		p.y += 4
		for i, b := range c.Blocks {
			if f, is := after(c.Blocks, i).(report.Figure); is {
				p.room(50 + p.figureHigh(f)) // a heading stays with its diagram
			}
			p.block(b)
		}
	}
}

// after is the block after a heading; nil after any other.
func after(list []report.Block, i int) report.Block {
	if _, is := list[i].(report.Heading); is && i+1 < len(list) {
		return list[i+1]
	}
	return nil
}

// page begins a page with its running head and foot.
func (p *paper) page() {
	p.AddPageFormat("P", sizeOf(p.across, p.down))
	r := p.report
	p.ink(black)
	p.letters(left, 32, p.short(r.Job, 0.6*(p.across-left-right), 8), regular, 8)
	title := r.Title
	if r.Stamp != "" {
		title = r.Stamp + " · " + title
		p.ink(alarm)
	}
	p.letters(p.across-right-p.wide(title, regular, 8), 32, title, regular, 8)
	p.ink(grey(0.35))
	p.letters(left, p.down-30, p.short(r.Origin, p.across-left-right-70, 6.5), regular, 6.5)
	number := fmt.Sprintf("%d of %d", p.PageNo(), max(p.pages, p.PageNo()))
	p.letters(p.across-right-p.wide(number, regular, 8), p.down-30, number, regular, 8)
	p.ink(black)
	p.y = top
}

// short is a text cut to a width.
func (p *paper) short(text string, wide, size float64) string {
	if p.wide(text, regular, size) <= wide {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && p.wide(string(runes)+"…", regular, size) > wide {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

// room begins a page where less than so much is left.
func (p *paper) room(high float64) {
	if p.y+high > p.down-bottom {
		p.page()
	}
}

// titles are what the first page begins with.
func (p *paper) titles() {
	r := p.report
	p.text(r.Title, regular, 9, left, p.across-left-right, grey(0.3))
	p.text(r.Job, bold, 18, left, p.across-left-right, black)
	if r.Stamp != "" {
		wide := p.wide(r.Stamp, bold, 20)
		p.ink(alarm)
		p.SetLineWidth(2.5)
		p.Rect(left, p.y+2, wide+20, 30, "D")
		p.letters(left+10, p.y+24, r.Stamp, bold, 20)
		p.ink(black)
		p.y += 42
	}
	verdict := "Verdict: " + r.Verdict
	if r.Dated != "" {
		verdict += " · date of issue: " + r.Dated
	}
	p.text(verdict, bold, 11, left, p.across-left-right, black)
	p.y += 4
}

// text sets running text that breaks between words, and over pages between its rows.
func (p *paper) text(text, style string, size, x, wide float64, colour [3]int) {
	p.ink(colour)
	for _, row := range p.rows(text, style, size, wide) {
		p.room(size * lead)
		p.ink(colour)
		p.letters(x, p.y+size, row, style, size)
		p.y += size * lead
	}
	p.ink(black)
}

// rows are a text broken to a width.
func (p *paper) rows(text, style string, size, wide float64) []string {
	p.SetFont(family, style, size)
	text = strings.TrimSpace(printable(text))
	if text == "" {
		return nil
	}
	return p.SplitText(text, wide)
}

// heading sets a heading, with a bookmark and a place for links to go.
func (p *paper) heading(text, id string, size float64, level int, colour [3]int) {
	p.Bookmark(printable(text), level, p.y-10)
	p.SetLink(p.link(id), p.y-10, p.PageNo())
	p.at[id] = p.PageNo()
	p.text(text, bold, size, left, p.across-left-right, colour)
	p.y += 2
}

func (p *paper) link(id string) int {
	n, known := p.links[id]
	if !known {
		n = p.AddLink()
		p.links[id] = n
	}
	return n
}

// contents are the chapters and the headings in them, with their pages.
func (p *paper) contents() {
	p.room(120)
	p.y += 8
	p.heading("Contents", "contents", 13, 0, black)
	for n, c := range p.report.Parts {
		p.entry(fmt.Sprintf("%d  %s", n+1, c.Title), c.ID, 0)
		for _, b := range c.Blocks {
			if h, is := b.(report.Heading); is {
				p.entry(h.Text, h.ID, 16)
			}
		}
	}
}

// entry is a row of the contents.
func (p *paper) entry(text, id string, indent float64) {
	p.room(body * lead)
	size := body
	number := fmt.Sprint(max(1, p.at[id]))
	if p.pages == 0 {
		number = "00"
	}
	p.letters(left+indent, p.y+size, p.short(text, p.across-left-right-60, size), regular, size)
	p.letters(p.across-right-p.wide(number, regular, size), p.y+size, number, regular, size)
	p.Link(left, p.y, p.across-left-right, size*lead, p.link(id))
	p.y += size * lead
}

package page

import (
	"fmt"
	"html"
	"io"
	"strings"

	_ "embed"

	"boxwalk/export/report"
)

//go:embed report.css
var style string

// Report writes a report as one file: no script, no picture and no font from anywhere;
// its own policy forbids them, so that a hostile name in a job stays a name.
func Report(w io.Writer, d report.Document) error {
	p := &page{}
	p.head(d)
	for _, b := range d.Front {
		p.block(b)
	}
	p.contents(d)
	p.text("</header>\n")
	for _, c := range d.Parts {
		p.text(`<section aria-labelledby="` + c.ID + `"><h2 id="` + c.ID + `">` + html.EscapeString(c.Title) + "</h2>\n")
		for _, b := range c.Blocks {
			p.block(b)
		}
		p.text("</section>\n")
	}
	p.text("</main>\n<footer><p>" + html.EscapeString(d.Origin) + "</p></footer>\n</body>\n</html>\n")
	_, err := io.WriteString(w, p.out.String())
	return err
}

type page struct {
	out     strings.Builder
	figures int
}

func (p *page) text(s string) { p.out.WriteString(s) }

// paper is the size of the sheet that a browser prints on.
func paper(d report.Document) string {
	if d.Letter {
		return "letter"
	}
	return "A4"
}

// head begins the page. Running heads are told in style, by margin boxes: what stands in
// them is quoted as CSS strings are.
func (p *page) head(d report.Document) {
	name := strings.TrimSpace(d.Title + ": " + d.Job)
	stamp := ""
	if d.Stamp != "" {
		stamp = d.Stamp + " · "
	}
	running := fmt.Sprintf("@page{size:%s;@top-left{content:%s}@top-right{content:%s}@bottom-left{content:%s}}", paper(d), cssText(d.Job), cssText(stamp+d.Title), cssText(d.Origin))
	p.text("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n" +
		`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">` + "\n" +
		`<meta name="viewport" content="width=device-width, initial-scale=1">` + "\n" +
		`<meta name="referrer" content="no-referrer">` + "\n" +
		"<title>" + html.EscapeString(name) + "</title>\n<style>" + style + running + "</style>\n</head>\n<body>\n" +
		`<a class="skip" href="#checks">Skip to the checks</a>` + "\n<main>\n<header>\n<p class=\"kind\">" + html.EscapeString(d.Title) + "</p>\n<h1>" + html.EscapeString(d.Job) + "</h1>\n")
	if d.Stamp != "" {
		p.text(`<p class="stamp"><strong>` + html.EscapeString(d.Stamp) + "</strong></p>\n")
	}
	p.text(`<p class="verdict">Verdict: <strong>` + html.EscapeString(d.Verdict) + "</strong>")
	if d.Dated != "" {
		p.text(" · date of issue: " + html.EscapeString(d.Dated))
	}
	p.text("</p>\n")
}

// cssText is a text as a string of a style sheet: whatever is not a plain letter is its
// number, so that nothing in it ends the string or the sheet.
func cssText(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == ' ', r == '.', r == ',', r == ':', r == '-':
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, "\\%06x", r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// contents are links to the chapters and to each check.
func (p *page) contents(d report.Document) {
	p.text("<nav aria-label=\"Contents\"><h2>Contents</h2><ol>\n")
	for _, c := range d.Parts {
		p.text(`<li><a href="#` + c.ID + `">` + html.EscapeString(c.Title) + "</a>")
		var below []string
		for _, b := range c.Blocks {
			if h, is := b.(report.Heading); is {
				below = append(below, `<li><a href="#`+h.ID+`">`+html.EscapeString(h.Text)+"</a></li>")
			}
		}
		if len(below) > 0 {
			p.text("<ul>" + strings.Join(below, "") + "</ul>")
		}
		p.text("</li>\n")
	}
	p.text("</ol></nav>\n")
}

func (p *page) block(b report.Block) {
	switch b := b.(type) {
	case report.Heading:
		p.text(`<h3 id="` + b.ID + `"` + class(b.Tone) + ">" + html.EscapeString(b.Text) + "</h3>\n")
	case report.Paragraph:
		p.text("<p" + class(b.Tone) + ">" + html.EscapeString(b.Text) + "</p>\n")
	case report.Bullets:
		p.text("<ul>")
		for _, item := range b.Items {
			p.text("<li>" + html.EscapeString(item) + "</li>")
		}
		p.text("</ul>\n")
	case report.Facts:
		p.text("<dl>")
		for _, r := range b.Rows {
			p.text("<dt>" + html.EscapeString(r[0]) + "</dt><dd>" + html.EscapeString(r[1]) + "</dd>")
		}
		p.text("</dl>\n")
	case report.Table:
		p.table(b)
	case report.Working:
		p.text(working(b))
	case report.Figure:
		p.figures++
		p.text(figure(b.Drawing, p.figures))
	case report.SignOff:
		p.signOff(b)
	}
}

// class is the style of a tone.
func class(t report.Tone) string {
	return [...]string{"", ` class="note"`, ` class="note words"`, ` class="strong"`, ` class="alarm"`}[t]
}

func (p *page) table(t report.Table) {
	p.text(`<div class="scroll" tabindex="0" role="group" aria-label="` + html.EscapeString(t.Caption) + `"><table` + map[bool]string{true: ` class="words"`}[t.Fixed] + `><caption>` + html.EscapeString(t.Caption) + "</caption>" + columns(t.Heads) + "<thead><tr>")
	for _, h := range t.Heads {
		p.text(`<th scope="col"` + number(h.Number) + ">" + html.EscapeString(h.Title) + "</th>")
	}
	p.text("</tr></thead><tbody>\n")
	for _, r := range t.Rows {
		p.text("<tr" + class(r.Tone) + shown(r.Of) + ">")
		for i, c := range r.Cells {
			p.cell(i == 0, t.Heads[i].Number, c)
		}
		p.text("</tr>\n")
	}
	p.text("</tbody></table></div>\n")
}

// columns are as wide as their shares, so that no word breaks where there is room.
func columns(heads []report.Head) string {
	all := 0.0
	for _, h := range heads {
		all += h.Share
	}
	if all == 0 {
		return ""
	}
	out := "<colgroup>"
	for _, h := range heads {
		out += fmt.Sprintf(`<col style="width:%.1f%%">`, 100*h.Share/all)
	}
	return out + "</colgroup>"
}

func number(is bool) string {
	if is {
		return ` class="number"`
	}
	return ""
}

// cell is one of a row; the first names it.
func (p *page) cell(first, numeric bool, c report.Cell) {
	text := html.EscapeString(c.Text)
	if c.Field != "" {
		text = `<data value="` + exact(c.Exact) + `" data-field="` + c.Field + `">` + text + "</data>"
	}
	if first {
		p.text(`<th scope="row">` + text + "</th>")
		return
	}
	p.text("<td" + number(numeric) + ">" + text + "</td>")
}

// signOff are boxes to write in by hand.
func (p *page) signOff(s report.SignOff) {
	p.text(`<table class="sign"><caption>Signatures</caption><thead><tr><th scope="col">Role</th><th scope="col">Name</th><th scope="col">Date</th><th scope="col">Signature</th></tr></thead><tbody>`)
	for _, role := range s.Roles {
		p.text(`<tr><th scope="row">` + html.EscapeString(role) + "</th><td></td><td></td><td></td></tr>")
	}
	p.text("</tbody></table>\n")
}

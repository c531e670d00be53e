package page

import (
	"fmt"
	"html"
	"strings"

	"boxwalk/export/plot"
)

// alarm is the colour of what must be seen; it is dark enough to be read on white.
const alarm = "#a00000"

// figure is a drawing as SVG within the page; n tells its ids apart.
func figure(d plot.Drawing, n int) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<figure><svg viewBox="0 0 %s %s" role="img" aria-labelledby="plot-%d-title plot-%d-says">`, short(d.Width), short(d.Height), n, n)
	fmt.Fprintf(&b, `<title id="plot-%d-title">%s</title><desc id="plot-%d-says">%s</desc>`, n, html.EscapeString(d.Title), n, html.EscapeString(d.Says))
	for _, item := range d.Items {
		b.WriteString(svgItem(item))
	}
	b.WriteString("</svg><figcaption><strong>" + html.EscapeString(upperFirst(d.Title)) + ".</strong> " + html.EscapeString(d.Says))
	if len(d.Told) > 0 {
		b.WriteString(`<ol class="told">`)
		for _, t := range d.Told {
			_, text, _ := strings.Cut(t, ": ")
			b.WriteString("<li>" + html.EscapeString(text) + "</li>")
		}
		b.WriteString("</ol>")
	}
	b.WriteString("</figcaption></figure>\n")
	return b.String()
}

// upperFirst begins a text with a capital.
func upperFirst(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

func svgItem(item plot.Item) string {
	switch i := item.(type) {
	case plot.Stroke:
		return `<polyline points="` + points(i.Points) + `" ` + pen(i.Pen) + `/>`
	case plot.Area:
		return `<polygon points="` + points(i.Points) + `" fill="` + grey(i.Grey) + `"/>`
	case plot.Ring:
		return fmt.Sprintf(`<circle cx="%s" cy="%s" r="%s" %s/>`, short(i.At[0]), short(i.At[1]), short(i.Radius), pen(i.Pen))
	case plot.Letters:
		return letters(i)
	}
	return ""
}

func letters(l plot.Letters) string {
	colour, turned := "#000", ""
	if l.Alarm {
		colour = alarm
	}
	if l.Up {
		turned = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, short(l.At[0]), short(l.At[1]))
	}
	return fmt.Sprintf(`<text x="%s" y="%s" font-size="%s" text-anchor="%s" fill="%s"%s>%s</text>`, short(l.At[0]), short(l.At[1]), short(l.Size),
		[...]string{"start", "middle", "end"}[l.Anchor], colour, turned, html.EscapeString(l.Text))
}

func points(list []plot.Point) string {
	out := make([]string, len(list))
	for i, p := range list {
		out[i] = short(p[0]) + "," + short(p[1])
	}
	return strings.Join(out, " ")
}

func pen(p plot.Pen) string {
	colour := grey(p.Grey)
	if p.Alarm {
		colour = alarm
	}
	out := fmt.Sprintf(`fill="none" stroke="%s" stroke-width="%s"`, colour, short(p.Width))
	if len(p.Dash) > 0 {
		dash := make([]string, len(p.Dash))
		for i, v := range p.Dash {
			dash[i] = short(v)
		}
		out += ` stroke-dasharray="` + strings.Join(dash, " ") + `"`
	}
	return out
}

func grey(v float64) string {
	n := int(255*v + 0.5)
	return fmt.Sprintf("#%02x%02x%02x", n, n, n)
}

// short is a length on paper to a hundredth of a point.
func short(v float64) string {
	text := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", v), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

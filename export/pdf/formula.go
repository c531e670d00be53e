package pdf

import (
	"strings"

	"boxwalk/model/formula"
)

// box is a piece of a formula set at a size: how wide it is, how far it reaches above
// and below its base line, and what draws it with its left end on the base line.
type box struct {
	wide, up, down float64
	draw           func(x, y float64)
}

// word is letters of one style.
func (d document) word(text, style string, size float64) box {
	return box{d.wide(text, style, size), 0.74 * size, 0.22 * size, func(x, y float64) { d.letters(x, y, text, style, size) }}
}

// row puts boxes beside each other.
func row(list ...box) box {
	var out box
	for _, b := range list {
		out.wide, out.up, out.down = out.wide+b.wide, max(out.up, b.up), max(out.down, b.down)
	}
	out.draw = func(x, y float64) {
		for _, b := range list {
			b.draw(x, y)
			x += b.wide
		}
	}
	return out
}

// space is nothing of a width.
func space(wide float64) box { return box{wide: wide, draw: func(float64, float64) {}} }

// raised is a box moved up.
func raised(b box, by float64) box {
	return box{b.wide, b.up + by, b.down - by, func(x, y float64) { b.draw(x, y-by) }}
}

// set typesets a formula at a size.
func (d document) set(n formula.Node, size float64) box {
	switch n := n.(type) {
	case formula.Number:
		return d.setNumber(n.Text, size)
	case formula.Symbol:
		return d.setSymbol(n.Name, size)
	case formula.Minus:
		return row(d.word("−", regular, size), d.bound(n.Of, formula.Binding(n), size))
	case formula.Binary:
		return d.setBinary(n, size)
	case formula.Call:
		return d.setCall(n, size)
	}
	return space(0)
}

func (d document) setNumber(text string, size float64) box {
	digits, power, scaled := strings.Cut(strings.ToLower(text), "e")
	out := d.word(digits, regular, size)
	if !scaled {
		return out
	}
	sign := ""
	if rest, negative := strings.CutPrefix(power, "-"); negative {
		sign, power = "−", rest
	}
	return row(out, d.word("×10", regular, size), raised(d.word(sign+strings.TrimLeft(strings.TrimPrefix(power, "+"), "0"), regular, 0.7*size), 0.4*size))
}

func (d document) setSymbol(name string, size float64) box {
	base, below := formula.Shown(name)
	out := d.word(base, italic, size)
	if below == "" {
		return out
	}
	return row(out, space(0.05*size), raised(d.word(below, regular, 0.7*size), -0.2*size))
}

// bound is a part in parentheses where it holds less tight than asked for.
func (d document) bound(n formula.Node, tight int, size float64) box {
	b, binary := n.(formula.Binary)
	if formula.Binding(n) >= tight || binary && b.Op == '/' && tight < 4 {
		return d.set(n, size)
	}
	return d.around("(", d.set(n, size), ")", size)
}

// around puts parentheses or bars around a box, as high as it is.
func (d document) around(left string, inner box, right string, size float64) box {
	high := max(size, (inner.up+inner.down)*0.98)
	mark := func(text string) box {
		b := d.word(text, regular, high)
		b.wide = d.wide(text, regular, min(high, 1.3*size))
		middle := (inner.up - inner.down) / 2
		return box{b.wide, inner.up, inner.down, func(x, y float64) {
			// of a high mark the letter is as wide as of a lower one
			times := b.wide / d.wide(text, regular, high)
			d.TransformBegin() // after the font is set: what is set within ends with it
			d.TransformScaleX(100*times, x, y)
			d.letters(x, y-middle+0.27*high, text, regular, high)
			d.TransformEnd()
		}}
	}
	return row(mark(left), inner, mark(right))
}

func (d document) setBinary(b formula.Binary, size float64) box {
	tight := formula.Binding(b)
	switch b.Op {
	case '/':
		return d.fraction(d.set(b.Left, 0.92*size), d.set(b.Right, 0.92*size), size)
	case '^':
		base := d.bound(b.Left, tight+1, size)
		if c, call := b.Left.(formula.Call); call && c.Name != "sqrt" && c.Name != "abs" {
			base = d.around("(", d.set(b.Left, size), ")", size)
		}
		return row(base, raised(d.set(b.Right, 0.7*size), max(0.4*size, base.up-0.35*size)))
	}
	sign := map[byte]string{'+': " + ", '-': " − ", '*': " · "}[b.Op]
	if _, negative := b.Right.(formula.Minus); negative {
		tight = formula.Binding(b.Right) // two signs beside each other are none that anybody reads
	}
	return row(d.bound(b.Left, formula.Binding(b), size), d.word(sign, regular, size), d.bound(b.Right, tight+1, size))
}

// fraction is one box over another, with its rule where a minus stands.
func (d document) fraction(over, under box, size float64) box {
	wide, axis, air := max(over.wide, under.wide)+0.3*size, 0.28*size, 0.14*size
	return box{wide, axis + air + over.down + over.up, -axis + air + under.up + under.down, func(x, y float64) {
		over.draw(x+(wide-over.wide)/2, y-axis-air-over.down)
		under.draw(x+(wide-under.wide)/2, y-axis+air+under.up)
		d.SetLineWidth(0.05 * size)
		d.Line(x+0.08*size, y-axis, x+wide-0.08*size, y-axis)
	}}
}

func (d document) setCall(c formula.Call, size float64) box {
	var inner box
	for i, a := range c.Args {
		if i > 0 {
			inner = row(inner, d.word(", ", regular, size))
		}
		if inner.draw == nil {
			inner = d.set(a, size)
			continue
		}
		inner = row(inner, d.set(a, size))
	}
	switch c.Name {
	case "sqrt":
		return d.root(inner, size)
	case "abs":
		return d.around("|", inner, "|", size)
	}
	return row(d.word(c.Name, regular, size), d.around("(", inner, ")", size))
}

// root is a box below a root's sign.
func (d document) root(inner box, size float64) box {
	tick, air := 0.55*size, 0.12*size
	return box{tick + inner.wide + 0.1*size, inner.up + 2*air, inner.down, func(x, y float64) {
		d.SetLineWidth(0.05 * size)
		top, low := y-inner.up-air, y+inner.down
		d.Line(x, y-0.2*size, x+0.12*size, y-0.26*size)
		d.Line(x+0.12*size, y-0.26*size, x+0.28*size, low)
		d.Line(x+0.28*size, low, x+tick-0.05*size, top)
		d.Line(x+tick-0.05*size, top, x+tick+inner.wide+0.05*size, top)
		inner.draw(x+tick, y)
	}}
}

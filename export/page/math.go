package page

import (
	"html"
	"strings"

	"boxwalk/model/formula"
)

// mathOf sets a formula as MathML, with its text for whoever cannot see it.
func mathOf(parts ...any) string {
	var inner, alt strings.Builder
	for _, p := range parts {
		switch p := p.(type) {
		case formula.Node:
			inner.WriteString(mathNode(p))
			alt.WriteString(formula.Text(p))
		case string:
			inner.WriteString("<mo>" + html.EscapeString(p) + "</mo>")
			alt.WriteString(" " + p + " ")
		}
	}
	return `<math displaystyle="true" alttext="` + html.EscapeString(alt.String()) + `"><mrow>` + inner.String() + "</mrow></math>"
}

// signs are the operators in print.
var signs = map[byte]string{'+': "+", '-': "−", '*': "·"}

func mathNode(n formula.Node) string {
	switch n := n.(type) {
	case formula.Number:
		return mathNumber(n.Text)
	case formula.Symbol:
		return mathSymbol(n.Name)
	case formula.Minus:
		return "<mrow><mo>−</mo>" + mathBound(n.Of, formula.Binding(n)) + "</mrow>"
	case formula.Binary:
		return mathBinary(n)
	case formula.Call:
		return mathCall(n)
	}
	return ""
}

func mathNumber(text string) string {
	digits, power, scaled := strings.Cut(strings.ToLower(text), "e")
	out := "<mn>" + html.EscapeString(digits) + "</mn>"
	if !scaled {
		return out
	}
	return "<mrow>" + out + "<mo>×</mo><msup><mn>10</mn><mn>" + html.EscapeString(plainPower(power)) + "</mn></msup></mrow>"
}

// plainPower is a power of ten as people write it: -6, not -06.
func plainPower(text string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(text, "-"); negative {
		sign, text = "−", rest
	}
	return sign + strings.TrimLeft(strings.TrimPrefix(text, "+"), "0")
}

func mathSymbol(name string) string {
	base, below := formula.Shown(name)
	out := "<mi>" + html.EscapeString(base) + "</mi>"
	if below == "" {
		return out
	}
	return "<msub>" + out + "<mtext>" + html.EscapeString(below) + "</mtext></msub>"
}

// mathBound is a part in parentheses where it holds less tight than asked for. What
// stands in a fraction needs none, except as the base of a power.
func mathBound(n formula.Node, tight int) string {
	b, binary := n.(formula.Binary)
	if formula.Binding(n) >= tight || binary && b.Op == '/' && tight < 4 {
		return mathNode(n)
	}
	return "<mrow><mo>(</mo>" + mathNode(n) + "<mo>)</mo></mrow>"
}

func mathBinary(b formula.Binary) string {
	tight := formula.Binding(b)
	switch b.Op {
	case '/':
		return "<mfrac>" + "<mrow>" + mathNode(b.Left) + "</mrow><mrow>" + mathNode(b.Right) + "</mrow></mfrac>"
	case '^':
		base := mathBound(b.Left, tight+1)
		if c, call := b.Left.(formula.Call); call && c.Name != "sqrt" && c.Name != "abs" {
			base = "<mrow><mo>(</mo>" + mathNode(b.Left) + "<mo>)</mo></mrow>"
		}
		return "<msup>" + base + "<mrow>" + mathNode(b.Right) + "</mrow></msup>"
	}
	if _, negative := b.Right.(formula.Minus); negative {
		tight = formula.Binding(b.Right) // two signs beside each other are none that anybody reads
	}
	return "<mrow>" + mathBound(b.Left, formula.Binding(b)) + "<mo>" + signs[b.Op] + "</mo>" + mathBound(b.Right, tight+1) + "</mrow>"
}

func mathCall(c formula.Call) string {
	var args []string
	for _, a := range c.Args {
		args = append(args, mathNode(a))
	}
	inner := strings.Join(args, "<mo>,</mo>")
	switch c.Name {
	case "sqrt":
		return "<msqrt><mrow>" + inner + "</mrow></msqrt>"
	case "abs":
		return "<mrow><mo>|</mo>" + inner + "<mo>|</mo></mrow>"
	}
	return "<mrow><mi>" + c.Name + "</mi><mo>\u2061</mo><mrow><mo>(</mo>" + inner + "<mo>)</mo></mrow></mrow>"
}

// wide is about how wide a formula is in print, in ems.
func wide(n formula.Node) float64 {
	switch n := n.(type) {
	case formula.Number:
		return 0.55 * float64(len(n.Text))
	case formula.Symbol:
		base, below := formula.Shown(n.Name)
		return 0.6*float64(len([]rune(base))) + 0.4*float64(len([]rune(below)))
	case formula.Minus:
		return 0.8 + wide(n.Of)
	case formula.Binary:
		switch n.Op {
		case '/':
			return max(wide(n.Left), wide(n.Right)) + 0.2
		case '^':
			return wide(n.Left) + 0.7*wide(n.Right) + 0.8
		}
		return wide(n.Left) + wide(n.Right) + 1.3 + parenthesised(n.Left, formula.Binding(n)) + parenthesised(n.Right, formula.Binding(n)+1)
	case formula.Call:
		out := 0.5*float64(len(n.Name)) + 1
		for _, a := range n.Args {
			out += wide(a) + 0.5
		}
		return out
	}
	return 0
}

// parenthesised is what parentheses take, where there are any.
func parenthesised(n formula.Node, tight int) float64 {
	if formula.Binding(n) < tight {
		return 0.9
	}
	return 0
}

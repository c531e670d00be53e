package formula

import "strings"

// Text writes a formula with no more parentheses than it takes; read again it is the
// same.
func Text(n Node) string {
	switch n := n.(type) {
	case Number:
		return n.Text
	case Symbol:
		return n.Name
	case Minus:
		return "-" + bound(n.Of, Binding(n))
	case Binary:
		return n.text()
	case Call:
		args := make([]string, len(n.Args))
		for i, a := range n.Args {
			args[i] = Text(a)
		}
		return n.Name + "(" + strings.Join(args, ", ") + ")"
	}
	return ""
}

func (b Binary) text() string {
	tight := Binding(b)
	if b.Op == '^' {
		return bound(b.Left, tight+1) + "^" + bound(b.Right, Binding(Minus{}))
	}
	return bound(b.Left, tight) + " " + string(b.Op) + " " + bound(b.Right, tight+1)
}

// Binding is how tight a part holds together: a sum 1, a product 2, a negative 3, a
// power 4, all else 5.
func Binding(n Node) int {
	switch n := n.(type) {
	case Binary:
		return map[byte]int{'+': 1, '-': 1, '*': 2, '/': 2, '^': 4}[n.Op]
	case Minus:
		return 3
	}
	return 5
}

// bound is a part in parentheses where it holds less tight than asked for.
func bound(n Node, tight int) string {
	if Binding(n) < tight {
		return "(" + Text(n) + ")"
	}
	return Text(n)
}

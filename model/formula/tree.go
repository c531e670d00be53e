package formula

// Node is a part of a formula: Number, Symbol, Minus, Binary or Call.
type Node interface{ node() }

// Number is a number as it is written.
type Number struct {
	Text  string
	Value float64
}

// Symbol stands for a value.
type Symbol struct {
	Name string
	At   int // place in the text, bytes
}

// Minus is the negative of what stands behind it.
type Minus struct{ Of Node }

// Binary is two parts with one of + - * / ^ between them.
type Binary struct {
	Op          byte
	Left, Right Node
}

// Call is a function of one value, or min or max of two and more.
type Call struct {
	Name string
	Args []Node
}

func (Number) node() {}
func (Symbol) node() {}
func (Minus) node()  {}
func (Binary) node() {}
func (Call) node()   {}

// Pi is the name of the one constant that every formula knows.
const Pi = "pi"

// Symbols are the names that a formula asks for, each once, in the order in which
// they first stand; pi is not asked for.
func Symbols(n Node) []string {
	var out []string
	seen := map[string]bool{Pi: true}
	walk(n, func(n Node) {
		if s, is := n.(Symbol); is && !seen[s.Name] {
			seen[s.Name] = true
			out = append(out, s.Name)
		}
	})
	return out
}

// walk visits a formula's parts from the left.
func walk(n Node, visit func(Node)) {
	visit(n)
	switch n := n.(type) {
	case Minus:
		walk(n.Of, visit)
	case Binary:
		walk(n.Left, visit)
		walk(n.Right, visit)
	case Call:
		for _, a := range n.Args {
			walk(a, visit)
		}
	}
}

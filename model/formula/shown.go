package formula

import "strings"

// greek are names of symbols that are set in print as one letter.
var greek = map[string]string{
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "Delta": "Δ", "epsilon": "ε", "eta": "η", "theta": "θ",
	"kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν", "pi": "π", "rho": "ρ", "sigma": "σ", "tau": "τ", "phi": "φ", "omega": "ω",
}

// Shown is how a symbol is set in print: what stands on the base line and what below it.
// C_w is C with w below, gamma is its letter, Delta_h_max is Δ with h max below.
func Shown(name string) (base, below string) {
	base, below, _ = strings.Cut(name, "_")
	if letter, is := greek[base]; is {
		base = letter
	}
	if letter, is := greek[below]; is {
		below = letter
	}
	return base, strings.ReplaceAll(below, "_", " ")
}

// With is a formula with numbers in place of its symbols, as texts give them; a
// negative number is set in parentheses where the formula binds tighter.
func With(n Node, text func(symbol string) string) Node {
	switch n := n.(type) {
	case Symbol:
		if n.Name == Pi {
			return n
		}
		if positive, negative := strings.CutPrefix(text(n.Name), "-"); negative {
			return Minus{Number{Text: positive}}
		}
		return Number{Text: text(n.Name)}
	case Minus:
		return Minus{With(n.Of, text)}
	case Binary:
		return Binary{n.Op, With(n.Left, text), With(n.Right, text)}
	case Call:
		out := Call{Name: n.Name}
		for _, a := range n.Args {
			out.Args = append(out.Args, With(a, text))
		}
		return out
	}
	return n
}

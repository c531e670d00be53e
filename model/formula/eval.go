package formula

import (
	"fmt"
	"math"
	"slices"
)

// function is one that formulas know; many is of two values or more.
type function struct {
	many bool
	of   func(v []float64) float64
}

var functions = map[string]function{
	"sqrt": single(math.Sqrt),
	"sin":  single(math.Sin),
	"cos":  single(math.Cos),
	"tan":  single(math.Tan),
	"exp":  single(math.Exp),
	"ln":   single(math.Log),
	"abs":  single(math.Abs),
	"min":  {true, slices.Min[[]float64]},
	"max":  {true, slices.Max[[]float64]},
}

func single(f func(float64) float64) function {
	return function{of: func(v []float64) float64 { return f(v[0]) }}
}

// Eval is the value of a formula with those of its symbols. An error is a symbol
// without a value, or a part that has none: a division by zero, a root of what is
// negative, whatever is infinite or not a number.
func Eval(n Node, of map[string]float64) (float64, error) {
	v, err := eval(n, of)
	if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		return 0, fmt.Errorf("%s has no value", Text(n))
	}
	return v, err
}

func eval(n Node, of map[string]float64) (float64, error) {
	switch n := n.(type) {
	case Number:
		return n.Value, nil
	case Symbol:
		return valueOf(n, of)
	case Minus:
		v, err := Eval(n.Of, of)
		return -v, err
	case Binary:
		return n.eval(of)
	case Call:
		return n.eval(of)
	}
	return 0, fmt.Errorf("no formula")
}

func valueOf(s Symbol, of map[string]float64) (float64, error) {
	if s.Name == Pi {
		return math.Pi, nil
	}
	v, known := of[s.Name]
	if !known {
		return 0, &Error{s.At, s.Name + " is not known"}
	}
	return v, nil
}

func (b Binary) eval(of map[string]float64) (float64, error) {
	l, err := Eval(b.Left, of)
	if err != nil {
		return 0, err
	}
	r, err := Eval(b.Right, of)
	if err != nil {
		return 0, err
	}
	switch b.Op {
	case '+':
		return l + r, nil
	case '-':
		return l - r, nil
	case '*':
		return l * r, nil
	case '/':
		return l / r, nil
	case '^':
		return math.Pow(l, r), nil
	}
	return 0, fmt.Errorf("no operator %q", b.Op)
}

func (c Call) eval(of map[string]float64) (float64, error) {
	f, known := functions[c.Name]
	if !known {
		return 0, fmt.Errorf("there is no function %q", c.Name)
	}
	v := make([]float64, len(c.Args))
	for i, a := range c.Args {
		var err error
		if v[i], err = Eval(a, of); err != nil {
			return 0, err
		}
	}
	return f.of(v), nil
}

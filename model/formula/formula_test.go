package formula

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var values = map[string]float64{"a": 2, "b": 3, "c": 5, "C_w": 1.2, "p_max": 40}

// Each by hand.
func TestAFormulaIsWorkedOutAsInPrint(t *testing.T) {
	for text, want := range map[string]float64{
		"1 + 2 * 3":            7,
		"a - b - c":            -6,
		"c / a / b":            5.0 / 6,
		"c / (a * b)":          5.0 / 6,
		"a ^ b ^ a":            512,
		"(a^b)^a":              64,
		"-a^2":                 -4,
		"(-a)^2":               4,
		"--a":                  2,
		"a^-1":                 0.5,
		"a * -b":               -6,
		"C_w * p_max":          48,
		"min(a, b, c)":         2,
		"max(a, b) * 2":        6,
		"sqrt(a*a + 5)":        3,
		"exp(ln(c))":           5,
		"abs(a - c)":           3,
		"sin(pi/2) + cos(0)":   2,
		"4 * tan(pi/4)":        4,
		"1.5e-3 * 2E3":         3,
		" .5 * ( a + ( b ) ) ": 2.5,
	} {
		n, err := Parse(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if v, err := Eval(n, values); err != nil || math.Abs(v-want) > 1e-12 {
			t.Errorf("%s = %v (%v), want %v", text, v, err, want)
		}
	}
}

func TestWhatIsWrongWithAFormulaIsToldWithItsPlace(t *testing.T) {
	for text, want := range map[string]string{
		"":           "at 1: expected a number, a symbol or (, found the end",
		"a +":        "at 4: expected a number, a symbol or (, found the end",
		"a b":        "at 3: expected an operator, found \"b\"",
		"2a":         "at 2: expected an operator, found \"a\"",
		"(a":         "at 3: expected ), found the end",
		"a)":         "at 2: expected an operator, found \")\"",
		"sqrt":       "at 1: sqrt is a function: what of?",
		"1 + sqrt 2": "at 5: sqrt is a function: what of?",
		"f(a)":       "at 1: there is no function \"f\"",
		"sqrt(a, b)": "at 1: sqrt is of one value",
		"max(a)":     "at 1: max is of two values or more",
		"1.2.3":      "at 1: \"1.2.3\" is no number",
		"1e999":      "at 1: \"1e999\" is no number",
		"a \xff":     "at 3: expected an operator, found \"\\xff\"",
		strings.Repeat("(", 80) + "a" + strings.Repeat(")", 80): "at 52: too many parts in one another",
		strings.Repeat("-", 80) + "a":                           "at 52: too many parts in one another",
		strings.Repeat("a+", 80) + "a":                          "at 104: too many parts in one another",
		strings.Repeat("a^", 80) + "a":                          "at 103: too many parts in one another",
		strings.Repeat(" ", 2000):                               "at 1001: a formula has at most 1000 characters",
	} {
		if _, err := Parse(text); err == nil || err.Error() != want {
			t.Errorf("%.40q: %v, want %s", text, err, want)
		}
	}
}

func TestWhatHasNoValueIsAnError(t *testing.T) {
	for _, text := range []string{"a / 0", "sqrt(-1)", "ln(0)", "min(1/0, 3)", "0 * (1/0)", "unknown", "a + x * 0", "10^400", "1/10^400", "(-8)^(1/3)"} {
		n, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if v, err := Eval(n, values); err == nil {
			t.Errorf("%s = %v", text, v)
		}
	}
	if v, err := Eval(Symbol{"a", 0}, map[string]float64{"a": math.NaN()}); err == nil {
		t.Errorf("a value that is not a number gave %v", v)
	}
}

func TestSymbolsAreNamedOnceInTheirOrder(t *testing.T) {
	n, err := Parse("b * max(a, -C_w) + pi * b ^ p_max")
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(Symbols(n), " "); got != "b a C_w p_max" {
		t.Error(got)
	}
}

// drawn is any formula, as deep as asked for.
func drawn(t *rapid.T, depth int) Node {
	kinds := 2
	if depth > 0 {
		kinds = 5
	}
	switch rapid.IntRange(0, kinds-1).Draw(t, "kind") {
	case 0:
		return Number{"1.25", 1.25}
	case 1:
		return Symbol{rapid.SampledFrom([]string{"a", "b", "C_w", "p_max"}).Draw(t, "name"), 0}
	case 2:
		return Minus{drawn(t, depth-1)}
	case 3:
		return Binary{rapid.SampledFrom([]byte("+-*/^")).Draw(t, "op"), drawn(t, depth-1), drawn(t, depth-1)}
	}
	return Call{rapid.SampledFrom([]string{"min", "max"}).Draw(t, "function"), []Node{drawn(t, depth-1), drawn(t, depth-1)}}
}

func TestAFormulaReadAgainFromItsTextIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawn(t, 5)
		again, err := Parse(Text(n))
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(placeless(again), n) {
			t.Fatalf("%s was read as %s", Text(n), Text(again))
		}
	})
}

// placeless is a formula without the places of its symbols.
func placeless(n Node) Node {
	switch n := n.(type) {
	case Symbol:
		return Symbol{n.Name, 0}
	case Minus:
		return Minus{placeless(n.Of)}
	case Binary:
		return Binary{n.Op, placeless(n.Left), placeless(n.Right)}
	case Call:
		args := make([]Node, len(n.Args))
		for i, a := range n.Args {
			args[i] = placeless(a)
		}
		return Call{n.Name, args}
	}
	return n
}

// Whatever is read ends, and what was understood reads the same again.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"a + b", "-a^-2", "max(1, C_w*p_max, (2))", "1e", ".", "((", "sqrt(", "a^b^c", "1.5e-3"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, err := Parse(text)
		if err != nil {
			if e, is := err.(*Error); !is || e.At < 0 || e.At > len(text) {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		again, err := Parse(Text(n))
		if err != nil || !reflect.DeepEqual(placeless(again), placeless(n)) {
			t.Fatalf("%q was understood as %q, which is read as %v (%v)", text, Text(n), again, err)
		}
		of := map[string]float64{}
		for _, s := range Symbols(n) {
			of[s] = 1.5
		}
		if v, err := Eval(n, of); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Fatalf("%q = %v", text, v)
		}
	})
}

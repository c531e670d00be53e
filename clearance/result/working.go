package result

import (
	"fmt"
	"math"

	"boxwalk/model/formula"
)

// Line is one line of a working: a number that went in, or a step with the formula
// that gives it from the lines before. The number is in the unit named, and formulas
// hold no factor between units: with the values of its lines a formula gives the
// line's value to nine digits. Angles are in rad.
type Line struct {
	Symbol  string  `json:"symbol"` // C_w, p_max: letters, digits, _
	Means   string  `json:"means"`
	Formula string  `json:"formula"` // in the language of model/formula; empty for what went in
	Value   float64 `json:"value"`
	Unit    string  `json:"unit"` // kN, m, kPa, kNm, 1 ...
	From    string  `json:"from"` // key and whose number it is, table, source of the formula, or how it was solved
}

// Working is how the value of an entry is worked out, line by line; the last line is
// that value, in the entry's unit. The zero value is empty and ready for use.
type Working struct {
	lines   []Line
	known   map[string]float64
	unknown bool // a line has no value, so the working has none
}

// Given adds a number that goes in, and where it comes from.
func (w *Working) Given(symbol, means string, value float64, unit, from string) {
	w.add(Line{Symbol: symbol, Means: means, Value: value, Unit: unit, From: from})
}

// Step adds what a formula makes of the lines before, and where the formula comes
// from. A formula that cannot be read or asks for a symbol that no line before has is
// our own mistake.
func (w *Working) Step(symbol, means, text, unit, from string) {
	if w.unknown {
		return
	}
	n, err := formula.Parse(text)
	if err != nil {
		panic(fmt.Sprintf("working: %s = %s: %v", symbol, text, err))
	}
	for _, s := range formula.Symbols(n) {
		if _, is := w.known[s]; !is {
			panic(fmt.Sprintf("working: %s = %s: no line before has %s", symbol, text, s))
		}
	}
	v, err := formula.Eval(n, w.known)
	if err != nil {
		v = math.NaN()
	}
	w.add(Line{Symbol: symbol, Means: means, Formula: text, Value: v, Unit: unit, From: from})
}

func (w *Working) add(l Line) {
	if _, twice := w.known[l.Symbol]; twice {
		panic("working: two lines have " + l.Symbol)
	}
	if w.known == nil {
		w.known = map[string]float64{}
	}
	w.known[l.Symbol] = l.Value
	w.lines = append(w.lines, l)
	w.unknown = w.unknown || math.IsNaN(l.Value) || math.IsInf(l.Value, 0)
}

// Value is that of a line; NaN where there is none.
func (w *Working) Value(symbol string) float64 {
	if v, is := w.known[symbol]; is && !w.unknown {
		return v
	}
	return math.NaN()
}

// Lines are the working; none where a line has no value: what is not a number is no
// working.
func (w *Working) Lines() []Line {
	if w.unknown {
		return nil
	}
	return w.lines
}

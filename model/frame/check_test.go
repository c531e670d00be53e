package frame

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// near holds a value to 1e-9 of what it should be.
func nearTo(t testing.TB, what string, got, want float64) {
	t.Helper()
	nearBy(t, what, got, want, 1e-9*math.Max(1, math.Abs(want)))
}

func nearBy(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %.1g", what, got, want, tolerance)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// sane are arguments on which each function that may fail answers.
func sane() map[string][]any {
	rod := must(Rod(0.03))
	beam := Beam{Stretches: []Stretch{{2, 100}, {3, 200}}, Supports: []Support{Pin(0), Bed(2, 500), {At: 5, Turn: Restraint{Spring: 7}, Down: Restraint{Rigid: true}}}, Links: []Link{{1, 300, 0.2, 0.1}}}
	loading := Loading{Points: []PointLoad{{1.5, 4, 2}}, Lines: []Distributed{{0.5, 3, 3, 6}}}
	r := must(beam.Solve(loading, loading))
	lies := Beam{Stretches: []Stretch{{3, 100}}, Supports: []Support{Pin(0), Pin(1), Bed(3, 500)}}
	bar := Bar{Section: rod, Length: 1.5, Factor: 1, Modulus: 210e6, Yield: 355e3}
	jack := JackTable{{0.1, 60}, {0.4, 30}}
	wall := Wall{Hinge: 2, Height: 2, Width: 1.2, EI: 400, Ties: []Prop{{0.8, 5e3, 0, 0}}, Braces: []Prop{{1.7, 9e3, 0.5, 0.1}}}
	return map[string][]any{
		"Beam.Solve": {Beam.Solve, beam, []Loading{loading}}, "Response.Plus": {Response.Plus, r[0], r[1], 0.5}, "Response.At": {Response.At, r[0], units.Length(1)},
		"Beam.Lie":  {Beam.Lie, lies, loading},
		"EachOrNot": {EachOrNot, r[0], r}, "InOrder": {InOrder, r},
		"Wall.Under": {Wall.Under, wall, load.Diagram{{Up: 0, Pressure: 30}, {Up: 1, Pressure: 25}, {Up: 1.8, Pressure: 0}}},
		"Rod":        {Rod, units.Length(0.03)}, "RoundTube": {RoundTube, units.Length(0.06), units.Length(0.004)}, "BoxTube": {BoxTube, units.Length(0.1), units.Length(0.06), units.Length(0.004)},
		"Bar.Axial": {Bar.Axial, bar}, "Bar.Euler": {Bar.Euler, bar}, "Bar.EdgeStress": {Bar.EdgeStress, bar, units.Force(10), units.Length(0.01)}, "Bar.AtStress": {Bar.AtStress, bar, units.Pressure(200e3), units.Length(0.01)},
		"JackTable.At": {JackTable.At, jack, units.Length(0.2)}, "Spindle.At": {Spindle.At, Spindle{0.03, 0.005, 210e6, 355e3, 1.5}, units.Length(0.3)},
	}
}

var nasty = []float64{
	math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1, math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, 1e-300, 1e300, 1e-9, 1e9,
}

// floats calls f with every number inside, in turn; unexported ones are no input.
func floats(v reflect.Value, f func(reflect.Value)) {
	switch v.Kind() {
	case reflect.Float64:
		if v.CanSet() {
			f(v)
		}
	case reflect.Slice:
		for i := range v.Len() {
			floats(v.Index(i), f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			floats(v.Field(i), f)
		}
	}
}

// Each number of each argument is replaced by each nasty one: the answer is
// finite, or an error that says which range it broke and nothing else.
func TestNoNumberWithoutMeaning(t *testing.T) {
	for name := range sane() {
		refusals := 0
		call := func(args []reflect.Value) {
			f := args[0]
			var out []reflect.Value
			if f.Type().IsVariadic() {
				out = f.CallSlice(args[1:])
			} else {
				out = f.Call(args[1:])
			}
			err, failed := out[len(out)-1].Interface().(error)
			if failed {
				refusals++
				if !errors.Is(err, load.ErrRange) || !out[0].IsZero() {
					t.Errorf("%s: %v beside %v", name, err, out[0])
				}
				return
			}
			if !finiteInside(out[0]) {
				t.Errorf("%s%v: %v without an error", name, args[1:], out[0])
			}
		}
		places := 0
		for _, a := range values(sane()[name]) {
			floats(a, func(reflect.Value) { places++ })
		}
		for place := range places {
			for _, bad := range nasty {
				args, n := values(sane()[name]), 0
				for _, a := range args {
					floats(a, func(v reflect.Value) {
						if n == place {
							v.SetFloat(bad)
						}
						n++
					})
				}
				call(args)
			}
		}
		if places > 0 && refusals == 0 {
			t.Errorf("%s refuses nothing", name)
		}
	}
}

// values are copies that can be set.
func values(args []any) []reflect.Value {
	var out []reflect.Value
	for _, a := range args {
		v := reflect.New(reflect.TypeOf(a)).Elem()
		v.Set(reflect.ValueOf(a))
		out = append(out, v)
	}
	return out
}

func finiteInside(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Slice:
		for i := range v.Len() {
			if !finiteInside(v.Index(i)) {
				return false
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !finiteInside(v.Field(i)) {
				return false
			}
		}
	}
	return true
}

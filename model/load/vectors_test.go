package load

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"boxwalk/model/units"
)

// vector is one entry of the project's file of outside check values. Its flag
// says published, textbook or derived; derived values were worked out from the
// formulas, independently of this code.
type vector struct {
	ID   string             `json:"id"`
	In   map[string]float64 `json:"in_"`
	Out  map[string]any     `json:"out"`
	Flag string             `json:"flag"`
}

// vectors returns the entries whose id starts so; there must be that many.
func vectors(t *testing.T, prefix string, count int) []vector {
	t.Helper()
	text, err := os.ReadFile("../../testdata/vectors.json")
	if err != nil {
		t.Fatal(err)
	}
	var all, some []vector
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	for _, v := range all {
		if strings.HasPrefix(v.ID, prefix) {
			some = append(some, v)
		}
	}
	if len(some) != count {
		t.Fatalf("%d vectors start with %s, want %d", len(some), prefix, count)
	}
	return some
}

func (v vector) out(key string) float64 { return v.Out[key].(float64) }

// near holds a value to 1e-9 of a value printed with 9 decimals or more.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	nearBy(t, what, got, want, 1e-9*math.Max(1, math.Abs(want)))
}

func nearBy(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %.1g", what, got, want, tolerance)
	}
}

// must returns the value of a call that may not fail.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// si reads a text with a unit as the program does, so that checks go through
// the same rounding as a job file.
func si(kind units.Kind, x float64, unit string) float64 {
	return must(units.Parse(kind, fmt.Sprintf("%.17g %s", x, unit), units.Metric))
}

func feet(x float64) units.Length      { return units.Length(si(units.KindLength, x, "ft")) }
func inches(x float64) units.Length    { return units.Length(si(units.KindLength, x, "in")) }
func inPsf(p units.Pressure) float64   { return float64(p) / psf }
func inPlf(l LineLoad) float64         { return float64(l) / plf }
func inPounds(f units.Force) float64   { return float64(f) / pound }
func fromPsf(x float64) units.Pressure { return units.Pressure(si(units.KindPressure, x, "psf")) }
func fromPcf(x float64) units.UnitWeight {
	return units.UnitWeight(si(units.KindUnitWeight, x, "pcf"))
}
func hours(x float64) units.Duration     { return units.Duration(x * hour) }
func daysOf(x float64) units.Duration    { return units.Duration(x * day) }
func ageOf(x float64) EquivalentAge      { return EquivalentAge(x * day) }
func inMPa(x float64) units.Pressure     { return units.Pressure(x * mpa) }
func degrees(x float64) units.Angle      { return units.Angle(x * math.Pi / 180) }
func millimetres(x float64) units.Length { return units.Length(x / 1000) }

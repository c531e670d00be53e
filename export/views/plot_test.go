package views

import (
	"math"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"

	"pgregory.net/rapid"
)

func TestStepsOfAnAxisAreOneTwoOrFiveAndFew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := rapid.Float64Range(1e-6, 1e6).Draw(t, "span")
		most := rapid.IntRange(2, 15).Draw(t, "most")
		step := niceStep(span, most)
		lead := step / math.Pow(10, math.Floor(math.Log10(step*(1+1e-9))))
		if math.Abs(lead-1) > 1e-6 && math.Abs(lead-2) > 1e-6 && math.Abs(lead-5) > 1e-6 {
			t.Fatalf("step %v of %v", step, span)
		}
		if n := len(divisions(0, span, most)); n > most+1 || n < 1 {
			t.Fatalf("%d divisions of %v, at most %d", n, span, most)
		}
	})
}

func TestTheFieldShowsEveryCurveAndLimit(t *testing.T) {
	d := diagram{most: math.Inf(1), high: plotHigh, curves: []curve{{runs: [][]sheet.Point{{{0, -3}, {10, 40}}}}}, levels: []level{{"limit", 77}}}
	f := d.field()
	for _, p := range []sheet.Point{{0, -3}, {10, 40}, {10, 77}} {
		if q := f.at(p); q[0] < 0 || q[0] > plotWide || q[1] < 0 || q[1] > plotHigh {
			t.Errorf("%v falls on %v, outside the field", p, q)
		}
	}
}

func TestTheDiagramTellsEveryZoneAsTheCheckDoes(t *testing.T) {
	s, r := bentJob()
	o := &drafter{study: s, result: r}
	d := o.clearDiagram(1, o.alongOf(1))
	told := map[string]float64{}
	for _, m := range d.marks {
		told[m.text] = m.at[1]
	}
	zones := 0
	for _, e := range o.rolling("roll.clear", 1) {
		if e.Value == nil || e.Where.Station == nil {
			continue
		}
		zones++
		found := false
		for _, v := range told {
			found = found || math.Abs(v-1000*(e.Value.Lower-e.Allowance)) < 1e-9
		}
		if !found {
			t.Errorf("%s is not told", e.Subject)
		}
	}
	if zones < 6 || len(d.marks) != zones {
		t.Errorf("%d zones, %d marks", zones, len(d.marks))
	}
	drawn := 0
	for _, i := range d.draw(&sheet.Sheet{}).Items {
		if c, ok := i.(sheet.Circle); ok && c.On == sheet.Clearance {
			drawn++
		}
	}
	if drawn != zones || len(d.levels) != 1 || d.levels[0].at != 25 {
		t.Errorf("%d of %d marks drawn, limit %v", drawn, zones, d.levels)
	}
}

func TestAClearanceIsLetteredDownAndADemandUp(t *testing.T) {
	s, r := checked()
	o := &drafter{study: s, result: r}
	for m, want := range map[float64]string{0.02499: "24.9", 0.025: "25", -0.00001: "-0.1"} {
		if got := o.bareDown(m); got != want {
			t.Errorf("%v m as %s, want %s", m, got, want)
		}
	}
	for v, want := range map[float64]string{20.001: "20.01 kN", 20: "20.00 kN", 0: "0.00 kN"} {
		if got := o.forceUp(v); got != want {
			t.Errorf("%v kN as %s, want %s", v, got, want)
		}
	}
}

func TestNoDiagramsWithoutSamples(t *testing.T) {
	s, _ := checked()
	o := &drafter{study: s, result: &result.Result{}}
	if list := o.alongSheets(); len(list) != 0 {
		t.Errorf("%d sheets", len(list))
	}
	for _, p := range o.trackSheets() {
		if _, err := o.fit(p); err != nil {
			t.Errorf("%s: %v", p.name, err)
		}
	}
}

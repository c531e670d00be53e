package check

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model/job"
)

// pouredWith is the worked cell with concrete of a height, in a metric or imperial job,
// and other words on concrete and pour.
func pouredWith(units, high, concrete, pour string) chain {
	roof := map[string]string{"13'-4\"": "1.964 m", "15 ft": "2.472 m", "12 ft": "1.5576 m", "16 ft": "2.7768 m", "8 ft": "338.4 mm", "10 ft": "948 mm",
		"3 m": "900 mm", "4 m": "1.9 m", "5 m": "2.9 m", "3.3 m": "1.2 m"}[high]
	return chain{Gear: "roof-halves-24", Jobs: [][2]string{
		{"number: W-24}", "number: W-24, units: " + units + "}"}, {"roof: 300 mm", "roof: " + roof},
		{"concrete: {", "concrete: {" + concrete + ", "}, {"pour: {", "pour: {" + pour + ", "}}}
}

// pressedBy is the pressure at the foot of the wall panels, kPa.
func pressedBy(t *testing.T, c chain) result.Entry {
	t.Helper()
	for _, e := range PartAlone(c.Study(t), Poured) {
		if e.ID == "pour.pressure" && e.Subject.What == "wall panel" {
			return e
		}
	}
	t.Fatal("no pour.pressure")
	return result.Entry{}
}

const (
	psf = 0.04788025898
	aci = "pressure: ACI 347, slump: 100 mm, vibration: internal, "
)

// Published worked examples and rows worked from the formulas (standards as named beside
// them), from job text to entry. The kicker ends above the foot of the panels, so that
// the greatest pressure stands at it.
func TestPublishedPressuresFromJobTextToEntry(t *testing.T) {
	for _, c := range []struct {
		from                        string
		units, high, concrete, pour string
		kPa                         float64
	}{
		{"PE practice problem citing ACI 347-04 p. 347-7, published 712 psf (read)", "imperial", "13'-4\"", "unit_weight: 140 pcf, rise_rate: 5 ft/h, temperature: 80 degF", aci + "binder: portland, retarder: none", 712.5 * psf},
		{"lecture notebooks on wall forms, published 1042.5 psf (read)", "imperial", "15 ft", "unit_weight: 150 pcf, rise_rate: 10 ft/h, temperature: 80 degF", aci + "binder: portland, retarder: none", 1042.5 * psf},
		{"ACI 347, least 600 C_w (derived)", "imperial", "8 ft", "unit_weight: 150 pcf, rise_rate: 4 ft/h, temperature: 90 degF", aci + "binder: portland, retarder: none", 600 * psf},
		{"ACI 347, light, rich blend (derived)", "imperial", "12 ft", "unit_weight: 120 pcf, rise_rate: 6 ft/h, temperature: 60 degF", aci + "binder: rich blend, retarder: none", 1343.275862069 * psf},
		{"ACI 347, C_w 0.845, retarded (derived)", "imperial", "12 ft", "unit_weight: 100 pcf, rise_rate: 4 ft/h, temperature: 60 degF", aci + "binder: portland, retarder: some", 760.344827586 * psf},
		{"ACI 347, capped by w h (derived)", "imperial", "8 ft", "unit_weight: 150 pcf, rise_rate: 8 ft/h, temperature: 75 degF", aci + "binder: blend, retarder: none", 1200 * psf},
		{"ACI 347, above 14 ft (derived)", "imperial", "16 ft", "unit_weight: 150 pcf, rise_rate: 5 ft/h, temperature: 70 degF", aci + "binder: portland, retarder: none", 970 * psf},
		{"ACI 347, R above 15 ft/h (derived)", "imperial", "10 ft", "unit_weight: 150 pcf, rise_rate: 18 ft/h, temperature: 70 degF", aci + "binder: portland, retarder: none", 1500 * psf},
		{"8 ft of liquid concrete at 150 pcf, 1200 psf (read)", "imperial", "8 ft", "unit_weight: 150 pcf", "pressure: fluid", 1200 * psf},
		{"ACI 347 SI, eq (b), retarded (derived)", "metric", "4 m", "unit_weight: 23.544 kN/m3, rise_rate: 1.5 m/h, temperature: 15 degC", aci + "binder: portland, retarder: some", 51.719268293},
		{"ACI 347 SI, eq (c) (derived)", "metric", "5 m", "unit_weight: 23.544 kN/m3, rise_rate: 3 m/h, temperature: 10 degC", aci + "binder: portland, retarder: none", 75.113669065},
		{"ACI 347 SI, above 4.2 m (derived)", "metric", "5 m", "unit_weight: 23.544 kN/m3, rise_rate: 1.5 m/h, temperature: 20 degC", aci + "binder: portland, retarder: none", 47.464550265},
		{"ACI 347 SI, 30 C_w (derived)", "metric", "3 m", "unit_weight: 24.525 kN/m3, rise_rate: 1 m/h, temperature: 25 degC", aci + "binder: portland, retarder: none", 32.327586207},
		{"ACI 347 SI, light, rich blend (derived)", "metric", "3 m", "unit_weight: 17.658 kN/m3, rise_rate: 1.5 m/h, temperature: 20 degC", aci + "binder: rich blend, retarder: none", 47.674003831},
		{"ACI 347 SI, R above 4.5 m/h (derived)", "metric", "3 m", "unit_weight: 23.544 kN/m3, rise_rate: 5 m/h, temperature: 20 degC", aci + "binder: portland, retarder: none", 70.632},
		{"self-compacting, ACI 347 eq (a)", "metric", "3 m", "unit_weight: 25 kN/m3, rise_rate: 1 m/h, temperature: 20 degC", "pressure: ACI 347, consistency: SCC, vibration: internal, binder: portland, retarder: none", 75},
		{"DIN 18218 F2 (from memory)", "metric", "3 m", "rise_rate: 2 m/h", "pressure: DIN 18218, consistency: F2, set_end: 5 h, reference_conditions: true", 39},
		{"DIN 18218 F3 tE 7 h (from memory)", "metric", "3 m", "rise_rate: 2 m/h", "pressure: DIN 18218, consistency: F3, set_end: 7 h, reference_conditions: true", 53.084},
		{"DIN 18218 F4 tE 7 h (from memory)", "metric", "4 m", "rise_rate: 3 m/h", "pressure: DIN 18218, consistency: F4, set_end: 7 h, reference_conditions: true", 87.04},
		{"DIN 18218 F6 (from memory)", "metric", "5 m", "rise_rate: 2 m/h", "pressure: DIN 18218, consistency: F6, set_end: 5 h, reference_conditions: true", 101},
		{"CIRIA 108, basic (second-hand)", "metric", "4 m", "rise_rate: 2 m/h, temperature: 10 degC", "pressure: CIRIA 108, binder: portland, retarder: none", 58.476833216},
		{"CIRIA 108, retarded (second-hand)", "metric", "4 m", "rise_rate: 2 m/h, temperature: 10 degC", "pressure: CIRIA 108, binder: portland, retarder: some", 70.037580294},
		{"CIRIA 108, published K 0.56, heavily retarded (second-hand)", "metric", "3.3 m", "rise_rate: 3 m/h, temperature: 32 degC", "pressure: CIRIA 108, binder: portland, retarder: heavy", 53.866520207},
		{"CIRIA 108, blend (second-hand)", "metric", "3 m", "unit_weight: 24 kN/m3, rise_rate: 1.5 m/h, temperature: 20 degC", "pressure: CIRIA 108, binder: blend, retarder: none", 43.783656557},
	} {
		e := pressedBy(t, pouredWith(c.units, c.high, c.concrete, c.pour))
		if e.Value == nil || math.Abs(e.Value.Upper-c.kPa) > 1e-6*c.kPa {
			t.Errorf("%s: %v, want %v: %s", c.from, e.Value, c.kPa, e.Text)
			continue
		}
		if wrong := worksOut(e); wrong != "" {
			t.Errorf("%s: %s", c.from, wrong)
		}
	}
}

// A method that lacks what it needs leaves every check of the pour open, and names the key;
// so does a number outside the range of its formula.
func TestAMethodOfPressureThatLacksAnInputIsOpenAndNamesTheKey(t *testing.T) {
	for _, m := range []struct{ concrete, pour string }{
		{"rise_rate: 1.5 m/h, temperature: 15 degC", "pressure: ACI 347, slump: 100 mm, vibration: internal, binder: portland, retarder: none"},
		{"rise_rate: 1.5 m/h", "pressure: DIN 18218, consistency: F3, set_end: 7 h, reference_conditions: true"},
		{"rise_rate: 1.5 m/h, temperature: 15 degC", "pressure: CIRIA 108, binder: portland, retarder: none"},
	} {
		if e := pressedBy(t, pouredWith("metric", "3 m", m.concrete, m.pour)); e.Value == nil {
			t.Fatalf("%s: %s", m.pour, e.Text)
		}
		for _, group := range []struct{ name, text string }{{"concrete", m.concrete}, {"pour", m.pour}} {
			for _, key := range strings.Split(group.text, ", ") {
				name, _, _ := strings.Cut(key, ":")
				if name == "pressure" {
					continue
				}
				without := map[string]string{"concrete": m.concrete, "pour": m.pour}
				without[group.name] = strings.ReplaceAll(strings.Trim(strings.ReplaceAll(group.text, key, ""), ", "), ", , ", ", ")
				if without["concrete"] == "" {
					without["concrete"] = "unit_weight: 25 kN/m3"
				}
				for _, e := range PartAlone(pouredWith("metric", "3 m", without["concrete"], without["pour"]).Study(t), Poured) {
					if e.Verdict != result.Open || e.Value != nil || !strings.Contains(e.Text, group.name+"."+name) {
						t.Errorf("%s without %s: %s is %v, %v: %s", m.pour, name, e.ID, e.Verdict, e.Value, e.Text)
					}
				}
			}
		}
	}
	hot := pouredWith("metric", "3 m", "rise_rate: 1.5 m/h, temperature: 45 degC", "pressure: CIRIA 108, binder: portland, retarder: none")
	if e := pressedBy(t, hot); e.Verdict != result.Open || e.Value != nil || !strings.Contains(e.Text, "45") {
		t.Errorf("%v: %s", e.Verdict, e.Text)
	}
}

// The full head is never less than what any method gives.
func TestTheFullHeadIsTheMostOfAllMethods(t *testing.T) {
	most := pressedBy(t, pouredWith("metric", "3 m", "rise_rate: 3 m/h, temperature: 5 degC", "pressure: fluid")).Value.Upper
	for _, p := range []string{aci + "binder: rich blend, retarder: some", "pressure: DIN 18218, consistency: F6, set_end: 20 h, reference_conditions: true", "pressure: CIRIA 108, binder: rich blend, retarder: heavy"} {
		if e := pressedBy(t, pouredWith("metric", "3 m", "rise_rate: 3 m/h, temperature: 5 degC", p)); e.Value == nil || e.Value.Upper > most+1e-9 {
			t.Errorf("%s: %v above %v", p, e.Value, most)
		}
	}
}

// Heavier concrete, a thicker roof, a greater difference of level and a weaker anchor
// never pass what less of it fails, nor ask less of anything.
func TestMoreOfAPourNeverPassesWhatLessFails(t *testing.T) {
	for _, more := range []func(n float64) [2]string{
		func(n float64) [2]string {
			return [2]string{"concrete: {", fmt.Sprintf("concrete: {unit_weight: %.1f kN/m3, ", 20+6*n)}
		},
		func(n float64) [2]string { return [2]string{"roof: 300 mm", fmt.Sprintf("roof: %.0f mm", 200+300*n)} },
		func(n float64) [2]string {
			return [2]string{"anchor: 80 kN", fmt.Sprintf("anchor: 80 kN, level_difference: %.1f m", 0.2*n)}
		},
		func(n float64) [2]string { return [2]string{"grade: 2 %", fmt.Sprintf("grade: %.1f %%", -2*n)} },
	} {
		verdicts, values := map[string]result.Verdict{}, map[string]float64{}
		for n := range 5 {
			c := chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pours: [2.3 m]", "pours: [2.3 m, 2.3 m]"}, {"ends:", "alignment: {grade: 2 %}\nends:"}, more(float64(n))}}
			for _, e := range PartAlone(c.Study(t), Poured) {
				key := e.ID + e.Subject.String()
				if e.Value == nil {
					continue
				}
				if before, is := values[key]; is && (e.Value.Upper < before-1e-9 || verdicts[key] == result.Fail && e.Verdict != result.Fail) {
					t.Errorf("%s at %v: %v after %v, %v after %v", key, more(float64(n)), e.Value.Upper, before, e.Verdict, verdicts[key])
				}
				values[key], verdicts[key] = e.Value.Upper, e.Verdict
			}
		}
	}
}

// A capacity that the gear does not state leaves what reads it open, with its demand and
// its key, or is left out where the job says who covers it.
func TestWhatThePourAsksForAndNobodyStatesIsOpenAndNamesItsKey(t *testing.T) {
	for _, c := range []struct{ id, text, without, key string }{
		{"pour.pressure", "  pressure: 70 kPa\n", "", "wall.pressure"},
		{"pour.pressure", ", pressure: 40 kPa}", "}", "corner.pressure"},
		{"pour.pressure", "  filler_pressure: 25 kPa\n", "", "roof.filler_pressure"},
		{"pour.ties", ", capacity: 90 kN}\n", "}\n", "ties.capacity"},
		{"pour.walers", ", moment: 10 kNm", "", "wall.walers.moment"},
		{"pour.walers", ", shear: 60 kN", "", "wall.walers.shear"},
		{"pour.braces", "    thickness: 50 mm\n    axial: 90 kN\n", "    thickness: 50 mm\n", "links.axial"},
		{"pour.even", "  side: 40 kN\n", "", "frame.side"},
	} {
		for _, covered := range []bool{false, true} {
			b := chain{Gear: "roof-halves-24", Swap: [][2]string{{c.text, c.without}}}
			if covered {
				b.Jobs = [][2]string{{"gear: gear.yaml", "covered_by: {" + c.id + ": permit 7}\ngear: gear.yaml"}}
			}
			seen := 0
			for _, e := range PartAlone(b.Study(t), Poured) {
				if e.ID == c.id && strings.Contains(e.Text, c.key) {
					seen++
					if e.Verdict != result.Open || e.Value == nil || e.Limit != nil {
						t.Errorf("%s: %v, %v", e.Subject, e.Verdict, e.Value)
					}
				}
			}
			if (seen == 0) != covered {
				t.Errorf("%s, covered %v: %d open", c.key, covered, seen)
			}
		}
	}
}

// A slender link is held by Euler's formula with its stated section, by hand pi^2 E I/L^2
// over 23/12; a stocky one has no value by it and stays open, naming what to state.
func TestASlenderBraceIsHeldByEulerAndAStockyOneNeedsItsCapacity(t *testing.T) {
	braced := func(steel string) map[string]result.Entry {
		out := map[string]result.Entry{}
		c := chain{Gear: "roof-halves-24", Swap: [][2]string{{"    thickness: 50 mm\n    axial: 90 kN\n", "    thickness: 50 mm\n    steel: {" + steel + "}\n"}}}
		for _, e := range PartAlone(c.Study(t), Poured) {
			if e.ID == "pour.braces" {
				out[e.Subject.What] = e
			}
		}
		return out
	}
	const long = 1.0979 // m, the upper brace raised, from the worked setting
	slender := braced("A: 20 cm2, I: 10 cm4")["upper brace, left"]
	if want := math.Pi * math.Pi * 210e6 * 10e-8 / (long * long) / (23.0 / 12); slender.Limit == nil || math.Abs(*slender.Limit-want) > 1e-3*want {
		t.Errorf("%v, want %.2f kN: %s", slender.Limit, want, slender.Text)
	}
	stocky := braced("A: 5.6 cm2, I: 13.8 cm4")["low brace, left"]
	if stocky.Verdict != result.Open || stocky.Limit != nil {
		t.Errorf("%v: %s", stocky.Verdict, stocky.Text)
	}
	says(t, stocky, "slenderness", "give links.axial")
}

// Nothing lifts a cell's form, in no job.
func TestNoFormFloatsInAnyJob(t *testing.T) {
	list, err := filepath.Glob(worked.Path("jobs", "*", "job.yaml"))
	if err != nil || len(list) < 20 {
		t.Fatal(err, list)
	}
	for _, path := range list {
		for _, e := range PartAlone(worked.Job(t, filepath.Base(filepath.Dir(path))), Poured) {
			if e.ID == "lift.float" && (e.Verdict != result.Pass || e.Value != nil) {
				t.Errorf("%s, %s: %v %v", path, e.Subject, e.Verdict, e.Value)
			}
		}
	}
}

// A bulkhead on a skew of 45 degrees pushes as much sideways as ahead: sqrt 2 of what the
// square one of the same section pushes. Friction takes its share off only where it is
// stated, two thirds of it.
func TestASkewedBulkheadPushesSidewaysAndStatedFrictionHoldsTwoThirds(t *testing.T) {
	slide := func(name string, swap ...[2]string) result.Entry {
		for _, e := range PartAlone(worked.Job(t, name, swap...), Poured) {
			if e.ID == "pour.slide" && e.Subject.Pour == 2 {
				return e
			}
		}
		t.Fatal("no pour.slide")
		return result.Entry{}
	}
	square, skewed := slide("otter-brook"), slide("ferry-road")
	if want := math.Sqrt2 * square.Value.Upper; math.Abs(skewed.Value.Upper-want) > 0.01*want {
		t.Errorf("%v, want %v", skewed.Value, want)
	}
	rubbed := slide("otter-brook", [2]string{"pour: {anchor", "pour: {friction: 0.3, friction_source: pull test, anchor"})
	light := 0.0
	for _, l := range rubbed.Working {
		if l.Symbol == "W_l" {
			light = l.Value
		}
	}
	if want := square.Value.Upper - 0.3*light/1.5; light == 0 || math.Abs(rubbed.Value.Upper-want) > 1e-6 {
		t.Errorf("%v, want %v", rubbed.Value, want)
	}
	if _, _, problems := job.Decode[job.Job]("job.yaml", []byte("pour: {friction: 0.3}"), 0); !strings.Contains(problems.Error(), "pour.friction") && !strings.Contains(problems.Error(), "friction") {
		t.Error("friction of nobody is taken")
	}
}

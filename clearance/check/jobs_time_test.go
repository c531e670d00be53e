package check

import (
	"math"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
)

// Small jobs of the test data that fail one of the checks of time, stability and lifting.

func TestMarchBeckFreesItsRoofBeforeItIsStrong(t *testing.T) {
	// 24 h at 20 degC and, the lower of two readings counting, 24 h at 10 degC are worth
	// 24 + 24 exp(-5000 (1/283.15 - 1/293.15)) = 37.1403 h (ASTM C1074) = 1.54751 d; the
	// curve gives 30 x 0.5 x 1.34751 / (1 + 0.5 x 1.34751) = 12.08 of 15 MPa
	days := (24 + 24*math.Exp(-5000*(1/283.15-1/293.15))) / 24
	k := 0.5 * (days - 0.2)
	r := checkFile(t, "march-beck")
	failsBy(t, r, "time.roof")
	e := ofGoverning(t, r, "time.roof")
	valueIs(t, e, result.Fail, 30*k/(1+k), 1e-9)
	says(t, e, "12.0 MPa", "worth 1.54 days", "15.0 MPa")
	// three days of 20 degC give 17.5
	warm := checkFile(t, "march-beck", [2]string{"roof-temperatures.csv", "20 degC"}, [2]string{"walls_age: 2 d, roof_age: 2 d", "walls_age: 3 d, roof_age: 3 d"})
	for _, e := range warm.Checks {
		if e.ID == "time.roof" && e.Subject.What == strengthAtRelease {
			valueIs(t, e, result.Pass, 17.5, 1e-9)
		}
	}
	if warm.Verdict != result.Pass {
		t.Error(warm.Verdict)
	}
}

// ofGoverning is the entry that governs a check.
func ofGoverning(t *testing.T, r *result.Result, id string) result.Entry {
	t.Helper()
	for _, e := range r.Governing() {
		if e.ID == id {
			return e
		}
	}
	t.Fatalf("no %s", id)
	return result.Entry{}
}

func TestGullPointTipsInTheWind(t *testing.T) {
	s := jobFile(t, "gull-point")
	r := Run(s, Options{Version: "test"})
	failsBy(t, r, "stand.tip")
	// raised without fillers and ties, its outline beside 4.80 x 2.40 m: 1.2 kPa x 1.5 on
	// it at 1.20 m, and 1 % of the weight at 2.40 m; the wheels' gauge of 1.80 m less
	// nothing, its centre of gravity being in the middle, leaning by 6 mm over it
	b := s.Bays[0]
	var light, heavy, high float64
	for _, p := range b.Carrier.Parts {
		if p.Role != carrier.Filler && p.Role != carrier.Tie {
			light += p.Mass.Low * gravity / 1000
			heavy += (p.Mass.High + 10*p.Face) * gravity / 1000
		}
	}
	high = b.Carrier.Weigh(b.Steps[0].PresentAfter, b.Steps[0].Pose).Most[2]
	lean := math.Atan(0.006 / shortGauge)
	tips := 1.2*1.5*4.80*2.40*1.20 + 0.01*heavy*2.40
	want := light * math.Cos(lean) * shortGauge / 2 / (light*math.Sin(lean)*high + tips)
	e := ofGoverning(t, r, "stand.tip")
	if e.Verdict != result.Fail || math.Abs(e.Value.Lower-want) > 0.01*want {
		t.Errorf("%v %v, want %.3f: %s", e.Verdict, e.Value, want, e.Text)
	}
	says(t, e, "across", "wind 1.20 kPa x 1.5", "2400.0 mm high")
}

// Standing free: what holds is counted only where it is stated, and more wind never
// passes what less fails.
func TestACarrierThatStandsFreeIsHeldByWhatIsStated(t *testing.T) {
	stands := func(stand string) map[string]result.Entry {
		s := chain{Gear: "roof-halves-24", Jobs: [][2]string{{"stand: {wind: 0.3 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}", "stand: {" + stand + "}"}}}.Study(t)
		out := map[string]result.Entry{}
		x := reportsOf(s, Options{Brief: true}, measure.Ask{})[0]
		for _, e := range entries(x.judgeAll(s, true, func(c *Check) bool { return c.ID == "stand.slide" || c.ID == "stand.tip" })) {
			if wrong := worksOut(e); wrong != "" {
				t.Errorf("%s %s: %s", e.ID, e.Subject, wrong)
			}
			out[e.Subject.What] = e
		}
		return out
	}
	// level: 2.5 % of W or wind 0.72 x 1.5 x 3.0 x 2.4 m (the outline of the panels) and 1 %
	none := stands("")
	opens(t, none["on its plates"], "stand.anchor", "stand.friction")
	// parked, the restraint of 10 kN alone is enough: 0.72 x 1.5 x about 2.8 x 2.2 m
	if e := none["parked"]; e.Verdict != result.Pass || *e.Limit != 10 {
		t.Errorf("%v %v: %s", e.Verdict, e.Limit, e.Text)
	}
	held := stands("friction: 0.3, friction_source: test, chocks: 5 kN")
	f := held["on its plates"]
	if f.Verdict != result.Open {
		t.Errorf("%v: %s", f.Verdict, f.Text)
	}
	says(t, f, "friction 0.3", "stand.anchor")
	if e := stands("anchor: 20 kN, chocks: 12 kN")["on its plates"]; e.Verdict != result.Pass || *e.Limit != 20 {
		t.Errorf("%v %v: %s", e.Verdict, e.Limit, e.Text)
	}
	last := 100.0
	for _, wind := range []string{"0 kPa", "0.3 kPa", "0.72 kPa", "1.5 kPa", "3 kPa"} {
		e := stands("anchor: 20 kN, chocks: 12 kN, wind: " + wind)["across"]
		if e.Value.Lower > last {
			t.Errorf("%s: %v after %v", wind, e.Value.Lower, last)
		}
		last = e.Value.Lower
	}
	if last > 1 {
		t.Errorf("3 kPa of wind tip nothing: %v", last)
	}
}

func TestAnAnchorTakesPartsAndJerks(t *testing.T) {
	anchors := func(text string) (line, restraint result.Entry) {
		s := chain{Gear: "roof-halves-24", Jobs: [][2]string{{"anchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}\n", text}}}.Study(t)
		r := Run(s, Options{Brief: true, Only: []string{"roll.pull", "roll.anchor"}})
		for _, e := range r.Checks {
			switch {
			case e.ID == "roll.anchor" && e.Subject.What == "pulling line":
				line = e
			case e.ID == "roll.anchor":
				restraint = e
			}
		}
		pull := ofGoverning(t, r, "roll.pull")
		if math.Abs(line.Value.Upper/pull.Value.Upper-map[bool]float64{true: 6, false: 2}[len(text) > 0 && text[len(text)-2] == '#']) > 1e-9 {
			t.Errorf("anchor %v of a pull of %v", line.Value, pull.Value)
		}
		return line, restraint
	}
	line, restraint := anchors("")
	opens(t, line, "anchors.line.capacity")
	opens(t, restraint, "anchors.restraint.capacity")
	line, _ = anchors("anchors: {line: {capacity: 1 kN, parts: 2, snatch: 3}} #\n")
	if line.Verdict != result.Fail {
		t.Errorf("%v: %s", line.Verdict, line.Text)
	}
}

func TestHazelWharfHasSlingsTooWeakForTwoLegs(t *testing.T) {
	// 620 kg x 9.80665 x 1.3 = 7.904 kN; two legs at 45 degrees: 7.904 / 2 / cos 45 = 5.589 of 5
	r := checkFile(t, "hazel-wharf")
	failsBy(t, r, "lift.slings")
	governs(t, r, "lift.slings", "outside panel", result.Fail, 620*9.80665e-3*1.3/2*math.Sqrt2, 1e-6)
}

// flownEntries are the worked cell's entries of what is flown.
func flownEntries(t *testing.T, flown string) map[string]result.Entry {
	t.Helper()
	s := chain{Gear: "roof-halves-24", Whole: true, Jobs: [][2]string{{"gear: gear.yaml", flown + "gear: gear.yaml"}, {"pours: [2.3 m]", "pours: [9 m]"}}}.Study(t)
	out := map[string]result.Entry{}
	for _, id := range []string{"lift.slings", "lift.points", "lift.hook"} {
		for _, e := range ofWholeJob(s, id) {
			if wrong := worksOut(e); wrong != "" {
				t.Errorf("%s %s: %s", e.ID, e.Subject, wrong)
			}
			out[id+" "+e.Subject.What] = e
		}
	}
	return out
}

func TestWhatIsFlownIsHeldByHandStatics(t *testing.T) {
	// one leg takes all; a stated mass governs
	e := flownEntries(t, "flown: [{what: bulkhead, mass: 1000 kg, legs: 1, jerks: 1.5, sling: 20 kN, hook: 20 kN}]\n")
	valueIs(t, e["lift.slings bulkhead"], result.Pass, 1000*9.80665e-3*1.5, 1e-9)
	valueIs(t, e["lift.hook bulkhead"], result.Pass, 1000*9.80665e-3*1.5, 1e-9)
	opens(t, e["lift.points bulkhead"], "flown[0].point")
	// two legs 2 m apart, the middle 0.5 m off: 1/2 + 0.5/2 of it, over cos 60
	e = flownEntries(t, "flown: [{what: beam, mass: 1000 kg, legs: 2, angle: 60 deg, apart: 2 m, off: 0.5 m, jerks: 1, sling: 20 kN}]\n")
	valueIs(t, e["lift.slings beam"], result.Pass, 1000*9.80665e-3*0.75*2, 1e-9)
	// beyond the points nothing holds it
	e = flownEntries(t, "flown: [{what: beam, mass: 1000 kg, legs: 2, apart: 2 m, off: 1.1 m, sling: 200 kN}]\n")
	opens(t, e["lift.slings beam"], "may lie beyond")
	// a wall panel of the gear: the largest is 1.95 m x 2.325 m (9.30 m in four) of 55 kg/m2, and 10 on it
	e = flownEntries(t, "flown: [{what: panel, of: wall panel, legs: 2, angle: 0 deg, apart: 1.2 m, jerks: 1, hook: 20 kN}]\n")
	valueIs(t, e["lift.hook panel"], result.Pass, 1.95*2.325*65*9.80665e-3, 1e-9)
	// the whole carrier is what its parts weigh
	e = flownEntries(t, "flown: [{what: carrier, of: carrier, legs: 4, apart: 4 m, across: 1.8 m, jerks: 1, hook: 100 kN}]\n")
	if v := e["lift.hook carrier"].Value.Upper; v < 70 || v > 85 {
		t.Errorf("the carrier weighs %v kN", v)
	}
	// nothing flown is a pass of nothing
	e = flownEntries(t, "")
	if c := e["lift.slings nothing flown"]; c.Verdict != result.Pass || c.Value != nil {
		t.Errorf("%v %v", c.Verdict, c.Value)
	}
}

func TestMoreMassOffOrSlantNeverPassesWhatLessFails(t *testing.T) {
	last := 0.0
	for _, how := range []string{"angle: 0 deg", "angle: 30 deg", "angle: 45 deg", "angle: 60 deg", "angle: 60 deg, off: 0.3 m", "angle: 60 deg, off: 0.3 m, jerks: 2"} {
		e := flownEntries(t, "flown: [{what: beam, mass: 1000 kg, legs: 4, apart: 2 m, "+how+", sling: 20 kN}]\n")["lift.slings beam"]
		if e.Value.Upper <= last {
			t.Errorf("%s: %v after %v", how, e.Value.Upper, last)
		}
		last = e.Value.Upper
	}
}

func TestMallowStreetEndsAWorkingDayTooLate(t *testing.T) {
	// hours since midnight of Monday 5 May: raise 7 to 11, close to 17; pour 31 to 36, hard
	// 96 h later at 132, a Saturday; free on Monday 175 to 179 (8 steps of 0.5 h), roll to
	// 181, raise to 185; close 199 to 205; the pour of 5 h fits on Wednesday only: 223 to
	// 228; hard on Sunday at 324, free 343 to 347, out at 349, Monday the 19th at 13:00.
	// Asked for is the end of Friday the 16th: 12 x 24
	r := checkFile(t, "mallow-street")
	failsBy(t, r, "time.cycle")
	e := ofGoverning(t, r, "time.cycle")
	valueIs(t, e, result.Fail, 349, 1e-9)
	if *e.Limit != 288 {
		t.Errorf("limit %v", *e.Limit)
	}
	says(t, e, "2031-05-19 13:00", "2031-05-16", "96.0 h (4.0 d)", "two carriers in each cell")
	if len(r.Plan) != 10 || r.Plan[7].Work != "pour" || r.Plan[7].From != 223 || r.Plan[8].For != "the concrete to harden, then working time" {
		t.Errorf("%+v", r.Plan)
	}
	later := checkFile(t, "mallow-street", [2]string{"finish: 2031-05-16", "finish: 2031-05-19"})
	if later.Verdict != result.Pass {
		t.Error(later.Verdict)
	}
}

// planned is the worked cell's entry of a plan of two pours.
func planned(t *testing.T, cycle string, jobs ...[2]string) result.Entry {
	t.Helper()
	swaps := append([][2]string{{"pours: [2.3 m]", "pours: [2.3 m, 2.3 m]"}, {"gear: gear.yaml", cycle + "gear: gear.yaml"}}, jobs...)
	list := ofWholeJob(chain{Gear: "roof-halves-24", Jobs: swaps}.Study(t), "time.cycle")
	if wrong := worksOut(list[0]); wrong != "" {
		t.Error(wrong)
	}
	return list[0]
}

func TestAPlanHoldsWhatTheJobAsksFor(t *testing.T) {
	if e := planned(t, ""); e.Verdict != result.Pass || e.Value != nil {
		t.Errorf("%v %v: %s", e.Verdict, e.Value, e.Text)
	}
	e := planned(t, "cycle: {}\n")
	if e.Verdict != result.Pass || e.Value != nil {
		t.Errorf("%v %v: %s", e.Verdict, e.Value, e.Text)
	}
	says(t, e, "day 15 13:00", "cycle.finish")
	// from 31 to 223 it is 192 h
	valueIs(t, planned(t, "cycle: {every: 8 d}\n"), result.Pass, 192, 1e-9)
	valueIs(t, planned(t, "cycle: {every: 7.9 d}\n"), result.Fail, 192, 1e-9)
	opens(t, planned(t, "cycle: {every: 8 d}\n", [2]string{"walls_age: 4 d, roof_age: 4 d", "walls_age: 4 d"}), "schedule.roof_age")
	// what its temperatures give counts where no cylinders stand: 15 MPa by the curve at
	// 20 degC are there at 0.2 + 1/0.5 = 2.2 d = 52.8 h: hard on Thursday 36 + 52.8 = 88.8,
	// at 16:48; free 12 minutes and then Friday to 10:48, roll, ...
	by := [2]string{"walls_strength: 12 MPa, roof_strength: 21 MPa", "walls_strength: 12 MPa, roof_curing: 20 degC, calibration: {curve: hyperbolic, ultimate: 30 MPa, k: 0.5, start: 4.8 h, q: 5000, reference: 20 degC, source: tests}"}
	e = planned(t, "cycle: {every: 8 d}\n", by, [2]string{"walls_age: 4 d, roof_age: 4 d", "walls_age: 50 h, roof_age: 60 h"})
	says(t, e, "52.8 h", "time.roof, by its temperatures")
	// longer steps never end earlier
	slow := planned(t, "cycle: {every: 8 d, step: 1 h}\n")
	if slow.Value.Lower < 192 {
		t.Error(slow.Value)
	}
}

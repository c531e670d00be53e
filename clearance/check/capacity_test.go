package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/units"
)

const yard = "capacities: {basis: permissible, source: load tables of the yard}"

// basis is the worked gear with other words on its capacities.
func basis(text string) chain {
	return chain{Gear: "roof-halves-24", Swap: [][2]string{{yard, text}}}
}

func rocking(t *testing.T, c chain) result.Entry {
	t.Helper()
	e, ok := checkOf(Run(c.Study(t), Options{Brief: true, Only: []string{"roll"}}), "roll.wheel", 1, 1, "wheel, rocking")
	if !ok {
		t.Fatal("no roll.wheel")
	}
	return e
}

// By hand: own weight is dead load, so against a factored capacity it counts 1.35
// times, or as often as the job says.
func TestLoadsAreFactoredAgainstAFactoredCapacityOnly(t *testing.T) {
	permissible := rocking(t, basis(yard))
	for _, c := range []struct {
		gear, job string
		times     float64
	}{
		{"capacities: {basis: factored, source: design office}", "", 1.35},
		{"capacities: {basis: factored, source: design office}", "load_factors: {dead: 1.2}\n", 1.2},
		{"capacities: {basis: permissible, source: yard, but: {wheels.capacity: {basis: factored, source: maker}}}", "", 1.35},
		{"capacities: {basis: factored, source: yard, but: {wheels.capacity: {basis: permissible, source: maker}}}", "", 1},
	} {
		b := basis(c.gear)
		b.Jobs = [][2]string{{"gear: gear.yaml", c.job + "gear: gear.yaml"}}
		e := rocking(t, b)
		if want := c.times * permissible.Value.Upper; math.Abs(e.Value.Upper-want) > 1e-9 {
			t.Errorf("%s %s: %v kN, want %v", c.gear, c.job, e.Value.Upper, want)
		}
	}
	says(t, rocking(t, basis("capacities: {basis: factored, source: design office}")), "(dead) x 1.35 = ")
	if !strings.HasSuffix(permissible.Source, "capacity: wheels.capacity, permissible, load tables of the yard") {
		t.Errorf("source %q", permissible.Source)
	}
}

// A wheel that just carries its load fails under the same number as a factored one.
func TestACapacityThatJustHoldsFailsWhereItIsFactored(t *testing.T) {
	load := rocking(t, basis(yard)).Value.Upper
	for text, want := range map[string]result.Verdict{yard: result.Pass, strings.Replace(yard, "permissible", "factored", 1): result.Fail} {
		s := basis(text).Study(t)
		s.Gear.Wheels.Capacity = units.Force(load * 1.2)
		e, _ := checkOf(Run(s, Options{Brief: true, Only: []string{"roll"}}), "roll.wheel", 1, 1, "wheel, rocking")
		if e.Verdict != want {
			t.Errorf("%s: %v, want %v", text, e.Verdict, want)
		}
	}
}

func TestWithoutABasisNoCapacityIsUsed(t *testing.T) {
	r := checked(t, basis(""))
	for _, id := range []string{"roll.wheel", "setup.jacks"} {
		for _, e := range r.Checks {
			if e.ID == id && (e.Verdict != result.Open || e.Value == nil || e.Limit != nil || !strings.Contains(e.Text, "give capacities.basis there")) {
				t.Errorf("%s %s: %v %s", e.ID, e.Subject, e.Verdict, e.Text)
			}
		}
	}
	c := chain{Gear: "roof-halves-24", Jobs: [][2]string{{"capacities: {basis: permissible, source: plates of winch and restraint}\n", ""}}}
	r = checked(t, c)
	for _, e := range r.Checks {
		if (e.ID == "roll.pull" || e.ID == "roll.hold") && e.Verdict != result.Open {
			t.Errorf("%s %s: %v %s", e.ID, e.Subject, e.Verdict, e.Text)
		}
	}
}

// A check that somebody else covers is left out where its capacity is not stated, and
// every output names who does; what fails still fails.
func TestWhoCoversACheckWithoutCapacityIsNamedAndNothingIsHidden(t *testing.T) {
	cover := [2]string{"gear: gear.yaml", "covered_by: {roll.wheel: 'permit 12, sheet 3'}\ngear: gear.yaml"}
	none := chain{Gear: "roof-halves-24", Swap: [][2]string{{", capacity: 75 kN, side", ", side"}}, Jobs: [][2]string{cover}}
	r := checked(t, none)
	for _, e := range r.Checks {
		if e.ID == "roll.wheel" {
			t.Errorf("%s is left in: %s", e.Subject, e.Text)
		}
	}
	const said = "wheels and jacks under the carrier's own weight (roll.wheel covered by permit 12, sheet 3)"
	if r.Verdict != result.Pass || !strings.Contains(strings.Join(r.Reservations(), " "), said) {
		t.Errorf("%v: %q", r.Verdict, r.Reservations())
	}
	weak := wheelsCarry("1 kN").With("roof-halves-24")
	weak.Jobs = [][2]string{cover}
	failsBy(t, checked(t, weak), "roll.wheel")
	stated := chain{Gear: "roof-halves-24", Jobs: [][2]string{cover}}
	if r := checked(t, stated); strings.Contains(strings.Join(r.Reservations(), " "), "permit 12") {
		t.Error("who covers a check is named though every capacity is stated")
	}
	unbased := basis("")
	unbased.Jobs = [][2]string{cover}
	if e := rocking(t, unbased); e.Verdict != result.Open {
		t.Errorf("a basis that is not stated is covered: %v", e.Verdict)
	}
}

func TestWhoCoversACheckThatIsNoneIsTold(t *testing.T) {
	s := chain{Gear: "roof-halves-24", Jobs: [][2]string{{"gear: gear.yaml", "covered_by: {roll.wheels: permit 12}\ngear: gear.yaml"}}}.Study(t)
	if p := UnknownCovers(s.Job); len(p) != 1 || p[0].Key != "covered_by.roll.wheels" {
		t.Errorf("%v", p)
	}
}

func TestACapacityOfNobodyAndOneThatIsNoneAreRefused(t *testing.T) {
	for text, want := range map[string]string{
		"capacities: {basis: permissible, source: ' '}":                                                       "capacities.source",
		"capacities: {basis: sound, source: yard}":                                                            "capacities.basis",
		"capacities: {basis: permissible, source: yard, but: {wheel.capacity: {basis: factored, source: x}}}": "wheels.capacity",
	} {
		if _, why := basis(text).Built(t); !strings.Contains(why, want) {
			t.Errorf("%s: %q", text, why)
		}
	}
}

func TestADemandThatIsNoNumberPassesNoCapacity(t *testing.T) {
	s := worked.Chain{Gear: "roof-halves-24"}.Study(t)
	byHand(t, chain{Gear: "roof-halves-24"}, 0, func(b *bay, _ *model.Study) []Judged {
		for _, d := range []Demand{{Dead: math.NaN()}, {Pressure: math.Inf(1)}, {Dead: math.Inf(1), Live: math.Inf(-1)}} {
			capacity := 10.0
			e := b.held(holding{id: "roll.wheel", about: b.subject("wheel"), unit: "kN", demand: d, rating: s.Gear.Rated("wheels.capacity", &capacity), bearer: "a wheel", verb: "carries", text: func(load string) string { return load }})
			if e.Verdict == result.Pass {
				t.Errorf("%+v passes", d)
			}
		}
		return nil
	})
}

// What is factored is worked out from the page as well.
func TestAWorkingGoesOnToTheFactoredLoad(t *testing.T) {
	c := basis(strings.Replace(yard, "permissible", "factored", 1))
	c.Jobs = [][2]string{{"basis: permissible", "basis: factored"}}
	seen := 0
	for _, e := range checked(t, c).Checks {
		if n := len(e.Working); n > 0 && e.Working[n-1].Symbol == "E_d" {
			if wrong := worksOut(e); wrong != "" {
				t.Errorf("%s, %s: %s", e.ID, e.Subject, wrong)
			}
			seen++
		}
	}
	if seen < 5 {
		t.Errorf("%d factored loads have a working", seen)
	}
}

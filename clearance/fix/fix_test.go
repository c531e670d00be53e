package fix

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/units"
)

// published is the row of testdata/sections.csv with that id on a gear.
func published(t *testing.T, id, kind, gear string) *model.Study {
	t.Helper()
	for _, r := range sections(t) {
		for _, g := range yard(t, kind) {
			if r.id == id && g.name == gear {
				return r.study(t, g.Gear)
			}
		}
	}
	t.Fatalf("no %s on %s", id, gear)
	return nil
}

func TestFixesComeEasiestFirstAndEachWorks(t *testing.T) {
	s := published(t, "C1577 8x6", "whole", "whole-8-haunch")
	r := check.Run(s, check.Options{})
	fixes := FindFixes(s, r, 3, nil)
	if len(fixes) < 2 {
		t.Fatalf("%d fixes, want several", len(fixes))
	}
	for i, c := range fixes {
		if i > 0 && easiest(c, fixes[i-1]) < 0 {
			t.Errorf("%s is easier than %s", c.Text(), fixes[i-1].Text())
		}
		holdFix(t, s, c)
		t.Logf("%.4f: %s", c.Size(), c.Text())
	}
	if one := FindFixes(s, r, 1, nil); len(one) != 1 || one[0].Text() != fixes[0].Text() {
		t.Errorf("asked for one it says %q, asked for more %q", one[0].Text(), fixes[0].Text())
	}
}

func TestJobThatPassesNeedsNoFix(t *testing.T) {
	s := published(t, "D80 8x8 cover 10 ft", "whole", "whole-8-plain")
	if fixes := FindFixes(s, check.Run(s, check.Options{}), 3, nil); len(fixes) > 0 {
		t.Errorf("%s", fixes[0].Text())
	}
}

func TestWhatWantsTwoChangesHasNoFix(t *testing.T) {
	// 2 ft too narrow: the roof panels and the braces are both too short
	s := published(t, "D80 12x6 cover 10 ft", "whole", "whole-10-plain")
	r := check.Run(s, check.Options{})
	if fixes := FindFixes(s, r, 3, nil); r.Verdict != result.Fail || len(fixes) > 0 {
		t.Errorf("%v, %d fixes", r.Verdict, len(fixes))
	}
}

func TestSizeOfAChangeIsRelativeToTheDimension(t *testing.T) {
	at := func(from float64) dimension { return dimension{from: from, step: 1e-3} }
	for _, c := range []struct{ from, to, want float64 }{{2, 2.1, 0.05}, {2, 1.9, 0.05}, {-0.1, -0.12, 0.2}, {0, 0.3, 1}} {
		if got := at(c.from).size(c.to); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("from %g to %g: %g, want %g", c.from, c.to, got, c.want)
		}
	}
	for _, c := range []struct {
		from, size float64
		want       int
	}{{2, 0.0501, 100}, {-0.1, 0.0501, 5}, {0, 0.5, 0}, {0, 1, 1 << 10}, {2, math.Inf(1), 1 << 10}} {
		if got := at(c.from).reaches(c.size); got != c.want {
			t.Errorf("%g of %g reaches %d steps, want %d", c.size, c.from, got, c.want)
		}
	}
}

func TestFixOfAReadingAtItsDatumIsAChange(t *testing.T) {
	d := dimension{name: "jack", words: "wheels", kind: units.KindLength}
	c := Fix{Dimension: "jack", File: "gear", Key: "steps", To: 0.012, dimension: d}
	if got, want := c.Text(), "change jack from wheels to wheels + 12 mm (steps in the gear file)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestTryingADimensionLeavesTheStudyAsItIs(t *testing.T) {
	for _, on := range [][3]string{{"D80 8x8 cover 10 ft", "halves", "halves-10-plain-mid"}, {"C1577 8x6", "whole", "whole-8-haunch"}} {
		s, fresh := published(t, on[0], on[1], on[2]), published(t, on[0], on[1], on[2])
		for _, d := range dimensions(s) {
			j, g := d.at(s.Job, s.Gear, d.value(3))
			if reflect.DeepEqual(j, s.Job) && reflect.DeepEqual(g, s.Gear) {
				t.Errorf("%s changes nothing", d.name)
			}
			if !reflect.DeepEqual(s.Job, fresh.Job) || !reflect.DeepEqual(s.Gear, fresh.Gear) {
				t.Fatalf("trying %s changed the study", d.name)
			}
		}
	}
}

func TestReadingIsOnlyTriedUpToTheFirstStepThatFails(t *testing.T) {
	s := published(t, "D80 4x4 cover 10 ft", "halves", "halves-5-plain")
	r := &result.Result{Checks: []result.Entry{
		{ID: "strip.self", Verdict: result.Fail, Where: result.Where{Step: "header arms fully in"}},
		{ID: "strip.dig", Verdict: result.Fail, Where: result.Where{Step: "raise jack plates"}},
	}}
	trials := newTrials(s, r)
	late := map[string]bool{}
	for _, d := range dimensions(s) {
		if trials.tooLate(d) {
			late[d.turned] = true
		}
	}
	if want := map[string]bool{"down to wheels": true, "raise jack plates": true}; !reflect.DeepEqual(late, want) {
		t.Errorf("too late are readings of %v, want %v", late, want)
	}
}

func TestPanicOfATrialReachesTheCaller(t *testing.T) {
	defer func() {
		if recover() != "broken" {
			t.Error("the panic was lost")
		}
	}()
	both(func(i int) {
		if i == 1 {
			panic("broken")
		}
	})
}

func TestWaitingForCylindersIsAFixAndForWarmthIsNot(t *testing.T) {
	fixes := func(schedule, concrete string) []Fix {
		s := worked.Job(t, "april-creek", [2]string{"invert_age: 5 d, ", schedule}, [2]string{"concrete: {cement: S, strength: 16 MPa, curing: 10 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}", concrete})
		return FindFixes(s, check.Run(s, check.Options{Brief: true}), 3, nil)
	}
	byAge := fixes("invert_age: 5 d, ", "concrete: {cement: S, strength: 16 MPa, curing: 10 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}")
	if len(byAge) != 1 || byAge[0].Key != "schedule.invert_age" || !strings.Contains(byAge[0].Text(), "at 10 degC") {
		t.Errorf("%v", byAge)
	}
	tested := fixes("", "concrete: {invert_strength: 3 MPa, walls_strength: 12 MPa, roof_strength: 21 MPa}")
	if len(tested) != 1 || tested[0].Key != "concrete.invert_strength" || tested[0].To <= 3000 {
		t.Errorf("%v", tested)
	}
	if none := fixes("", "concrete: {cement: S, strength: 16 MPa, curing: 10 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}"); len(none) != 0 {
		t.Errorf("an age that nobody stated is %v", none)
	}
}

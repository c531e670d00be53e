package check

import (
	"regexp"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model/motion"
	"boxwalk/model/units"
)

// Numbers with a unit of either system, as sentences tell them.
var (
	inMetric   = regexp.MustCompile(`[0-9] ?(mm|m|kN|MPa|kPa|kg|t)\b`)
	inImperial = regexp.MustCompile(`[0-9] ?(in|ft|lb|lbf|kip|psi|pcf)\b`)
)

// tells holds that no sentence and no step of a result has a number in foreign
// units, and gives how many sentences have one in its own.
func tells(t *testing.T, job string, r *result.Result, own, foreign *regexp.Regexp) int {
	t.Helper()
	told := 0
	for _, e := range r.Checks {
		for _, text := range []string{e.Text, e.Where.Step} {
			if found := foreign.FindString(text); found != "" {
				t.Errorf("%s: %s, %s tells %q: %s", job, e.ID, e.Subject, found, text)
			}
		}
		if own.MatchString(e.Text) {
			told++
		}
	}
	return told
}

// A sentence tells numbers in the units of the job's files.
func TestSentencesTellTheUnitsOfTheJob(t *testing.T) {
	for _, c := range []struct {
		job          string
		own, foreign *regexp.Regexp
	}{{"heron-creek", inImperial, inMetric}, {"orchard-creek", inMetric, inImperial}} {
		if told := tells(t, c.job, Run(worked.Job(t, c.job), Options{}), c.own, c.foreign); told < 50 {
			t.Errorf("%s: only %d sentences tell a number", c.job, told)
		}
	}
}

// The same jobs told in inches: sentences of what fails, of bends, grade breaks,
// channels and young concrete.
func TestEveryKindOfSentenceIsToldInInches(t *testing.T) {
	for _, job := range []string{"thimblewick", "ridge-lane", "chalk-hill", "weir-street", "april-creek", "otter-brook", "bend-at-joint"} {
		s := jobFile(t, job)
		s.Job.Job.Units = "imperial"
		if told := tells(t, job, Run(s, Options{}), inImperial, inMetric); told < 30 {
			t.Errorf("%s: only %d sentences tell a number", job, told)
		}
	}
}

func TestReasonWhyAnAdvanceCannotBeWorkedOutIsToldInTheUnitsOfTheJob(t *testing.T) {
	// the front wheels 30 ahead of the centre of gravity, which may be 100 off
	c := worked.OnRoute(winding)
	c.Swap = [][2]string{{"[0.3 m, 2.1 m]", "[0.3 m, 1.25 m]"}}
	for _, one := range []struct {
		system       string
		own, foreign *regexp.Regexp
	}{{"metric", inMetric, inImperial}, {"imperial", inImperial, inMetric}} {
		s := c.Study(t)
		s.Job.Job.Units = one.system
		r := Run(s, Options{})
		tells(t, one.system, r, one.own, one.foreign)
		e, ok := checkOf(r, "roll.clear", 1, 1, "advance")
		if !ok || e.Verdict != result.Open || !strings.Contains(e.Text, "centre of gravity") || !one.own.MatchString(e.Text) {
			t.Errorf("%s: %v: %s", one.system, e.Verdict, e.Text)
		}
	}
	sharp := &motion.TooSharp{At: 3.048, Stretch: 6.096, Turn: 1.2}
	if got := (&bay{imperial: true}).halted(sharp); !strings.Contains(got, "within 20.00 ft from 10.00 ft") || !strings.Contains(got, "68.8 deg") {
		t.Error(got)
	}
}

func TestReasonWhyAStepCannotBeMadeIsToldInTheUnitsOfTheJob(t *testing.T) {
	s := chain{Gear: "roof-halves-24", Swap: [][2]string{{"low brace: 590 mm", "low brace: 100 mm"}}}.Study(t)
	s.Job.Job.Units = "imperial"
	r := Run(s, Options{})
	tells(t, "imperial", r, inImperial, inMetric)
	found := false
	for _, e := range r.Checks {
		found = found || e.ID == "setup.range" && strings.Contains(e.Text, `link "low brace left" at 3.94 in cannot close: its pins reach from`)
	}
	if !found {
		t.Error("no check tells that the brace cannot close at 3.94 in")
	}
}

// The formulas refuse numbers in SI; a sentence tells them in the job's units.
// 1000 psi at 28 days is 6.89 MPa, below the weakest class, 12 MPa = 1740 psi.
func TestWhatAFormulaRefusesIsToldInTheUnitsOfTheJob(t *testing.T) {
	for _, one := range []struct {
		system       string
		own, foreign *regexp.Regexp
		want         string
	}{
		{"metric", inMetric, inImperial, "strength is 6.89476 MPa, must lie between"},
		{"imperial", inImperial, inMetric, "strength is 1000 psi, must lie between"},
	} {
		s := jobFile(t, "april-creek")
		s.Job.Job.Units = one.system
		psi := units.Pressure(6.894757)
		strength := 1000 * psi
		s.Job.Concrete.Strength = &strength
		r := Run(s, Options{Only: []string{"roll.bearing"}})
		tells(t, one.system, r, one.own, one.foreign)
		e, ok := checkOf(r, "roll.bearing", 1, 1, "wheels")
		if !ok || e.Verdict != result.Open || !strings.Contains(e.Text, one.want) {
			t.Errorf("%s: %v: %s", one.system, e.Verdict, e.Text)
		}
	}
}

// What a crew reads of steps, cautions, notes and fixes is in the job's units too.
func TestStepsCautionsAndFixesAreToldInTheUnitsOfTheJob(t *testing.T) {
	for _, one := range []struct {
		system       string
		own, foreign *regexp.Regexp
	}{{"metric", inMetric, inImperial}, {"imperial", inImperial, inMetric}} {
		s := jobFile(t, "narrow-filler")
		s.Job.Job.Units = one.system
		r := Run(s, Options{})
		var texts []string
		for _, row := range r.Steps {
			texts = append(texts, row.Name, row.Say, row.Caution)
		}
		texts = append(texts, r.Cautions...)
		told := 0
		for _, text := range texts {
			if found := one.foreign.FindString(text); found != "" {
				t.Errorf("%s tells %q: %s", one.system, found, text)
			}
			if one.own.MatchString(text) {
				told++
			}
		}
		if len(r.Steps) == 0 || told == 0 {
			t.Errorf("%s: %d steps, no text tells a number", one.system, len(r.Steps))
		}
	}
}

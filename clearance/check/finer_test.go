package check

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

var forceOrLength = regexp.MustCompile(`(-?[0-9]+\.[0-9]+) (kN|kip|mm|in)\b`)

// What there is is set to a hundred-thousandth less than what is asked of it, in SI, as
// nobody could write it: the check fails, its sentence tells two numbers that differ,
// the demand the greater, and tells the one the table has.
func TestASentenceOfWhatIsAlmostEnoughTellsTwoNumbers(t *testing.T) {
	const short = 1 - 1e-5
	for _, system := range []string{"metric", "imperial"} {
		for _, c := range []struct {
			id, rest string
			set      func(s *model.Study, v float64)
		}{
			{"roll.wheel", "wheel, standing", func(s *model.Study, v float64) { s.Gear.Wheels.Capacity = units.Force(v) }},
			{"roll.wheel", "wheel, rocking", func(s *model.Study, v float64) { s.Gear.Wheels.Capacity = units.Force(v) }},
			{"setup.jacks", "jack, worst three", func(s *model.Study, v float64) { s.Gear.Jack.Capacity = &job.JackCapacity{Single: units.Force(v)} }},
			{"raise.lift", "load on a lifting jack", func(s *model.Study, v float64) { s.Gear.Lifting.Capacity = units.Force(v) }},
			{"raise.lift", "stroke of a lifting jack", func(s *model.Study, v float64) { s.Gear.Lifting.Stroke = units.Length(v) }},
			{"roll.pull", "winch", func(s *model.Study, v float64) { s.Job.Travel.Capacity = units.Force(v) }},
			{"roll.hold", "restraint", func(s *model.Study, v float64) { s.Job.Travel.Restraint.Capacity = units.Force(v) }},
			{"roll.bend", "scrub", func(s *model.Study, v float64) { s.Gear.Wheels.Side = units.Force(v) }},
			{"roll.bend", "pull round the bend", func(s *model.Study, v float64) { s.Job.Travel.Capacity = units.Force(v) }},
		} {
			s := chain{Job: worked.Bent("1 deg"), Gear: "roof-halves-24", Whole: true}.Study(t)
			s.Job.Job.Units = system
			ask := Options{Only: []string{c.id}, Brief: true}
			e, ok := checkOf(Run(s, ask), c.id, 1, 1, c.rest)
			if !ok || e.Value == nil || e.Value.Upper <= 0 {
				t.Fatalf("%s, %s: %+v", c.id, c.rest, e)
			}
			c.set(s, e.Value.Upper*short)
			e, _ = checkOf(Run(s, ask), c.id, 1, 1, c.rest)
			p := e.Printed((&bay{imperial: system == "imperial"}).system())
			said := forceOrLength.FindAllStringSubmatch(e.Text, -1)
			has, _ := strconv.ParseFloat(said[len(said)-1][1], 64)
			demand, _ := strconv.ParseFloat(p.Value, 64)
			if e.Verdict != result.Fail || demand <= has || !strings.Contains(e.Text, p.Measure.With(p.Value)) {
				t.Errorf("%s, %s, %s: %v, the table has %s against %s: %s", system, c.id, c.rest, e.Verdict, p.Value, p.Limit, e.Text)
			}
		}
	}
}

package check

import (
	"reflect"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model/job"
)

// keysOf are the keys of what a job's Looser list names.
func keysOf(list []result.Looser) string {
	var out []string
	for _, l := range list {
		out = append(out, l.Key)
	}
	return strings.Join(out, " ")
}

func TestADemoOfDefaultsIsNowhereLooser(t *testing.T) {
	s := jobFile(t, "one-pour")
	if list := looserThanDefault(s.Job, s.Gear); len(list) > 0 {
		t.Errorf("looser: %+v", list)
	}
}

func TestWhatAJobSetsLooserIsToldWithBothNumbers(t *testing.T) {
	for _, c := range []struct{ add, key, text string }{
		{"limits: {roll.clear: 10 mm}", "limits.roll.clear", "is 10 mm; the default is 25 mm"},
		{"limits: {roll.clear: 30 mm}", "", ""},
		{"limits: {strip.drag: 5 mm}", "limits.strip.drag", "is 5 mm; the default is 0 mm"},
		{"limits: {strip.clear: {wall: 12 mm}}", "limits.strip.clear.wall", "is 12 mm; the default is 25 mm"},
		{"limits: {strip.release: 0 mm}", "limits.strip.release", "zero, which takes it out of the check; the default is 3 mm"},
		{"tolerance: {jack_level: 1 mm}", "tolerance.jack_level", "is 1 mm; the default is 2.5 mm"},
		{"tolerance: {lag: 20 mm}", "", ""},
		{"tolerance: {plumb: 5 mm}", "tolerance.plumb", "is 5 mm; the default is 7.2 mm"}, // 0.3 % of 2400
		{"tolerance: {plumb: 7.2 mm}", "", ""},
		{"travel: {wander: 5 mm}", "travel.wander", "is 5 mm; the default is 15 mm"},
		{"travel: {breakaway: 1}", "travel.breakaway", "is 1; the default is 2"},
	} {
		add := [2]string{"gear: gear.yaml", c.add + "\ngear: gear.yaml"}
		if keys, ok := strings.CutPrefix(c.add, "travel: {"); ok {
			add = worked.Travels(strings.TrimSuffix(keys, "}"))
		}
		s := chain{Gear: "roof-halves-24", Jobs: [][2]string{add, {"stand: {wind: 0.3 kPa, ", "stand: {"}}}.Study(t)
		list := looserThanDefault(s.Job, s.Gear)
		if keysOf(list) != c.key {
			t.Errorf("%s: looser are %q, want %q", c.add, keysOf(list), c.key)
			continue
		}
		if c.key != "" && !strings.Contains(list[0].Text, c.text) {
			t.Errorf("%s: told as %q, want %q in it", c.add, list[0].Text, c.text)
		}
	}
}

// A limit that a job may set and that nobody compares with its default would be
// loosened in silence.
func TestEveryLimitAJobMaySetHasADefaultToBeComparedWith(t *testing.T) {
	known := map[string]bool{"strip.clear": true}
	for _, d := range defaultLimits() {
		known[d.Key] = true
	}
	of := reflect.TypeFor[job.Limits]()
	for i := range of.NumField() {
		if key := of.Field(i).Tag.Get("yaml"); !known[key] {
			t.Errorf("limits.%s has no default in the table of limits", key)
		}
	}
	zones := reflect.TypeFor[job.ZoneLimits]()
	if zones.NumField() != len(zonesWithLimits) {
		t.Errorf("a job may set the limit of %d zones; %d are compared with the default", zones.NumField(), len(zonesWithLimits))
	}
}

// 10 mm are 0.3937 in.
func TestWhatIsSetLooserIsToldInTheUnitsOfTheJob(t *testing.T) {
	s := jobFile(t, "heron-creek", [2]string{"schedule:", "limits: {roll.clear: 1/2 in}\ntolerance: {lag: 3/8 in}\nschedule:"})
	var said []string
	for _, l := range looserThanDefault(s.Job, s.Gear) {
		said = append(said, l.Text)
	}
	want := "limits.roll.clear is 0.5 in; the default is 0.984 in (judgement)\ntolerance.lag is 0.375 in; the default is 0.394 in (judgement)"
	if got := strings.Join(said, "\n"); !strings.Contains(got, want) {
		t.Errorf("told as\n%s\nwant\n%s", got, want)
	}
}

// 5.5 kg/m2 is 55 with a slip of the digit, and half of the carrier's weight.
func TestPanelsLighterThanPanelsAreAreTold(t *testing.T) {
	s := chain{Gear: "roof-halves-24", Swap: [][2]string{{"mass: 55", "mass: 5.5"}}, Jobs: [][2]string{{"stand: {wind: 0.3 kPa, ", "stand: {"}}}.Study(t)
	list := looserThanDefault(s.Job, s.Gear)
	if keysOf(list) != "wall.mass" || !strings.Contains(list[0].Text, "5.5 kg/m2 of face; panels weigh 40 to 110") {
		t.Errorf("told: %+v", list)
	}
}

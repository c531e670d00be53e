package check

import (
	"boxwalk/clearance/worked"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// The hangers hold is asked for where hangers keep the roof, before ties go; a job
// without them asks for no nuts, in any step of any gear file.
func TestNutsAreSnuggedWhereThereAreHangers(t *testing.T) {
	const hangers = worked.Hangers
	for _, gear := range []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks"} {
		for jobs, want := range map[string]bool{"": false, hangers: true} {
			said := ""
			for _, row := range checked(t, chain{Gear: gear, Jobs: [][2]string{{hangers, jobs}}}).Steps {
				said += strings.Join(append(row.Hold, row.Say, row.Caution), " ") + " "
			}
			if got := strings.Contains(said, "nuts snug") || strings.Contains(said, "hanger nuts"); got != want {
				t.Errorf("%s, hangers %v: %q", gear, want, said)
			}
		}
	}
}

// Treads of 100 on a gauge as wide as wheels never stand run off the slab: no sentence
// speaks of a channel that is not there.
func TestNoSentenceSpeaksOfAChannelThatIsNotThere(t *testing.T) {
	for _, gauge := range []string{"99 m", "4 m", "1800 mm"} {
		r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"gear: gear.yaml", "set: {gauge: " + gauge + "}\ngear: gear.yaml"}}})
		for _, e := range r.Checks {
			if strings.Contains(e.Text+e.Subject.String()+e.Remedy, "channel") {
				t.Errorf("gauge %s: %s, %s: %s; %s", gauge, e.ID, e.Subject, e.Text, e.Remedy)
			}
		}
		if e, _ := find(r, "roll.bearing", "wheels", ""); gauge == "99 m" && (e.Verdict != result.Open || !strings.Contains(e.Text, "no slab")) {
			t.Errorf("gauge %s: %v, %s", gauge, e.Verdict, e.Text)
		}
	}
}

package views

import (
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
)

// sequenceWords are the words under each step of a sequence, in order.
func sequenceWords(list []Named) []string {
	var out []string
	for _, n := range list {
		if !strings.Contains(n.Name, "sequence") {
			continue
		}
		for _, v := range n.Sheet.Views {
			said := ""
			for _, i := range v.Items {
				if text, ok := i.(sheet.Text); ok {
					said += strings.Join(text.Lines, " ") + " "
				}
			}
			out = append(out, said)
		}
	}
	return out
}

// Where a sheet orders how far jacks may get apart going down, it orders what the
// lifting pads may going up, as the list of steps does; and it orders how far
// adjusters may get out of step.
func TestTheSequenceTellsTheDifferencesOfRaisingAndOfAdjusters(t *testing.T) {
	s, r := checked()
	words := sequenceWords(justSheets(t, s, r))
	count := 0
	for k, row := range r.Steps[:len(words)] {
		up := r.Raising[0]
		for _, u := range r.Raising {
			if u.Name == "take back: "+row.Name {
				up = u
			}
		}
		if row.Level != nil {
			if count++; !strings.Contains(words[k], "LEVEL: "+row.Level.Say) || !strings.Contains(words[k], "TAKEN BACK, RAISING: "+up.Level.Say) {
				t.Errorf("step %d says %q", k+1, words[k])
			}
		}
		if row.Lag != nil {
			if count++; !strings.Contains(words[k], "IN STEP: "+row.Lag.Say) {
				t.Errorf("step %d says %q", k+1, words[k])
			}
		}
	}
	if count < 4 {
		t.Errorf("%d differences are told", count)
	}
}

// A raising that fails any of its checks is no order to raise: the sheet says so, for
// the pour it shows and for those it stands for.
func TestTheSequenceSaysWhereARaisingIsNotProved(t *testing.T) {
	s, r := checked()
	weak := *r
	weak.Raising = append([]result.RaisingRow(nil), r.Raising...)
	for i := range weak.Raising {
		weak.Raising[i].Unproved = []string{"raise.clear, raising"}
		weak.Raising[i].Pour += 4 // another that the sheet stands for
	}
	missed := 0
	for _, words := range sequenceWords(justSheets(t, s, &weak)) {
		if !strings.Contains(words, "NOT PROVED at pour 5 (raise.clear, raising)") {
			missed++
		}
	}
	if missed > len(r.Steps)-len(r.Raising) {
		t.Errorf("%d steps do not say it", missed)
	}
}

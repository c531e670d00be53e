package check

import (
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// What is asked for alone has the entries that it has among all, where nothing else is
// measured and judged.
func TestACheckAskedForAloneHasTheEntriesOfAllChecks(t *testing.T) {
	for _, name := range []string{"one-pour", "quarry-lane", "arms-first"}[:worked.Campaign(1, 3)] {
		s := jobFile(t, name)
		whole := map[string][]result.Entry{}
		for _, e := range Run(s, Options{Brief: true}).Checks {
			whole[e.ID] = append(whole[e.ID], e)
		}
		for i := 0; i < len(table); i += worked.Campaign(4, 1) {
			id := table[i].ID
			got := Run(s, Options{Brief: true, Only: []string{id}}).Checks
			if len(got) != len(whole[id]) {
				t.Errorf("%s, %s: %d entries alone, %d among all", name, id, len(got), len(whole[id]))
				continue
			}
			for k, e := range whole[id] {
				if !alikeEntries(e, got[k]) || e.Remedy != got[k].Remedy {
					t.Errorf("%s, %s %s:\nalone: %v %v %s\namong all: %v %v %s", name, id, e.Subject, got[k].Verdict, shown(got[k]), got[k].Text, e.Verdict, shown(e), e.Text)
				}
			}
		}
	}
}

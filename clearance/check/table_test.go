package check

import (
	"reflect"
	"testing"

	"boxwalk/clearance/worked"
	"boxwalk/model/job"
)

// What a check judges are entries of its own; each check of the table is judged on some
// job, and nothing is judged that the table does not have.
func TestEveryCheckOfTheTableIsJudgedAndNothingElseIs(t *testing.T) {
	judged := map[string]bool{}
	for _, name := range []string{"bend-at-joint", "orchard-creek", "arms-first"} {
		s := worked.Job(t, name)
		for _, r := range Examine(s, Options{Brief: true}).Bays {
			if r == nil {
				continue
			}
			for i := range table {
				c := &table[i]
				for _, e := range c.at(r, s) {
					judged[c.ID] = true
					if e.ID != c.ID {
						t.Errorf("%s: %s judges %s", name, c.ID, e.ID)
					}
				}
			}
		}
	}
	for _, id := range IDs() {
		if !judged[id] {
			t.Errorf("%s is explained and judged nowhere", id)
		}
	}
}

// The keys of limits in the table are those of the job file.
func TestEveryLimitOfTheTableWithAKeyIsOneOfTheJobFile(t *testing.T) {
	inFile := map[string]bool{}
	group := reflect.TypeFor[job.Limits]()
	for i := range group.NumField() {
		if key := group.Field(i).Tag.Get("yaml"); key != "" {
			inFile[key] = true
		}
	}
	inTable := map[string]bool{}
	for _, l := range defaultLimits() {
		if l.Key != "" {
			inTable[l.Key] = true
		}
	}
	if !reflect.DeepEqual(inFile, inTable) {
		t.Errorf("the job file has %v, the table %v", inFile, inTable)
	}
}

package check

import (
	"strings"
	"testing"

	"boxwalk/clearance/worked"
)

func TestAForceSaysWhoseItsCoefficientsAre(t *testing.T) {
	source := func(travel, id, rest string) string {
		var jobs [][2]string
		if travel != "" {
			jobs = [][2]string{worked.Travels(travel)}
		}
		c, ok := checkOf(checked(t, chain{Gear: "roof-halves-24", Jobs: jobs}), id, 1, 1, rest)
		if !ok {
			t.Fatalf("no %s", id)
		}
		return c.Source
	}
	for _, c := range []struct{ travel, id, rest, want string }{
		{"", "roll.pull", "winch", "travel.rolling.most, default: judgement; travel.breakaway, default: judgement; capacity: travel.capacity, permissible, plates of winch and restraint"},
		{"rolling: {most: 0.03}", "roll.pull", "winch", "travel.rolling.most: the job; travel.breakaway, default: judgement; capacity: travel.capacity, permissible, plates of winch and restraint"},
		{"rolling: {most: 0.02}, breakaway: 2", "roll.pull", "winch", "travel.rolling.most: the job (equal to the default); travel.breakaway: the job (equal to the default); capacity: travel.capacity, permissible, plates of winch and restraint"},
		{"", "roll.hold", "restraint", "travel.rolling.least, default: the safe end"},
		{"rolling: {least: 0.005, source: pull test}", "roll.hold", "restraint", "travel.rolling.least: the job"},
	} {
		if got := source(c.travel, c.id, c.rest); !strings.Contains(got, c.want) {
			t.Errorf("%s with %q: %q, want %q in it", c.id, c.travel, got, c.want)
		}
	}
}

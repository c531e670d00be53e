package check

import (
	"math"
	"testing"

	"boxwalk/clearance/worked"
)

// Where a carrier ends its way it stands for the next pour: the two rows are of one
// place. Stations are measured in plan, the way along the inverts, which over 8 m at
// 5 % is 10 mm longer.
func TestTheWayEndsAtTheStationWhereTheNextOneBegins(t *testing.T) {
	for _, c := range []struct {
		plan    string
		in, out float64
	}{{worked.Tangent, -5, -5}, {worked.Tangent, -5, 3}, {worked.Left1, 4, 6}} {
		s := worked.Chain{Gear: "roof-halves-24", Whole: true, Job: worked.Breaking(c.plan, c.in, c.out)}.Study(t)
		r := Run(s, Options{Only: []string{"roll"}})
		first, second := alongOf(r, 1, 1), alongOf(r, 1, 2)
		ends, begins := first[len(first)-1].Station, second[0].Station
		if math.Abs(ends-begins) > 1e-4 {
			t.Errorf("%g %% to %g %%: ends at %.4f m, the next begins at %.4f m", c.in, c.out, ends, begins)
		}
	}
}

// A carrier that is moved over before it rolls stands somewhere then: the first place of
// its way has gaps as every other.
func TestTheFirstPlaceOfAWayThatBeginsAsideHasItsGaps(t *testing.T) {
	r := Run(worked.Job(t, "thimblewick"), Options{Only: []string{"roll"}})
	if row := alongOf(r, 1, 1)[0]; len(row.Gaps) < 5 {
		t.Errorf("%d gaps at the beginning", len(row.Gaps))
	}
}

package job

import (
	"reflect"
	"strings"
	"testing"
)

// orderOf reads the order of a job with two cells and three pours.
func orderOf(t *testing.T, order string) (*Job, string) {
	t.Helper()
	text := []byte("job: {name: x}\nculvert:\n  cells: 2\n  span: 3 m\n  rise: 2.4 m\n  roof: 300 mm\n  invert: 300 mm\n  outer_wall: 250 mm\n  pours: [9 m, 9 m, 9 m]\n  order: " + order + "\ngear: gear.yaml\n")
	j, _, problems := Decode[Job]("job.yaml", text, PeekSystem(text))
	return j, problems.Error()
}

func TestOrderRanksEachCellByItsOwnCastings(t *testing.T) {
	for order, want := range map[string][][]int{
		"ahead":     {{1, 2, 3}, {1, 2, 3}},
		"[1, 3, 2]": {{1, 3, 2}, {1, 3, 2}},
		"[1, {cell: 2, pour: 2}, {cell: 1, pour: 2}, 3]": {{1, 3, 4}, {1, 2, 4}},
	} {
		j, problems := orderOf(t, order)
		if j == nil {
			t.Fatal(problems)
		}
		if got := j.Culvert.Order.Ranks(2, 3); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v, want %v", order, got, want)
		}
	}
}

func TestOrderThatCannotBeCastSaysWhichPourOfWhichCell(t *testing.T) {
	for order, want := range map[string]string{
		"[1, 2, {cell: 1, pour: 3}]":    "does not say when pour 3 of cell 2 is cast",
		"[1, 2, 3, {cell: 1, pour: 3}]": "names pour 3 of cell 1, which it named before",
		"[1, {cell: 1, pour: 2}, 2, 3]": "names pour 2, which it named before",
		"[1, 2, {cell: 3, pour: 3}]":    "names cell 3, which is not there",
		"[1, 2, {cell: 1, pour: 4}]":    "names pour 4, which is not there",
		"[1, 2, {cell: 1}]":             "the key pour is missing",
		"[1, 2, [1, 3]]":                "is a list; a whole number is expected",
		"[1, 2]":                        "names 2 of 3 pours",
		"[{cell: 1, pour: 1}, {cell: 1, pour: 2}, {cell: 1, pour: 3}]": "does not say when pour 1 of cell 2 is cast",
	} {
		j, problems := orderOf(t, order)
		if j != nil || !strings.Contains(problems, want) {
			t.Errorf("%s: %q, want %q", order, problems, want)
		}
	}
}

package fix

import (
	"reflect"
	"slices"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
)

func TestACheckIsMendedByItselfAndSaysWhatThenBreaks(t *testing.T) {
	// brow-lane: the crest wants the plates 12 mm higher than the 60 of the last
	// step, 60 + 12 = 72; the jacks go to 140, the wheels touch at 210: 70
	if worked.Campaign(0, 1) == 0 {
		t.Skip("looks for fixes of every dimension: with BOXWALK_CAMPAIGN=long")
	}
	s := worked.Job(t, "brow-lane")
	r := check.Run(s, check.Options{Brief: true})
	fixes := AllFixes(s, r, 3, nil)
	if len(fixes) != 1 {
		t.Fatalf("%v", fixes)
	}
	c := fixes[0]
	if c.Check != "roll.clear" || c.Whole || !reflect.DeepEqual(c.Breaks, []string{"setup.range"}) || c.dimension.turned != "raise jack plates" {
		t.Errorf("%+v", c.Row())
	}
	with := func(v float64) []string {
		changed, troubles := model.Build(c.dimension.at(s.Job, s.Gear, v))
		if len(troubles) > 0 {
			t.Fatal(troubles)
		}
		return fallen(check.Run(changed, check.Options{Brief: true}))
	}
	if after := with(c.To); slices.Contains(after, "roll.clear") || !slices.Contains(after, "setup.range") {
		t.Errorf("%s leaves %v", c.Text(), after)
	}
	if !slices.Contains(with(c.To+c.Step), "roll.clear") {
		t.Errorf("%s: a step less does as well", c.Text())
	}
}

func TestEachOfTwoFailingChecksIsMendedByItself(t *testing.T) {
	// no restraint on 6 %, and an invert of four and a half days of slow cement, 3.7 MPa:
	// neither mends the other. A wheel wants 1.6 x 20.38 = 32.6 kN on 60 x 100 mm, more
	// than the invert bears there; a jack plate while the roof is poured
	// 1.6 x 33.19 = 53.1 kN on 150 x 150 mm, 3.75 times the area, which it bears
	s := worked.Job(t, "chalk-hill", [2]string{"invert_age: 7 d", "invert_age: 4.5 d"}, [2]string{"strength: 30 MPa, cement: N, curing: 14 degC", "strength: 16 MPa, cement: S, curing: 14 degC"})
	r := check.Run(s, check.Options{Brief: true})
	if got := fallen(r); !reflect.DeepEqual(got, []string{"roll.hold", "roll.bearing"}) {
		t.Fatalf("%v", got)
	}
	var by []string
	for _, c := range AllFixes(s, r, 3, nil) {
		by = append(by, c.Check+" "+c.Key)
		if len(c.Breaks) > 0 || c.Whole {
			t.Errorf("%+v", c.Row())
		}
	}
	if want := []string{"roll.hold travel.restraint.capacity", "roll.bearing schedule.invert_age"}; !reflect.DeepEqual(by, want) {
		t.Errorf("%v, want %v", by, want)
	}
}

func TestAPortionOfAChecksWorkSaysWhatTheWholeCheckSays(t *testing.T) {
	for _, name := range []string{"brow-lane", "arms-first", "weir-street", "otter-brook"} {
		s := worked.Job(t, name)
		r := check.Run(s, check.Options{Brief: true})
		for _, of := range []check.Part{check.Unsearched, check.Strips, check.Raises, check.Advances, check.Poured} {
			want, got := map[string]result.Verdict{}, map[string]result.Verdict{}
			for _, c := range r.Checks {
				if check.PartOf(c.ID) == of {
					want[c.ID+" "+c.Subject.String()] = c.Verdict
				}
			}
			for _, c := range check.PartAlone(s, of) {
				got[c.ID+" "+c.Subject.String()] = c.Verdict
				if v, ok := want[c.ID+" "+c.Subject.String()]; !ok || v != c.Verdict {
					t.Errorf("%s, %s %s: %v by itself, %v in the whole", name, c.ID, c.Subject, c.Verdict, v)
				}
			}
			if len(got) == 0 || ((of == check.Unsearched || of == check.Poured) && len(got) != len(want)) {
				t.Errorf("%s: %d entries of %d", name, len(got), len(want))
			}
		}
	}
}

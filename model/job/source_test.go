package job

import "testing"

func TestEveryDefaultThatIsANumberStatesItsSource(t *testing.T) {
	for name, found := range map[string][]Default{"job": Defaults[Job](), "gear": Defaults[Gear]()} {
		if len(found) < 15 {
			t.Errorf("%s: only %d numeric defaults found", name, len(found))
		}
		for _, d := range found {
			if d.Source == "" {
				t.Errorf("%s: %s has a number as its default and no source tag; write source:\"judgement\" where it is that", name, d.Key)
			}
		}
	}
}

func TestASaferSideIsMoreOrLess(t *testing.T) {
	for _, d := range append(Defaults[Job](), Defaults[Gear]()...) {
		if d.Safer != "" && d.Safer != "more" && d.Safer != "less" {
			t.Errorf("%s: safer:%q is neither more nor less", d.Key, d.Safer)
		}
	}
}

func TestANumberOnTheEasySideOfItsDefaultIsLooser(t *testing.T) {
	j := Job{Travel: Travel{Wander: 0.010, Breakaway: 2, Rolling: Rolling{Least: 0.01, Most: 0.03}, Scrub: 0.8}}
	looser := map[string]bool{}
	for _, c := range Choices(&j) {
		looser[c.Key] = c.Looser()
	}
	for key, want := range map[string]bool{"travel.wander": true, "travel.breakaway": false, "travel.rolling.least": true, "travel.rolling.most": false} {
		if got, ok := looser[key]; !ok || got != want {
			t.Errorf("%s: looser %v (found %v), want %v", key, got, ok, want)
		}
	}
	if _, ok := looser["left_in_place.steel_ahead.lean"]; ok {
		t.Error("a group that the job leaves out has a choice")
	}
}

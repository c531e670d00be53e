package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// bondOf are the entries of the bond at the first bay.
func bondOf(s *model.Study) []result.Entry {
	r := reportsOf(s, Options{Brief: true}, measure.Ask{})[0]
	return entries(r.judgeAll(s, false, func(c *Check) bool { return c.ID == "break.bond" }))
}

// Statics of the wall panel on its hinge: the bond q on the face from its foot to its top
// turns it out about the hinge, the low brace in, by its lever. The way in of the check is
// virtual work.
func TestTheLowBraceHoldsTheMomentOfTheBondAboutTheHinge(t *testing.T) {
	for _, gear := range []string{"roof-halves-24", "roof-halves-43"} {
		c := chain{Gear: gear}
		if gear == "roof-halves-43" {
			c.Job = worked.Cell43
		}
		s := c.Study(t)
		b, g := s.Bays[0], s.Gear
		hinge := [2]float64{b.Cell.HalfSpan - float64(g.Hinge.Behind), b.Carrier.PlaneTop + float64(g.Hinge.Above)}
		moment, length := 0.0, float64(g.Form.Length)
		for _, p := range b.Carrier.Parts {
			if p.Role == carrier.WallPanel && p.Side == culvert.Left {
				z := p.Box()
				moment += p.Face * (hinge[1] - (z.Min[2]+z.Max[2])/2)
			}
		}
		var lever float64
		for _, l := range b.Carrier.Mechanism.Links {
			if l.Name == "low brace left" {
				u, w := l.PinB[1]-l.PinA[1], l.PinB[2]-l.PinA[2]
				lever = math.Abs(u*(hinge[1]-l.PinA[2])-w*(hinge[0]-l.PinA[1])) / math.Hypot(u, w)
			}
		}
		e := bondOf(s)[0]
		want := 2 * moment / length * 1.2 / lever // 2 kPa, bents 1.2 apart
		if math.Abs(e.Value.Upper-want) > 1e-3*want || e.Verdict != result.Pass {
			t.Errorf("%s: %v, want %.4f kN: %s", gear, e.Value, want, e.Text)
		}
		says(t, e, "one low brace pulls", "estimate")
	}
}

// A draw screw pulls straight: bond times face, as far as one bent draws it, and its
// corner panel with it, which comes off its haunch of 45 degrees by 1/sqrt 2 of the way.
func TestTheDrawScrewPullsTheBondOfItsFace(t *testing.T) {
	s := chain{Gear: "roof-whole-24"}.Study(t)
	b, length := s.Bays[0], float64(s.Gear.Form.Length)
	fall, faces := float64(s.Gear.Slide.Fall), 0.0
	along := math.Hypot(1, fall) // of the track, for each metre across
	for _, p := range b.Carrier.Parts {
		switch {
		case p.Side != culvert.Left:
		case p.Role == carrier.WallPanel:
			faces += p.Face
		case p.Role == carrier.CornerPanel:
			faces += p.Face * (1 + fall) / math.Sqrt2
		}
	}
	e := bondOf(s)[0]
	for _, per := range []float64{1, 1 / along} { // the screw is read across, or along the track
		if want := 2 * faces * per / length * 1.2; math.Abs(e.Value.Upper-want) < 1e-3*want {
			return
		}
	}
	t.Errorf("%v, want about %.3f: %s", e.Value, 2*faces/length*1.2, e.Text)
}

func TestABondBeyondWhatPullsFailsAndAnUnstatedPullIsOpen(t *testing.T) {
	weak := chain{Gear: "roof-halves-24", Swap: [][2]string{{"low brace: 25 kN", "low brace: 2 kN"}}}
	if e := bondOf(weak.Study(t))[0]; e.Verdict != result.Fail {
		t.Errorf("%v: %s", e.Verdict, e.Text)
	}
	none := chain{Gear: "roof-halves-24", Swap: [][2]string{{"pulls: {low brace: 25 kN, turnbuckle: 25 kN}\n", ""}}}
	opens(t, bondOf(none.Study(t))[0], "pulls.low brace")
	// the roof: 20 kPa hold more than it weighs, from 0 to 20 nobody knows
	for bond, want := range map[string]result.Verdict{"{least: 19 kPa, most: 20 kPa}": result.Fail, "{least: 0 kPa, most: 20 kPa}": result.Open, "{least: 0 kPa, most: 0.1 kPa}": result.Pass} {
		s := chain{Gear: "roof-halves-24", Jobs: [][2]string{{"release: {", "release: {bond: " + bond + ", "}}}.Study(t)
		e := bondOf(s)[1]
		if e.Verdict != want || !strings.Contains(e.Text, "jacks push and do not pull") {
			t.Errorf("%s: %v, want %v: %s", bond, e.Verdict, want, e.Text)
		}
	}
}

// Roof jacks between header and roof draw it down; without what they pull only the weight
// of the roof is left, which a bond of up to 2 kPa may hold.
func TestRoofJacksDrawTheRoofDown(t *testing.T) {
	with := bondOf(chain{Gear: "roof-whole-24-jacks"}.Study(t))
	if len(with) != 2 || with[0].Subject.What != "draw screw" || with[0].Verdict != result.Pass {
		t.Errorf("%+v", with)
	}
	last := with[len(with)-1]
	if last.Subject.What != "roof" || last.Verdict != result.Pass {
		t.Errorf("%v: %s", last.Verdict, last.Text)
	}
	says(t, last, "roof jack pull it down")
	without := bondOf(chain{Gear: "roof-whole-24-jacks", Swap: [][2]string{{", roof jack: 15 kN", ""}}}.Study(t))
	if e := without[len(without)-1]; e.Verdict != result.Open {
		t.Errorf("%v: %s", e.Verdict, e.Text)
	}
}

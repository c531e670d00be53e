package assembly

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/worked"
	"boxwalk/model/carrier"
)

// marks are the pieces of a role.
func marks(a Assembly, role carrier.Role) int {
	n := 0
	for _, g := range a.Groups {
		for _, p := range g.Pieces {
			if !g.Still && p.Role == role {
				n++
			}
		}
	}
	return n
}

func TestRaisedHasEveryPartAndCollapsedNoFiller(t *testing.T) {
	s := worked.Job(t, "one-pour")
	b := &s.Bays[0]
	up, down := Of(b, Raised), Of(b, Collapsed(b))
	if marks(up, carrier.Filler) == 0 || marks(up, carrier.Tie) == 0 || marks(down, carrier.Filler) != 0 || marks(down, carrier.Tie) != 0 {
		t.Errorf("raised %d fillers and %d ties, collapsed %d and %d", marks(up, carrier.Filler), marks(up, carrier.Tie), marks(down, carrier.Filler), marks(down, carrier.Tie))
	}
	if up.Name != "cell 1, pour 1, raised" || down.Name != "cell 1, pour 1, collapsed" {
		t.Errorf("%q, %q", up.Name, down.Name)
	}
}

// Collapsed, the frame of the demo is lower by what its jacks were turned: 330 to 210 mm,
// then the plates go up and the wheels carry.
func TestTheFrameIsLowerByWhatItsJacksWereTurned(t *testing.T) {
	s := worked.Job(t, "one-pour")
	b := &s.Bays[0]
	for _, g := range Of(b, Collapsed(b)).Groups {
		if g.Name == "frame" && math.Abs(g.Pose.T[2]+0.120) > 1e-9 {
			t.Errorf("the frame stands at %g m", g.Pose.T[2])
		}
	}
}

func TestAStateThatThereIsNotIsToldWithThoseThatThereAre(t *testing.T) {
	s := worked.Job(t, "one-pour")
	b := &s.Bays[0]
	for _, step := range b.Steps {
		if at, err := Named(b, step.Name); err != nil || at.Share != 1 || b.Steps[at.Step].Name != step.Name {
			t.Errorf("%s: %+v, %v", step.Name, at, err)
		}
	}
	if _, err := Named(b, "sideways"); err == nil || !strings.Contains(err.Error(), `"down"`) || !strings.Contains(err.Error(), "governing") {
		t.Errorf("%v", err)
	}
}

// Where the carrier governs is where the worst of its collapse has its place.
func TestTheGoverningStateIsWhereTheWorstOfTheCollapseIs(t *testing.T) {
	s := worked.Job(t, "arms-first")
	b := &s.Bays[0]
	r := check.Run(s, check.Options{Brief: true})
	at, ok := Governing(b, r)
	if !ok {
		t.Fatal("nothing governs")
	}
	for _, e := range r.Checks {
		if e.ID == "strip.dig" && e.Where.Frame == b.Name() && e.Where.A != nil {
			if b.Steps[at.Step].Name != e.Where.Step || at.Share != e.Where.At {
				t.Errorf("%+v, the worst dig is in %s at %g", at, e.Where.Step, e.Where.At)
			}
			break
		}
	}
}

func TestPartsOfSeveralSolidsAreOnePiece(t *testing.T) {
	b := &worked.Job(t, "four-cells").Bays[0]
	pieces, solids := 0, 0
	for _, g := range Of(b, Raised).Groups {
		for _, p := range g.Pieces {
			if !g.Still {
				pieces, solids = pieces+1, solids+len(p.Solids)
			}
		}
	}
	whole := 0
	for _, p := range b.Carrier.Parts {
		if p.Piece < 2 {
			whole++
		}
	}
	if pieces != whole || solids != len(b.Carrier.Parts) {
		t.Errorf("%d pieces of %d, %d solids of %d", pieces, whole, solids, len(b.Carrier.Parts))
	}
}

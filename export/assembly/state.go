package assembly

import (
	"fmt"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// State is a moment of the collapse: a share of the way through a step, by its place
// among the steps. Before the first of them the carrier is raised.
type State struct {
	Name  string // in words, for the file's title
	Step  int
	Share float64
}

// Raised is the carrier set for the pour.
var Raised = State{Name: "raised", Step: -1, Share: 1}

// Collapsed is the end of the last step that can be made, one after the other.
func Collapsed(b *model.Bay) State {
	at := Raised
	for k, s := range b.Steps {
		if s.Stop != nil {
			break
		}
		at = end(k, s.Name)
	}
	if at.Step == len(b.Steps)-1 && at.Step >= 0 {
		at.Name = "collapsed"
	}
	return at
}

func end(step int, name string) State { return State{Name: "end of " + name, Step: step, Share: 1} }

// Governing is where the worst of what is measured in the collapse of a bay is reached,
// in the order in which results have it: what fails first, then the least margin. False
// where nothing was measured there.
func Governing(b *model.Bay, r *result.Result) (State, bool) {
	var best *result.Entry
	for i := range r.Checks {
		e := &r.Checks[i]
		if e.Where.Frame != b.Name() || !strings.HasPrefix(e.ID, "strip.") || e.Where.A == nil || e.Margin == nil || stepOf(b, e.Where.Step) < 0 {
			continue
		}
		if best == nil || *e.Margin < *best.Margin {
			best = e
		}
	}
	if best == nil {
		return State{}, false
	}
	name := fmt.Sprintf("%s governs in %s", best.ID, best.Where.Step)
	return State{Name: name, Step: stepOf(b, best.Where.Step), Share: best.Where.At}, true
}

// Named finds a state by what a user calls it: raised, collapsed, or a step, whose end
// it then is. An error lists what there is.
func Named(b *model.Bay, name string) (State, error) {
	switch name {
	case "raised":
		return Raised, nil
	case "collapsed":
		return Collapsed(b), nil
	}
	k := stepOf(b, name)
	if k < 0 {
		return State{}, fmt.Errorf("there is no state %q of %s; there are raised, %scollapsed, governing", name, b.Name(), listed(b))
	}
	if last := Collapsed(b); k > last.Step {
		return State{}, fmt.Errorf("step %q of %s cannot be reached: %s", name, b.Name(), "a step up to it cannot be made")
	}
	return end(k, name), nil
}

func listed(b *model.Bay) string {
	out := ""
	for _, s := range b.Steps {
		out += fmt.Sprintf("%q, ", s.Name)
	}
	return out
}

func stepOf(b *model.Bay, name string) int {
	for k, s := range b.Steps {
		if s.Name == name {
			return k
		}
	}
	return -1
}

// pose takes a body from where it is raised to where it is in the state.
func (s State) pose(b *model.Bay, body int) geom.Pose {
	for k := s.Step; k >= 0; k-- {
		if path := b.Steps[k].Path; path != nil {
			share := 1.0
			if k == s.Step {
				share = s.Share
			}
			return path.Pose(motion.Ground, body, share)
		}
	}
	return geom.Identity()
}

// present tells whether a part is there in the state.
func (s State) present(b *model.Bay, p carrier.Part) bool {
	switch {
	case s.Step < 0:
		return true
	case s.Share < 1:
		return b.Steps[s.Step].Present(p)
	}
	return b.Steps[s.Step].PresentAfter(p)
}

package carrier

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// Move is one adjuster's reading over a step.
type Move struct {
	Adjuster int // place in Carrier.Adjusters
	From, To float64
	// Least and Most enclose everything read on the way.
	Least, Most float64
}

// Moves tells whether the reading changes at all during the step.
func (m Move) Moves() bool { return m.Most-m.Least > 1e-9 }

// Step is one step of the collapse or of raising, laid out.
type Step struct {
	Name    string
	Say     string
	Caution string
	Removes []string // what comes off before anything moves
	Moves   []Move   // every adjuster, in the order of Carrier.Adjusters
	Carried bool     // wheels carry from the end of this step
	Path    *motion.Path
	Stop    *Words          // why the step cannot be made at all, Path being nil then; nil if it can
	Blocked *motion.Blocked // the link that stops it
	Locked  []Lock          // followers left locked that would have to move
	gone    map[Role]bool
	still   map[Role]bool
}

// Lock is a follower left locked in a step that moves it.
type Lock struct {
	Adjuster int
	Need     float64 // length it must give at the end of the step
	Give     float64 // largest change on the way
}

// Present tells whether a part is still there while the step moves.
func (s Step) Present(p Part) bool { return !s.gone[p.Role] }

// PresentAfter tells whether a part is there when the step is done.
func (s Step) PresentAfter(p Part) bool { return s.Present(p) && !s.still[p.Role] }

// lockSlack is how much a locked link may be asked to give before the step
// counts as blocked: the play of two pins, judgement.
const lockSlack = 1e-3

// state is the reading of every adjuster, in the order of Carrier.Adjusters.
type state []float64

// Raised readings.
func (c *Carrier) raised() state {
	out := make(state, len(c.Adjusters))
	for i, a := range c.Adjusters {
		out[i] = a.Raised
	}
	return out
}

// Lay lays the steps out one after the other from raised. Names that the gear
// does not have are problems, with keys below the list of steps; a step that
// cannot be made is a Step with Stop.
func (c *Carrier) Lay(steps []job.Step) ([]Step, diag.Problems) {
	var out []Step
	var problems diag.Problems
	at := c.raised()
	gone := map[Role]bool{}
	for i, js := range steps {
		to, p := c.targets(fmt.Sprintf("[%d]", i), js, at)
		problems = append(problems, p...)
		for _, part := range c.split(at, to) {
			s := c.lay(js, part.from, part.to, gone)
			s.Name += part.suffix
			out = append(out, s)
			gone = c.after(s)
			js.Removes = nil
		}
		at = to
	}
	return out, problems
}

// after is what has come off when a step is done.
func (c *Carrier) after(s Step) map[Role]bool {
	gone := map[Role]bool{}
	for r := range s.gone {
		gone[r] = true
	}
	for r := range s.still {
		gone[r] = true
	}
	return gone
}

// removable names what a step can take off.
var removable = map[string]Role{"fillers": Filler, "ties": Tie}

// irremovable are the names of a step that nothing can be taken off by.
func irremovable(path string, js job.Step) diag.Problems {
	var out diag.Problems
	for i, name := range js.Removes {
		if _, ok := removable[name]; !ok {
			out = append(out, diag.Problem{Key: fmt.Sprintf("%s.removes[%d]", path, i), Summary: fmt.Sprintf("%q cannot be removed", name), Fix: "one of fillers, ties"})
		}
	}
	return out
}

// targets is the reading of every driver at the end of a step.
func (c *Carrier) targets(path string, js job.Step, at state) (state, diag.Problems) {
	to := append(state(nil), at...)
	var problems diag.Problems
	for _, name := range job.SortedKeys(js.Drivers) {
		hit := false
		for k, a := range c.Adjusters {
			if a.sets == follows || (a.Name != name && a.Label() != name) {
				continue
			}
			hit = true
			to[k] = c.reading(a, js.Drivers[name])
		}
		if !hit {
			problems = append(problems, c.unknown(path+".drivers."+name, "driver", name, func(a Adjuster) bool { return a.sets != follows }))
		}
	}
	for i, name := range js.Locked {
		if len(c.named(name, true)) == 0 {
			problems = append(problems, c.unknown(fmt.Sprintf("%s.locked[%d]", path, i), "follower", name, Adjuster.Follows))
		}
	}
	return to, append(problems, irremovable(path, js)...)
}

// unknown is the problem with a name, listing those that would do.
func (c *Carrier) unknown(path, what, name string, fits func(Adjuster) bool) diag.Problem {
	list := ""
	seen := map[string]bool{}
	for _, a := range c.Adjusters {
		if fits(a) && !seen[a.Name] {
			seen[a.Name] = true
			if list != "" {
				list += ", "
			}
			list += a.Name
		}
	}
	return diag.Problem{Key: path, Summary: fmt.Sprintf("this gear has no %s called %q", what, name),
		Fix: fmt.Sprintf("one of %s, with ` left` or ` right` behind it for one side", list)}
}

// named lists adjusters by name with or without side.
func (c *Carrier) named(name string, followers bool) []int {
	var out []int
	for k, a := range c.Adjusters {
		if a.Follows() == followers && (a.Name == name || a.Label() == name) {
			out = append(out, k)
		}
	}
	return out
}

// reading is what a target asks of an adjuster.
func (c *Carrier) reading(a Adjuster, t job.Target) float64 {
	switch t.From {
	case "raised":
		return a.Raised + float64(t.By)
	case "wheels":
		return c.Wheels + float64(t.By)
	}
	return float64(t.By)
}

// leg of a step: the part of it over which nothing changes hands.
type legOfStep struct {
	from, to state
	suffix   string
}

// split parts a step in which the load passes from jacks to wheels: first down
// to the wheels, then the plates up.
func (c *Carrier) split(from, to state) []legOfStep {
	mid := append(state(nil), to...)
	crosses := false
	for k, a := range c.Adjusters {
		if a.sets == byJack && (from[k]-c.Wheels)*(to[k]-c.Wheels) < -1e-15 {
			mid[k], crosses = c.Wheels, true
		}
	}
	if !crosses {
		return []legOfStep{{from: from, to: to}}
	}
	for k, a := range c.Adjusters {
		if a.sets != byJack {
			mid[k] = from[k]
		}
	}
	return []legOfStep{{from: from, to: mid, suffix: ", to the wheels"}, {from: mid, to: to, suffix: ", plates"}}
}

// lay lays one step out.
func (c *Carrier) lay(js job.Step, from, to state, gone map[Role]bool) Step {
	s := Step{Name: js.Step, Say: js.Say, Caution: js.Caution, Removes: js.Removes, gone: map[Role]bool{}, still: map[Role]bool{}}
	for r := range gone {
		s.gone[r] = true
	}
	for _, name := range js.Removes {
		if role := removable[name]; role == Filler {
			s.still[role] = true
		} else {
			s.gone[role] = true
		}
	}
	s.Stop = c.impossible(from, to)
	var path *motion.Path
	if s.Stop == nil {
		var err error
		path, err = motion.NewPath(c.Mechanism, c.drive(from, to, s.still[Filler]))
		s.Stop, s.Blocked = blocked(err)
	}
	if s.Stop != nil {
		s.Moves = make([]Move, len(c.Adjusters))
		for k := range s.Moves {
			s.Moves[k] = Move{Adjuster: k, From: from[k], To: to[k], Least: math.Min(from[k], to[k]), Most: math.Max(from[k], to[k])}
		}
		return s
	}
	s.Path = path
	s.Carried = c.carried(to)
	s.Moves = c.moves(path, from, to)
	s.Locked = c.locked(js, s.Moves)
	return s
}

// blocked says why a path is none.
func blocked(err error) (*Words, *motion.Blocked) {
	if err == nil {
		return nil, nil
	}
	why := words("%s", err.Error())
	var b *motion.Blocked
	if errors.As(err, &b) {
		reach := []any{metres(b.Length), metres(b.Least), metres(b.Most)}
		why = words("link %q at %s cannot close: its pins reach from %s to %s", append([]any{b.Link}, reach...)...)
		if b.DeadCentre {
			why = words("link %q comes within sine %.2f of dead centre at %s (it reaches from %s to %s)", append([]any{b.Link, motion.DeadCentre}, reach...)...)
		}
	}
	return &why, b
}

// impossible is nil where readings describe a carrier at all: every link that
// drives has a length, and the jacks lean the frame by less than it is wide.
func (c *Carrier) impossible(states ...state) *Words {
	for _, at := range states {
		var jacks []float64
		for k, a := range c.Adjusters {
			switch {
			case a.sets == byLink && at[k] < leastApart:
				why := words("%s cannot be %s long", a.Label(), metres(at[k]))
				return &why
			case a.sets == byJack:
				jacks = append(jacks, math.Max(at[k], c.Wheels))
			}
		}
		if lean := slices.Max(jacks) - slices.Min(jacks); !(lean < c.Gauge) {
			why := words("the jacks differ by %s over a gauge of %s", metres(lean), metres(c.Gauge))
			return &why
		}
	}
	return nil
}

// carried tells whether the wheels carry at a state.
func (c *Carrier) carried(at state) bool {
	for k, a := range c.Adjusters {
		if a.sets == byJack && at[k] > c.Wheels+1e-9 {
			return false
		}
	}
	return true
}

// drive turns readings into what each joint is given.
func (c *Carrier) drive(from, to state, fillers bool) []motion.Drive {
	out := make([]motion.Drive, len(c.Mechanism.Bodies))
	var jacks [2]motion.Drive
	for k, a := range c.Adjusters {
		switch a.sets {
		case byLink, byStroke:
			out[a.Body] = motion.Drive{From: from[k], To: to[k]}
		case byJack:
			f, t := math.Max(from[k], c.Wheels), math.Max(to[k], c.Wheels)
			jacks[sideIndex(a.Side)] = motion.Drive{From: f - a.Raised, To: t - a.Raised}
			out[a.Body] = motion.Drive{From: f - from[k], To: t - to[k]}
		}
	}
	c.driveFrame(out, jacks)
	if fillers {
		out[c.find(bodyFillers)] = motion.Drive{To: fillerDrop}
		out[c.find(bodyOverBents)] = motion.Drive{To: overBentDrop}
	}
	return out
}

// driveFrame lowers the frame by the mean of its two sides and leans it by
// their difference over the gauge.
func (c *Carrier) driveFrame(out []motion.Drive, jacks [2]motion.Drive) {
	mean := func(l, r float64) float64 {
		if l == r {
			return l
		}
		return (l + r) / 2
	}
	lean := func(l, r float64) float64 { return math.Asin((l - r) / c.Gauge) }
	l, r := jacks[0], jacks[1]
	out[c.find(bodyLift)] = motion.Drive{From: mean(l.From, r.From), To: mean(l.To, r.To)}
	out[c.find(bodyFrame)] = motion.Drive{From: lean(l.From, r.From), To: lean(l.To, r.To)}
}

func sideIndex(s culvert.Side) int {
	if s == culvert.Right {
		return 1
	}
	return 0
}

func (c *Carrier) find(body string) int {
	for i, b := range c.Mechanism.Bodies {
		if b.Name == body {
			return i
		}
	}
	panic("carrier: no body " + body)
}

// moves reads every adjuster over a step.
func (c *Carrier) moves(p *motion.Path, from, to state) []Move {
	out := make([]Move, len(c.Adjusters))
	for k, a := range c.Adjusters {
		m := Move{Adjuster: k, From: from[k], To: to[k], Least: math.Min(from[k], to[k]), Most: math.Max(from[k], to[k])}
		if a.Follows() {
			m.From, m.To = p.Length(a.Link, 0), p.Length(a.Link, 1)
			least, most, wide := p.LengthRange(a.Link)
			m.Least, m.Most = least-wide, most+wide
		}
		out[k] = m
		from[k], to[k] = m.From, m.To
	}
	return out
}

// locked lists the followers that the step leaves locked and that would have
// to move.
func (c *Carrier) locked(js job.Step, moves []Move) []Lock {
	var out []Lock
	for _, name := range js.Locked {
		for _, k := range c.named(name, true) {
			m := moves[k]
			give := math.Max(math.Abs(m.Least-m.From), math.Abs(m.Most-m.From))
			if give > lockSlack {
				out = append(out, Lock{Adjuster: k, Need: m.To, Give: give})
			}
		}
	}
	return out
}

// Raising is the collapse backwards: what a crew does to set the carrier for
// the next pour.
func (c *Carrier) Raising(steps []Step) []Step {
	var out []Step
	for i := len(steps) - 1; i >= 0; i-- {
		s := steps[i]
		r := Step{Name: "take back: " + s.Name, Say: "Take step \"" + s.Name + "\" back, reading by reading.",
			Caution: s.Caution, gone: c.after(s), still: map[Role]bool{}, Stop: s.Stop}
		from, to := make(state, len(s.Moves)), make(state, len(s.Moves))
		for k, m := range s.Moves {
			from[k], to[k] = m.To, m.From
		}
		if s.Stop == nil {
			r.Path, _ = motion.NewPath(c.Mechanism, c.drive(from, to, false))
			r.Moves = c.moves(r.Path, from, to)
		}
		out = append(out, r)
	}
	return out
}

// Rolling is the collapsed carrier rolled ahead by a distance.
func (c *Carrier) Rolling(last Step, distance float64) (*motion.Path, error) {
	at := make(state, len(last.Moves))
	for k, m := range last.Moves {
		at[k] = m.To
	}
	d := c.drive(at, at, false)
	d[c.find(bodyCarriage)] = motion.Drive{To: distance}
	return motion.NewPath(c.Mechanism, d)
}

// Early is the place of a body when a share of the step is done, in the frame of cell
// and pour.
func (s Step) Early(body int, share float64) geom.Pose {
	return s.Path.Pose(motion.Ground, body, share)
}

// Pose is the place of a body at the end of a step, in the frame of cell and
// pour.
func (s Step) Pose(body int) geom.Pose { return s.Path.Pose(motion.Ground, body, 1) }

// Package model assembles a job: the concrete pour by pour, the carrier set to
// each pour of each cell, and the steps it goes through there.
package model

import (
	"encoding/binary"
	"fmt"
	"math"

	"boxwalk/model/align"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/job"
)

// Study is one assembled job.
type Study struct {
	Job     *job.Job
	Line    *align.Alignment // nil on one tangent and one straight grade
	Gear    *job.Gear
	Culvert *culvert.Culvert
	Bays    []Bay

	built map[string]*carrier.Carrier // by all that they differ in
	sound map[*carrier.Carrier]bool   // those found fit to be searched
}

// Bay is one cell at one pour: a carrier in its place, the concrete around it,
// and what it does there. Everything is in the frame of that cell and pour.
type Bay struct {
	Cell     culvert.Cell
	Pour     culvert.Pour
	Carrier  *carrier.Carrier
	Steps    []carrier.Step
	Raising  []carrier.Step
	Concrete []culvert.Solid // when the pour is stripped, hangers included
	Before   []culvert.Solid // when the carrier is raised for the pour
	Needed   float64         // length of form the pour needs, lap included
	Next     int             // number of the pour that the carrier casts next in this cell; 0 after the last
	NextRear float64         // rear end of the form at the next pour, in that pour's frame
	Advance  float64         // along the way to the same place at the next pour, negative back; 0 after the last
	Leaves   bool            // after the last pour it rolls out over an end
	Rolls    float64         // along the way: Advance, or until the whole form is out over the end; negative back
	Route    []culvert.Solid // all that is met on the way; on one grade in the plane of this pour's invert
	Ground   Ground          // the invert on the way
	Twin     int             // the first bay with the same geometry; its own place if none is earlier
}

// Name is the frame of the bay as results print it.
func (b Bay) Name() string { return fmt.Sprintf("cell %d pour %d", b.Cell.Number, b.Pour.Number) }

// RollsAway tells whether the collapse ends on the wheels.
func (b Bay) RollsAway() bool {
	if len(b.Steps) == 0 {
		return false
	}
	last := b.Steps[len(b.Steps)-1]
	return last.Stop == nil && last.Carried
}

// The files that a problem of Build has its key in, in place of their names.
const (
	JobFile  = "job"
	GearFile = "gear"
)

// Build assembles a study. The gear must have no carrier.Lacks. Problems are
// names in steps that the gear does not have, links whose pins fall together,
// parts that are no solids, pours whose ends cross, and faults of the line, each
// by its key in JobFile or GearFile; the study is nil if there are any. The line
// of a job that names a LandXML file comes from BuildOn.
func Build(j *job.Job, g *job.Gear) (*Study, diag.Problems) {
	if !Bent(j) {
		return BuildOn(j, g, nil)
	}
	if j.Alignment.LandXML != "" {
		return nil, diag.Problems{{Key: "landxml", Summary: "the alignment's file was not read", Fix: "write plan and profile, or read the file"}}.Below(JobFile, "alignment")
	}
	line, faults := LineOf(j)
	if len(faults) > 0 {
		return nil, faults
	}
	return BuildOn(j, g, line)
}

// BuildOn is Build along a line; nil is one tangent on the job's straight
// grade.
func BuildOn(j *job.Job, g *job.Gear, line *align.Alignment) (*Study, diag.Problems) {
	if line != nil {
		if faults := shortLine(j, line); len(faults) > 0 {
			return nil, faults
		}
	}
	s := &Study{Job: j, Gear: g, Line: line, Culvert: alongLine(j, line), built: map[string]*carrier.Carrier{}, sound: map[*carrier.Carrier]bool{}}
	steps := s.steps()
	twins, laid := map[string]int{}, map[string]laidOut{}
	for _, cell := range s.Culvert.Cells {
		setting := carrier.Settle(cell.Section, g, j.Set)
		for _, pour := range s.Culvert.PoursIn(cell) {
			b := s.bay(cell, pour, setting)
			if problems := s.unfit(&b); len(problems) > 0 {
				return nil, problems
			}
			if problems := b.lay(laid, steps); len(problems) > 0 {
				return nil, problems.Below(s.stepsAt())
			}
			key := b.key()
			if _, ok := twins[key]; !ok {
				twins[key] = len(s.Bays)
			}
			b.Twin = twins[key]
			if b.Twin < len(s.Bays) {
				// the same carrier in the same place: keep one
				b.Carrier = s.Bays[b.Twin].Carrier
			}
			s.Bays = append(s.Bays, b)
		}
	}
	s.mark()
	return s, nil
}

// mark gives all carriers' parts their marks, one for each shape in the whole job.
func (s *Study) mark() {
	list := make([]*carrier.Carrier, len(s.Bays))
	for i, b := range s.Bays {
		list[i] = b.Carrier
	}
	carrier.MarkTogether(list...)
}

// hangers are the plates and nuts that stay, seen from a pour, under those of
// the pours from first to last that are cast by some place in the order.
func (s *Study) hangers(cell culvert.Cell, pour culvert.Pour, first, last, cast int) []culvert.Solid {
	kept := s.Job.LeftInPlace.Hangers
	var out []culvert.Solid
	for _, p := range s.Culvert.PoursIn(cell) {
		if p.Number < first || p.Number > last || p.Cast > cast {
			continue
		}
		_, hung := s.hung(cell, p)
		out = append(out, cell.Hangers(kept, pour, p, hung)...)
	}
	return out
}

// hung tells over which bents of a pour hangers stay and where those are, in
// the frame of cell and pour.
func (s *Study) hung(cell culvert.Cell, pour culvert.Pour) (over []bool, at []float64) {
	rear, _ := cell.Reach(pour)
	return Bay{Cell: cell, Pour: pour}.under(s.Job.LeftInPlace.Hangers, carrier.Bents(s.Gear, rear-pour.Lap))
}

// steps are the job's sequence, or the gear's; a job's step that has a name of
// the gear's takes its words and what it removes from there.
func (s *Study) steps() []job.Step {
	if len(s.Job.Sequence) == 0 {
		return s.Gear.Steps
	}
	known := map[string]job.Step{}
	for _, g := range s.Gear.Steps {
		known[g.Step] = g
	}
	var out []job.Step
	for _, j := range s.Job.Sequence {
		g := known[j.Step]
		if j.Say == "" {
			j.Say = g.Say
		}
		if j.Caution == "" {
			j.Caution = g.Caution
		}
		if j.Removes == nil {
			j.Removes = g.Removes
		}
		out = append(out, j)
	}
	return out
}

// stepsAt is the file and the key of the list that the steps stand in. What a
// job's step removes may be the gear's word, which the gear answers for (Lacks).
func (s *Study) stepsAt() (file, key string) {
	if len(s.Job.Sequence) == 0 {
		return GearFile, "steps"
	}
	return JobFile, "sequence"
}

// laidOut are the steps of one setting. A carrier's bodies and links lie in the
// section, so that every pour with that setting goes through the same motion.
type laidOut struct{ steps, raising []carrier.Step }

// lay gives a bay its steps, worked out once for each setting.
func (b *Bay) lay(laid map[string]laidOut, steps []job.Step) diag.Problems {
	key := fmt.Sprintf("%v", b.Carrier.Setting)
	l, ok := laid[key]
	if !ok {
		var problems diag.Problems
		if l.steps, problems = b.Carrier.Lay(steps); len(problems) > 0 {
			return problems
		}
		l.raising = b.Carrier.Raising(l.steps)
		laid[key] = l
	}
	b.Steps, b.Raising = l.steps, l.raising
	return nil
}

func (s *Study) bay(cell culvert.Cell, pour culvert.Pour, setting carrier.Setting) Bay {
	rear, front := cell.Reach(pour)
	left := s.Job.LeftInPlace
	b := Bay{Cell: cell, Pour: pour, Needed: front - rear + pour.Lap}
	over, _ := s.hung(cell, pour)
	kept := carrier.Kept{Hangers: left.Hangers, Over: over, Untied: [2]bool{s.Culvert.WallStands(cell, culvert.Left, pour), s.Culvert.WallStands(cell, culvert.Right, pour)}}
	b.Carrier = s.carrier(cell.Section, setting, kept, rear-pour.Lap)
	n := pour.Number
	b.Concrete = append(s.Culvert.Around(cell, pour), s.hangers(cell, pour, n-1, n+1, pour.Cast)...)
	b.Before = append(s.Culvert.Before(cell, pour), s.hangers(cell, pour, n-1, n+1, pour.Cast-1)...)
	b.Before = append(b.Before, s.Culvert.Steel(cell, pour, pour, left.SteelAhead, s.Culvert.Until(cell, pour))...)
	s.rolls(&b)
	first, last := min(n, b.reached(len(s.Culvert.Pours)))-1, max(n, b.reached(len(s.Culvert.Pours)))+1
	route := append(s.Culvert.Along(cell, pour, first, last), s.hangers(cell, pour, first, last, pour.Cast)...)
	route = append(route, s.Culvert.SteelAlong(cell, pour, first, last, left.SteelAhead)...)
	b.Route, b.Ground = s.route(cell, pour, first, last, route)
	return b
}

// carrier builds one; equal ones are one.
func (s *Study) carrier(sec culvert.Section, setting carrier.Setting, kept carrier.Kept, rear float64) *carrier.Carrier {
	key := fmt.Sprintf("%v %v %v %v %v", sec, setting, kept.Over, kept.Untied, rear)
	if c, ok := s.built[key]; ok {
		return c
	}
	c := carrier.Build(s.Gear, sec, setting, kept, rear)
	s.built[key] = c
	return c
}

// rolls finds where a bay's carrier goes from there: to the pour that it casts
// next, ahead or back, or out over the end that the job names.
func (s *Study) rolls(b *Bay) {
	next, ok := s.Culvert.Next(b.Cell, b.Pour)
	if ok {
		rear, _ := b.Cell.Reach(next)
		b.Next, b.NextRear = next.Number, rear-next.Lap
		b.Advance = s.along(b.Cell, b.Pour, next) + b.NextRear - b.Carrier.Rear
		b.Rolls = b.Advance
		return
	}
	b.Leaves = true
	if pours := s.Culvert.Pours; s.Job.Travel.Leaves == "inlet" {
		rear, _ := b.Cell.Reach(pours[0])
		b.Rolls = s.along(b.Cell, b.Pour, pours[0]) + rear - (b.Carrier.Rear + float64(s.Gear.Form.Length))
	} else {
		last := pours[len(pours)-1]
		_, front := b.Cell.Reach(last)
		b.Rolls = s.along(b.Cell, b.Pour, last) + front - b.Carrier.Rear
	}
}

// under tells which bents stand wholly under the pour's own roof, where hangers
// hold something, and where those are: all four corners of every plate.
func (b Bay) under(kept *job.Hangers, bents []float64) (over []bool, hung []float64) {
	over = make([]bool, len(bents))
	if kept == nil {
		return over, nil
	}
	rear, front := b.Cell.Ends(b.Pour)
	half := float64(kept.Plate.X) / 2
	for i, x := range bents {
		over[i] = true
		for _, line := range kept.Lines {
			for _, y := range [2]float64{float64(line - kept.Plate.Y/2), float64(line + kept.Plate.Y/2)} {
				over[i] = over[i] && x-half >= rear.At(y, b.Cell.Rise) && x+half <= front.At(y, b.Cell.Rise)
			}
		}
		if over[i] {
			hung = append(hung, x)
		}
	}
	return over, hung
}

// key is the bay's geometry to a nanometre, so that bays that differ in
// nothing are worked out once.
func (b Bay) key() string {
	key := make([]byte, 0, 1<<14)
	add := func(values ...float64) {
		for _, v := range values {
			key = binary.AppendVarint(key, int64(math.Round(v*1e9)))
		}
	}
	add(b.Carrier.Rear, b.Needed, b.Advance, b.Rolls, b.Pour.Turn, b.Pour.Break)
	for _, j := range b.JointsOnTheWay() {
		add(j.Along, j.Turn, j.Break)
	}
	key = fmt.Appendf(key, "%v %v", b.Carrier.Setting, b.Carrier.Kept.Untied)
	for _, list := range [][]culvert.Solid{b.Concrete, b.Before, b.Route} {
		for _, c := range list {
			key = append(append(key, c.Zone...), 0)
			for _, v := range c.Vertices {
				add(v[0], v[1], v[2])
			}
		}
		key = append(key, '|')
	}
	return string(key)
}

// Reported are the bays that are worked out, each standing for its twins.
func (s *Study) Reported() []int {
	var out []int
	for i, b := range s.Bays {
		if b.Twin == i {
			out = append(out, i)
		}
	}
	return out
}

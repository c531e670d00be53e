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
	"boxwalk/model/geom"
	"boxwalk/model/job"
)

// Study is one assembled job.
type Study struct {
	Job     *job.Job
	Line    *align.Alignment // nil on one tangent and one straight grade
	Gear    *job.Gear
	Culvert *culvert.Culvert
	Bays    []Bay
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
	Ahead    []culvert.Solid // what is met on the way to the next pour, besides Concrete
	Needed   float64         // length of form the pour needs, lap included
	NextRear float64         // rear end of the form at the next pour, in that pour's frame
	Advance  float64         // to the same place at the next pour; 0 after the last
	Route    []culvert.Solid // all that is met on the way to the next pour, in the plane of this pour's invert
	Ways     []Way           // the cell's centrelines from this pour on, as far as the carrier reaches
	Twin     int             // the first bay with the same geometry; its own place if none is earlier
}

// Name is the frame of the bay as results print it.
func (b Bay) Name() string { return fmt.Sprintf("cell %d pour %d", b.Cell.Number, b.Pour.Number) }

// Build assembles a study. The gear must have no carrier.Lacks. Troubles are
// names in steps that the gear does not have, links whose pins fall together
// (Where is "links", Key the link's name), and faults of the line (Where is
// "alignment", Key the key below it); the study is nil if there are any. The
// line of a job that names a LandXML file comes from BuildOn.
func Build(j *job.Job, g *job.Gear) (*Study, []carrier.Trouble) {
	if !Bent(j) {
		return BuildOn(j, g, nil)
	}
	if j.Alignment.LandXML != "" {
		return nil, []carrier.Trouble{{Where: "alignment", Key: "landxml", Summary: "the line's file was not read", Cure: "write plan and profile, or read the file"}}
	}
	line, faults := LineOf(j)
	if len(faults) > 0 {
		return nil, lineTroubles(faults)
	}
	return BuildOn(j, g, line)
}

// lineTroubles are faults of the line as troubles.
func lineTroubles(faults []align.Fault) []carrier.Trouble {
	var out []carrier.Trouble
	for _, f := range faults {
		summary := f.Summary
		if f.Detail != "" {
			summary += ": " + f.Detail
		}
		out = append(out, carrier.Trouble{Where: "alignment", Key: f.Path, Summary: summary, Cure: f.Cure})
	}
	return out
}

// BuildOn is Build along a line; nil is one tangent on the job's straight
// grade.
func BuildOn(j *job.Job, g *job.Gear, line *align.Alignment) (*Study, []carrier.Trouble) {
	if line != nil {
		if faults := shortLine(j, line); len(faults) > 0 {
			return nil, lineTroubles(faults)
		}
	}
	s := &Study{Job: j, Gear: g, Line: line, Culvert: alongLine(j, line)}
	steps := s.steps()
	twins, laid := map[string]int{}, map[string]laidOut{}
	for _, cell := range s.Culvert.Cells {
		setting := carrier.Settle(cell.Section, g, j.Set)
		for _, pour := range s.Culvert.Pours {
			b := s.bay(cell, pour, setting)
			if troubles := b.Carrier.Collapsed(); len(troubles) > 0 {
				return nil, troubles
			}
			troubles := b.lay(laid, steps)
			if len(troubles) > 0 {
				return nil, troubles
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
	return s, nil
}

// hangers are the plates and nuts that stay around a pour: its own, and those
// of its neighbours as far as they are cast before.
func (s *Study) hangers(cell culvert.Cell, pour culvert.Pour, own bool) []culvert.Solid {
	kept := s.Job.LeftInPlace.Hangers
	var out []culvert.Solid
	for _, p := range s.Culvert.Pours {
		near := p.Number >= pour.Number-1 && p.Number <= pour.Number+1
		if !near || p.Cast > pour.Cast || (p.Number == pour.Number && !own) {
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

// laidOut are the steps of one setting. A carrier's bodies and links lie in the
// section, so that every pour with that setting goes through the same motion.
type laidOut struct{ steps, raising []carrier.Step }

// lay gives a bay its steps, worked out once for each setting.
func (b *Bay) lay(laid map[string]laidOut, steps []job.Step) []carrier.Trouble {
	key := fmt.Sprintf("%v", b.Carrier.Setting)
	l, ok := laid[key]
	if !ok {
		var troubles []carrier.Trouble
		if l.steps, troubles = b.Carrier.Lay(steps); len(troubles) > 0 {
			return troubles
		}
		l.raising = b.Carrier.Raising(l.steps)
		laid[key] = l
	}
	b.Steps, b.Raising = l.steps, l.raising
	return nil
}

func (s *Study) bay(cell culvert.Cell, pour culvert.Pour, setting carrier.Setting) Bay {
	rear, front := cell.Reach(pour)
	kept := s.Job.LeftInPlace.Hangers
	b := Bay{Cell: cell, Pour: pour, Needed: front - rear + pour.Lap}
	over, _ := s.hung(cell, pour)
	b.Carrier = carrier.Build(s.Gear, cell.Section, setting, carrier.Kept{Hangers: kept, Over: over}, rear-pour.Lap)
	b.Concrete = append(s.Culvert.Around(cell, pour), s.hangers(cell, pour, true)...)
	b.Before = append(s.Culvert.Before(cell, pour), s.hangers(cell, pour, false)...)
	b.Before = append(b.Before, s.Culvert.Steel(cell, pour, pour, s.Job.LeftInPlace.SteelAhead)...)
	if pour.Number < len(s.Culvert.Pours) {
		next := s.Culvert.Pours[pour.Number]
		nextRear, _ := cell.Reach(next)
		b.NextRear = nextRear - next.Lap
		stand := cell.BayFromBay(pour, next).Apply(geom.Vec{b.NextRear})
		b.Advance = stand[0] - (rear - pour.Lap)
		if next.Cast > pour.Cast {
			b.Ahead = s.Culvert.Steel(cell, pour, next, s.Job.LeftInPlace.SteelAhead)
		}
	}
	b.Ways = s.ways(cell, pour)
	b.Route = s.flattened(cell, pour, append(append([]culvert.Solid{}, b.Concrete...), b.Ahead...))
	return b
}

// under tells which bents stand wholly under the pour's own roof, where hangers
// hold something, and where those are.
func (b Bay) under(kept *job.Hangers, bents []float64) (over []bool, hung []float64) {
	over = make([]bool, len(bents))
	if kept == nil {
		return over, nil
	}
	rear, front := b.Cell.Ends(b.Pour)
	half := float64(kept.Plate.X) / 2
	for i, x := range bents {
		over[i] = true
		for _, y := range kept.Lines {
			over[i] = over[i] && x-half >= rear.At(float64(y), b.Cell.Rise) && x+half <= front.At(float64(y), b.Cell.Rise)
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
	add(b.Carrier.Rear, b.Needed, b.Advance, b.Pour.Turn, b.Pour.Break)
	for _, w := range b.Ways {
		add(w.At, w.Turn, w.Break, w.Begins)
	}
	key = fmt.Appendf(key, "%v", b.Carrier.Setting)
	for _, list := range [][]culvert.Solid{b.Concrete, b.Before, b.Ahead} {
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

// JobFromBay is the frame of the job's line at the inlet from that of a bay.
func (s *Study) JobFromBay(b Bay) geom.Pose { return b.Cell.LineFromBay(b.Pour) }

// GroundFromJob takes the job's frame to easting, northing and elevation.
// Only exports use it: everything is worked out near the origin.
func (s *Study) GroundFromJob() geom.Pose {
	a := s.Job.Alignment.Start
	bearing := float64(a.Bearing)
	// x ahead points to the bearing, clockwise from north; y is its left
	turn := geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, math.Pi/2-bearing)
	tilt := geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, -math.Atan(s.Culvert.Grade))
	return geom.Translation(geom.Vec{float64(a.Easting), float64(a.Northing), float64(a.Elevation)}).Mul(turn).Mul(tilt)
}

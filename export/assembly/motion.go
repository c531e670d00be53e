package assembly

import (
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// Motion is what the bodies of a raised assembly do over a time: keys between which a
// viewer goes straight with what is moved and evenly with what is turned (geom.Between),
// and when pieces are there that are taken off or put back.
type Motion struct {
	Name   string
	Length float64   // s
	Tracks []Track   // of the groups that move, in their order
	Off    []Absence // of pieces that are not there all the time
}

// Track is the way of one group.
type Track struct {
	Group int // by place in the assembly
	Keys  []Key
}

// Key is a moment and the group's pose then, as Group.Pose.
type Key struct {
	At   float64 // s
	Pose geom.Pose
}

// Absence is a time over which a piece is not there.
type Absence struct {
	Group, Piece int
	From, To     float64 // s; to the end of the motion where it comes back never
}

// Times, judgement: slow enough to be followed, and the same for every step, since a
// crew turns adjusters in passes and at no speed that is known.
const (
	perStep  = 4.0 // s
	pause    = 1.0 // s before each step, in which pieces come off
	perMetre = 2.0 // s of rolling
)

// astray is how far what lies between two keys may be from where the model has it, m:
// half of what a viewer is promised, as it is looked at in a few places only.
const astray = 0.5e-4

// Motions are those that a bay's carrier makes: collapse, rolling and raising, each as far
// as it can be made.
func Motions(b *model.Bay, raised Assembly, r *result.Result) []Motion {
	var out []Motion
	if m := Collapse(b, raised); m.Length > 0 {
		out = append(out, m)
	}
	for i := range r.Rolling {
		if row := &r.Rolling[i]; row.Cell == b.Cell.Number && row.Pour == b.Pour.Number {
			if m, ok := Roll(b, raised, row); ok {
				out = append(out, m)
			}
		}
	}
	if m, ok := Raise(b, raised); ok {
		out = append(out, m)
	}
	return out
}

// Collapse is every step that can be made, one after the other.
func Collapse(b *model.Bay, a Assembly) Motion {
	m := Motion{Name: "collapse"}
	m.play(b, a, b.Steps[:Collapsed(b).Step+1])
	at := 0.0
	for _, s := range b.Steps[:Collapsed(b).Step+1] {
		for _, p := range a.gone(b, func(p carrier.Part) bool { return s.Present(p) && !s.PresentAfter(p) || !s.Present(p) }) {
			m.absent(p, at+pause)
		}
		at += pause + perStep
	}
	return m
}

// Raise takes the collapse back, step by step; nothing where it cannot all be made.
func Raise(b *model.Bay, a Assembly) (Motion, bool) {
	m := Motion{Name: "raising"}
	for _, s := range b.Raising {
		if s.Stop != nil {
			return m, false
		}
	}
	if len(b.Raising) == 0 || Collapsed(b).Step != len(b.Steps)-1 {
		return m, false
	}
	m.play(b, a, b.Raising)
	for k := range b.Raising {
		back := b.Steps[len(b.Steps)-1-k]
		until := float64(k+1) * (pause + perStep)
		for _, p := range a.gone(b, func(p carrier.Part) bool { return !back.PresentAfter(p) && wasThere(b, len(b.Steps)-1-k, p) }) {
			m.Off = append(m.Off, Absence{p[0], p[1], 0, until})
		}
	}
	return m, true
}

// wasThere tells whether a part was there when a step of the collapse began.
func wasThere(b *model.Bay, step int, p carrier.Part) bool {
	return step == 0 || b.Steps[step-1].PresentAfter(p)
}

// Roll is the way to the next stand from where the carrier is collapsed; nothing where it
// does not roll.
func Roll(b *model.Bay, a Assembly, row *result.RollingRow) (Motion, bool) {
	m := Motion{Name: "rolling"}
	if row == nil || len(row.Poses) < 2 {
		return m, false
	}
	end := Collapsed(b)
	times := timesOf(row)
	m.Length = times[len(times)-1]
	for g, group := range a.Groups {
		if group.Still {
			continue
		}
		collapsed := end.pose(b, group.body)
		t := Track{Group: g}
		for i, p := range row.Poses {
			t.Keys = append(t.Keys, Key{times[i], p.Pose.Mul(collapsed)})
		}
		m.Tracks = append(m.Tracks, t)
	}
	for _, p := range a.gone(b, func(p carrier.Part) bool { return !end.present(b, p) }) {
		m.absent(p, 0)
	}
	return m, true
}

// timesOf are when the carrier is where, s: by how far it rolls, and a pause where it is
// moved over or settles on other wheels without rolling.
func timesOf(row *result.RollingRow) []float64 {
	out := make([]float64, len(row.Poses))
	for i := 1; i < len(out); i++ {
		by := pause
		if ahead := row.Poses[i].Share - row.Poses[i-1].Share; ahead > 0 {
			by = math.Max(ahead*math.Abs(row.Way)*perMetre, shortest)
		}
		out[i] = out[i-1] + by
	}
	return out
}

// shortest is the least time between two keys, s, so that single precision still tells
// them apart after hours.
const shortest = 1e-3

// absent takes a piece away from a time on, if it is not away already.
func (m *Motion) absent(p [2]int, from float64) {
	for _, o := range m.Off {
		if o.Group == p[0] && o.Piece == p[1] {
			return
		}
	}
	m.Off = append(m.Off, Absence{p[0], p[1], from, m.Length})
}

// gone are the pieces, by group and place, whose part is as asked.
func (a Assembly) gone(b *model.Bay, is func(p carrier.Part) bool) [][2]int {
	var out [][2]int
	for g, group := range a.Groups {
		for i, p := range group.Pieces {
			if !group.Still && is(b.Carrier.Parts[p.part]) {
				out = append(out, [2]int{g, i})
			}
		}
	}
	return out
}

// play gives each group its keys over some steps.
func (m *Motion) play(b *model.Bay, a Assembly, steps []carrier.Step) {
	m.Length = float64(len(steps))*(pause+perStep) + pause
	for g, group := range a.Groups {
		if group.Still {
			continue
		}
		box := boxOf(group)
		t := Track{Group: g}
		for k, s := range steps {
			from := float64(k)*(pause+perStep) + pause
			at := func(share float64) geom.Pose { return s.Path.Pose(motion.Ground, group.body, share) }
			if k == 0 {
				t.Keys = append(t.Keys, Key{0, at(0)})
			}
			t.Keys = append(t.Keys, Key{from, at(0)})
			for _, share := range geom.Keys(at, box, astray, 0, 1) {
				t.Keys = append(t.Keys, Key{from + share*perStep, at(share)})
			}
		}
		m.Tracks = append(m.Tracks, t)
	}
}

// boxOf is the box round a group's pieces as raised.
func boxOf(g Group) geom.Box {
	box := geom.EmptyBox()
	for _, p := range g.Pieces {
		for _, s := range p.Solids {
			box = box.Union(s.Box())
		}
	}
	return box
}

package measure

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// Lean is how far out of level the frame can be while jacks carry and move it:
// screw jacks that are turned down, or lifting jacks that go from pad to pad.
//
// The frame is taken rigid, as in load.Lifting, with its centre of gravity over
// the middle of the form. What it stands on, on either side at the same stations,
// can only push, and no place is more than differ above any other. Let p be the
// frame's height over each place, from the lowest one on: p >= 0 everywhere, and
// p <= differ wherever it rests. Where it rests encloses its centre of gravity, so
//
//   - it rests on either side. Over a place on which it rests p <= differ, and
//     opposite it p >= 0: across, it leans by differ / gauge at most;
//   - it rests on some station at the middle or ahead of it, and on the same side
//     p >= 0 over the rearmost one; the same the other way round. Along, it leans
//     by differ over the lesser of the two distances at most: half the outermost
//     ones where a station stands at the middle (the frame rocks on it like a
//     see-saw), all of it for a frame on two bents;
//   - p at the middle is a mean of heights at which it rests, so between 0 and
//     differ: a height that the step itself passes. The lean is about that.
//
// Both directions are taken off at once; a frame of two bents that rocks on two
// diagonal jacks has both. Source: statics of a rigid frame (derived).
type Lean struct {
	Differ        float64 // metres
	Gauge, Lever  float64 // metres, over which differ leans it across and along
	Across, Along float64 // rise over run, at most
	Middle        float64 // station about which it leans along
	What          string  // what differs, as sentences name it
	// how far ahead and beside the middle the roof bears, see bearing; 0 where not
	BearsAhead, BearsBeside float64
}

// middleOf is the middle of the form, in the frame of cell and pour.
func (b *Bay) middleOf() float64 {
	return b.Carrier.Rear + float64(b.Carrier.Gear.Form.Length)/2
}

// leanOver is the lean of a frame that stands at no less than from rear to front
// and may rest on any of some stations.
func (b *Bay) leanOver(differ float64, what string, rear, front float64, rests []float64) Lean {
	l := Lean{Differ: differ, Gauge: b.Carrier.Gauge, Middle: b.middleOf(), What: what}
	ahead, behind := math.Inf(1), math.Inf(-1)
	for _, x := range rests {
		if x > l.Middle-1e-6 {
			ahead = math.Min(ahead, x)
		}
		if x < l.Middle+1e-6 {
			behind = math.Max(behind, x)
		}
	}
	l.Lever = math.Min(ahead-rear, front-behind)
	l.Across, l.Along = differ/l.Gauge, differ/l.Lever
	return l
}

// LeanDown is the lean in step k of the collapse: that of the jacks while they
// move and carry, which differ by tolerance jack_level; ok is false in others.
func (b *Bay) LeanDown(k int) (l Lean, ok bool) {
	if !b.JacksMove(b.Steps[k]) {
		return Lean{}, false
	}
	return b.Bearing(b.LeanOfJacks(b.Tol.Value("jack_level")), k), true
}

func (b *Bay) LeanOfJacks(differ float64) Lean {
	at := b.Carrier.Bents
	return b.leanOver(differ, "jacks", at[0], at[len(at)-1], at)
}

// LeanUp is the lean in step k of raising: the pads differ by a pass of lifting,
// in the last step that lifts by its last pass. The frame stands on its wheels
// or on its screw jacks meanwhile, whichever reach less far. Gear that states no
// lifting is raised on its screw jacks.
func (b *Bay) LeanUp(k int) (l Lean, ok bool) {
	if !b.JacksMove(b.Raising[k]) {
		return Lean{}, false
	}
	lifting := b.Carrier.Gear.Lifting
	if lifting == nil {
		return b.LeanOfJacks(b.Tol.Value("jack_level")), true
	}
	pass := float64(lifting.Pass)
	if lifting.Last != nil && k == b.LastLift() {
		pass = float64(*lifting.Last)
	}
	bents, wheels := b.Carrier.Bents, b.Carrier.Gear.Wheels.At
	rests := append([]float64(nil), bents...)
	for _, x := range wheels {
		rests = append(rests, b.Carrier.Rear+float64(x))
	}
	rear := math.Max(bents[0], rests[len(bents)])
	front := math.Min(bents[len(bents)-1], rests[len(rests)-1])
	for _, x := range lifting.Pads {
		rests = append(rests, b.Carrier.Rear+float64(x))
	}
	return b.leanOver(pass, "pads", rear, front, rests), true
}

// LastLift is the last step of raising in which jacks move the carrier; -1 if
// there is none.
func (b *Bay) LastLift() int {
	last := -1
	for k, s := range b.Raising {
		if s.Stop == nil && b.JacksMove(s) {
			last = k
		}
	}
	return last
}

// scaled is the lean of another difference.
func (l Lean) scaled(differ float64) Lean {
	l.Differ, l.Across, l.Along = differ, differ/l.Gauge, differ/l.Lever
	return l
}

// tilt is the greater of the angles that the two slopes together can make.
func (l Lean) tilt() float64 { return math.Hypot(l.Across, l.Along) }

// Bearing is a lean in step k, if that begins with the roof against the soffit. A
// frame that only jacks lower does not rise where it bears: leaning by a along
// and b across, its middle has gone down by |a| X + |b| Y at least, where X and Y
// are half the sides of a rectangle about the middle that lies within what bears.
// So it takes every place that it takes with that much more of the way behind it.
// One that reaches as far as a point of what bears in each quarter lies within.
func (b *Bay) Bearing(l Lean, k int) Lean {
	s := b.Steps[k]
	if len(b.Turned(s, culvert.Both)) > 0 {
		return l
	}
	var corners [4][2]float64 // of each quarter, from the middle
	for i, p := range b.Carrier.Parts {
		if !s.Present(p) || !b.bears(i, k) {
			continue
		}
		pose := s.Path.Pose(motion.Ground, p.Body, 0)
		for _, v := range p.Vertices {
			r := pose.Apply(v).Sub(geom.Vec{l.Middle, 0, 0})
			q := quarter(r)
			x, y := math.Abs(r[0]), math.Abs(r[1])
			if c := corners[q]; r[2] > b.Cell.Rise-ContactTolerance && l.Along*x+l.Across*y > l.Along*c[0]+l.Across*c[1] {
				corners[q] = [2]float64{x, y}
			}
		}
	}
	l.BearsAhead, l.BearsBeside = math.Inf(1), math.Inf(1)
	for _, c := range corners {
		l.BearsAhead, l.BearsBeside = math.Min(l.BearsAhead, c[0]), math.Min(l.BearsBeside, c[1])
	}
	return l
}

// bears tells whether a part lies against the soffit as step k begins.
func (b *Bay) bears(part, k int) bool {
	for _, solid := range b.Stripped.touches[part] {
		if b.Stripped.Solids[solid].Zone == culvert.Roof && k <= b.Stripped.Last[[2]int{part, solid}] {
			return true
		}
	}
	return false
}

// quarter of the plan that a point lies in.
func quarter(r geom.Vec) int {
	q := 0
	if r[0] < 0 {
		q++
	}
	if r[1] < 0 {
		q += 2
	}
	return q
}

package proof

import "math"

// frame is where the carrier's own frame is while it rolls: placed as a whole,
// before all joints.
type frame interface {
	pose(s float64) pose
	curve(s0, s1 float64) curve
	joints() int     // how many it counts for in rounding
	far() float64    // lengths that enter its pose besides its translation
	unsure() float64 // how far its angles are not known exactly
}

// frame reads a record that places the carrier in a roll step: one in a step.
func (m *model) frame(t *text) {
	read := map[string]func(*text) frame{"carry": readCarry, "tip": readTip}[t.words[0]]
	m.owner(t)
	f := read(t)
	if t.bad != nil {
		return
	}
	if m.step.kind != roll || m.step.frame != nil {
		t.fail("a step that does not roll, or whose frame is placed twice")
		return
	}
	for _, l := range m.places[len(m.places)-1].carrier.links {
		if l.a == ground {
			t.fail("a link from the ground in a frame that is placed: where the ground is, is not said")
		}
	}
	m.step.frame = f
}

// level is a frame turned by tilt about y, its origin at origin: that in which
// the way of a carrier over grades is written.
type level struct {
	origin vec
	tilt   float64
}

func (t *text) level(origin, tilt string) level { return level{t.vector(origin), t.number(tilt)} }

func (l level) pose() pose {
	p := spin(vec{}, vec{0, 1, 0}, l.tilt)
	p.t = l.origin
	return p
}

// facing is the turn to yaw about z and then up by pitch: about y by -pitch.
func facing(yaw, pitch float64) pose {
	return spin(vec{}, vec{0, 0, 1}, yaw).after(spin(vec{}, vec{0, -1, 0}, pitch))
}

// held is p with its translation such that the point at of what it takes stands
// at to.
func (p pose) held(at, to vec) pose {
	p.t = vec{}
	p.t = to.sub(p.apply(at))
	return p
}

// yawed is how a frame curves that turns by yaw about z and by pitch about its
// own level y, about the point c of it, which is accelerated by at most a; base
// is what it is turned by before. The two axes are square to each other, and
// the second turns with the first: om² = yaw'² + pitch'², and yaw”, pitch” and
// yaw' pitch' are three directions square to each other.
func yawed(base pose, c vec, a float64, yaw, pitch rate) curve {
	k := curve{c: c, a: a, tilt: base}
	k.turn(c, vec{0, 0, 1}, yaw)
	k.turn(c, vec{0, -1, 0}, pitch)
	if k.mixed {
		k.om = math.Hypot(yaw.d.most(), pitch.d.most())
		k.al = math.Hypot(math.Hypot(yaw.dd.most(), pitch.dd.most()), yaw.d.most()*pitch.d.most())
	}
	return k
}

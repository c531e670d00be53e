package proof

import "math"

// tip is a carrier of which one point goes straight while it yaws and pitches
// evenly.
type tip struct {
	level
	pivot      vec // of the carrier
	from, to   vec // in the level frame
	yaw, pitch drive
}

// readTip reads `tip ORIGIN TILT PIVOT FROM TO YAW YAW PITCH PITCH`.
func readTip(t *text) frame {
	if !t.want(10, 10, false) {
		return nil
	}
	w := t.words
	p := &tip{level: t.level(w[1], w[2]), pivot: t.vector(w[3]), from: t.vector(w[4]), to: t.vector(w[5]),
		yaw: drive{t.number(w[6]), t.number(w[7])}, pitch: drive{t.number(w[8]), t.number(w[9])}}
	if !(math.Max(math.Abs(p.pitch.from), math.Abs(p.pitch.to)) < sharpest) {
		t.fail("a carrier that pitches by %g rad and more", sharpest)
	}
	return p
}

func (t *tip) pose(s float64) pose {
	run := func(d drive) float64 { return d.from + (d.to-d.from)*s }
	at := t.from.add(t.to.sub(t.from).mul(s))
	return t.level.pose().after(facing(run(t.yaw), run(t.pitch)).held(t.pivot, at))
}

func (t *tip) curve(s0, s1 float64) curve {
	run := func(d drive) rate { return steady(d.from, d.to, s0, s1) }
	return yawed(t.level.pose(), t.pivot, 0, run(t.yaw), run(t.pitch))
}

func (t *tip) joints() int { return 2 }
func (t *tip) far() float64 {
	return t.pivot.length() + t.origin.length() + math.Max(t.from.length(), t.to.length())
}
func (t *tip) unsure() float64 { return 0 }

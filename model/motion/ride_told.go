package motion

import (
	"math"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
)

// Level is a level frame as it lies in the frame of the answers: turned by Tilt
// about y, its origin at Origin.
type Level struct {
	Origin geom.Vec
	Tilt   float64
}

// Line is a straight in plan, in the level frame: through At, Heading from x
// toward y.
type Line struct {
	At      mgl64.Vec2
	Heading float64
}

// Plane is the ground of wheel axles: height Height + Slope.(x, y).
type Plane struct {
	Slope  mgl64.Vec2
	Height float64
}

// Carried is a glide by what it is made of: Guide, a point of the body at axle
// height, runs in plan on one line, between two distances ahead of the line's
// point, a second guide, Base ahead of it along the body, on another; the wheel
// lines Low and High ahead of Guide stand on two planes. y of the body is level.
type Carried struct {
	Level      Level
	Guide      geom.Vec
	Base       float64
	On         Line
	From, To   float64
	Front      Line
	Low, High  float64
	Under      Plane // the axle of Low
	UnderAhead Plane // that of High
}

// Tipped is a tip by what it is made of: Pivot of the body goes straight from
// one place to another while yaw and pitch change evenly.
type Tipped struct {
	Level      Level
	Pivot      geom.Vec
	From, To   geom.Vec
	Yaw, Pitch [2]float64
}

// level tells a frame that is only turned about y; false for any other.
func level(p geom.Pose) (Level, bool) {
	l := Level{p.T, math.Atan2(p.R.At(0, 2), p.R.At(0, 0))}
	turned := geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, l.Tilt)
	return l, turned.R.ApproxEqualThreshold(p.R, 4*ulp)
}

// Carried tells the glide; false where the level frame is turned about more
// than y.
func (d *Glide) Carried() (Carried, bool) {
	l, ok := level(d.g.fromLevel)
	rear, front := d.g.course[d.on.rear], d.g.course[d.on.front]
	plane := func(i int, above float64) Plane {
		c, q := d.g.planes[i].plane()
		return Plane{q, c + above}
	}
	return Carried{
		Level: l, Guide: d.g.carriage.anchor(), Base: d.g.carriage.base(),
		On: Line{rear.at, rear.heading}, From: d.from, To: d.to,
		Front: Line{front.at, front.heading},
		Low:   d.g.lever(d.on.low), High: d.g.lever(d.on.high),
		Under: plane(d.on.lowOn, 0), UnderAhead: plane(d.on.highOn, d.on.hang),
	}, ok
}

// Tipped tells the tip; false where the level frame is turned about more than
// y.
func (t *Tip) Tipped() (Tipped, bool) {
	l, ok := level(t.fromLevel)
	return Tipped{l, t.pivot, t.p0, t.p1, t.yaw, t.pitch}, ok
}

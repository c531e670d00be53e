package motion

import (
	"math"

	"boxwalk/model/geom"
)

// slack is how far beyond the end of a piece of the course a guide may seem to
// be by rounding, in metres. So little past an angle point moves no point of a
// carrier by more than that.
const slack = 1e-9

// Bound encloses the motion of the body over [s0, s1] seen from Ground: the
// rear guide, or the centre of the circle that both guides are on, with upper
// bounds on its acceleration, on the yaw rate and its change, per s. Its A is
// infinite when [s0, s1] reaches across one of Breaks.
func (g *Guided) Bound(ref, body int, s0, s1 float64) geom.Bound {
	if body == ref {
		return geom.Bound{}
	}
	b := geom.Bound{C: geom.Vec{g.guides.Rear[0], g.guides.Rear[1]}, Axis: geom.Vec{0, 0, 1}}
	t0, t1 := g.Rear(s0), g.Rear(s1)
	if t1 < t0 {
		t0, t1 = t1, t0
	}
	i, j, ok := g.strokesOver(t0, t1)
	if !ok {
		b.A = math.Inf(1)
		return b
	}
	rear, front := g.course.strokes[i], g.course.strokes[j]
	way := math.Abs(g.to - g.from)
	switch {
	case i == j && rear.radius == 0: // a straight: it does not turn
		return b
	case i == j:
		b.C, b.Omega = g.centre(rear.radius), way/math.Abs(rear.radius)
		return grown(b)
	}
	rate, spin := g.yaw(rear, front, t0, t1)
	b.A = math.Abs(rear.curvature()) * way * way
	b.Omega, b.Alpha = rate.mag()*way, spin.mag()*way*way
	return grown(b)
}

// strokesOver are the pieces that the two guides are on while the rear one goes
// from t0 to t1; not ok when one passes to another piece on the way.
func (g *Guided) strokesOver(t0, t1 float64) (rear, front int, ok bool) {
	mid := t0 + (t1-t0)/2
	rear = g.course.strokeAt(mid)
	_, front = g.course.ahead(mid, g.base)
	a, b := g.course.strokes[rear], g.course.strokes[front]
	f0, f1 := g.frontOn(b, t0), g.frontOn(b, t1)
	ok = t0 >= a.from-slack && t1 <= a.to+slack && f0 >= b.from-slack && f1 <= b.to+slack
	return rear, front, ok
}

// frontOn is where the front guide is on its piece when the rear one is at t.
func (g *Guided) frontOn(k stroke, t float64) float64 {
	p := g.course.Point(t)
	guess := math.Max(k.from, math.Min(k.to, t+g.base))
	return k.reach([2]float64{p[0], p[1]}, g.base, guess)
}

// centre of the circle of signed radius r in the body's coordinates: square to
// the middle of the base, at sqrt(r² - B²/4).
func (g *Guided) centre(r float64) geom.Vec {
	mid := g.guides.Rear.Add(g.guides.Front).Mul(0.5)
	off := math.Copysign(math.Sqrt(r*r-g.base*g.base/4), r)
	sin, cos := math.Sincos(g.angle)
	return geom.Vec{mid[0] - sin*off, mid[1] + cos*off, 0}
}

// yaw encloses psi' and psi” by the rear guide's travel. The base's direction is
// first only known to lie within 60 degrees of the rear tangent; each pass
// encloses its rate, and from its middle value and that rate its range.
func (g *Guided) yaw(rear, front stroke, t0, t1 float64) (rate, spin interval) {
	everything := interval{math.Inf(-1), math.Inf(1)}
	mid := t0 + (t1-t0)/2
	f0, f1, fm := g.frontOn(front, t0), g.frontOn(front, t1), g.frontOn(front, mid)
	if math.IsNaN(f0 + f1 + fm) {
		return everything, everything
	}
	off := 1e-12 * (g.base + math.Abs(t0) + math.Abs(f1))
	thetaR, thetaF := rear.headings(t0, t1), front.headings(f0-off, f1+off)
	d := front.point(fm).Sub(rear.point(mid))
	psi0 := math.Atan2(d[1], d[0])
	psi0 += 2 * math.Pi * math.Round((rear.headingAt(mid)-psi0)/(2*math.Pi))
	half := (t1 - t0) / 2 * (1 + 4*ulp)
	kr, kf, base := rear.bend(), front.bend(), outward(g.base, g.base)
	turn := thetaF.sub(thetaR)
	psi := interval{math.Max(thetaR.lo, thetaF.lo) - mostSharp, math.Min(thetaR.hi, thetaF.hi) + mostSharp}
	for range 5 {
		ar, af := thetaR.sub(psi), thetaF.sub(psi)
		inv := af.cosAtLeastHalf().inv()
		ratio := ar.cosAtLeastHalf().mul(inv)
		rate = turn.sin().mul(inv).mul(base.inv())
		turnRate, afRate := kf.mul(ratio).sub(kr), kf.mul(ratio).sub(rate)
		// psi” = (cos(turn) turn' + sin(turn) tan(af) af') / (B cos af)
		spin = turn.cos().mul(turnRate).add(turn.sin().mul(af.sin()).mul(inv).mul(afRate)).mul(inv).mul(base.inv())
		wide := rate.mag()*half + 1e-12
		psi = interval{math.Max(psi.lo, psi0-wide), math.Min(psi.hi, psi0+wide)}
	}
	return rate, spin
}

// cosAtLeastHalf is the cosine of an angle that is known to be within 60
// degrees of zero (to a part in a million), whatever its interval.
func (a interval) cosAtLeastHalf() interval {
	c := a.cos()
	return interval{math.Max(c.lo, 0.5*(1-1e-6)), math.Max(c.hi, 0.5)}
}

// bend encloses the curvature; exactly zero on a straight.
func (k stroke) bend() interval {
	if k.radius == 0 {
		return interval{}
	}
	return outward(1/k.radius, 1/k.radius)
}

// headings over a stretch of a piece.
func (k stroke) headings(t0, t1 float64) interval {
	a, b := k.headingAt(t0), k.headingAt(t1)
	return outward2(math.Min(a, b), math.Max(a, b))
}

package proof

import "math"

// steer is the frame that a carrier stands in while it rolls round a bend: its
// rear point runs from one place to another, its front point on a straight.
type steer struct {
	from, to vec // of the rear point, on the ground
	on       vec // a point of the straight that the front point is on
	heading  float64
	rear     vec // in the frame's own coordinates
	front    vec
}

// readSteer reads `steer FROM TO ON HEADING REAR FRONT`.
func readSteer(t *text) frame {
	if !t.want(7, 7, false) {
		return nil
	}
	w := t.words
	s := &steer{from: t.vector(w[1]), to: t.vector(w[2]), on: t.vector(w[3]), heading: t.number(w[4]), rear: t.vector(w[5]), front: t.vector(w[6])}
	if t.bad != nil {
		return nil
	}
	if b, _ := s.base(); !(b >= shortest) || !(math.Max(math.Abs(s.off(s.from)), math.Abs(s.off(s.to))) < sharpest*b) {
		t.fail("guides less than %g m apart, or a bend too sharp for them", shortest)
	}
	return s
}

// base is the distance of the two points in plan, and the angle of the line
// from rear to front in the frame itself.
func (s *steer) base() (b, angle float64) {
	d := s.front.sub(s.rear)
	return math.Hypot(d[0], d[1]), math.Atan2(d[1], d[0])
}

// off is how far the rear point stands left of the front point's straight.
func (s *steer) off(p vec) float64 {
	sin, cos := math.Sincos(s.heading)
	return (p[1]-s.on[1])*cos - (p[0]-s.on[0])*sin
}

func (s *steer) rearAt(x float64) vec { return s.from.add(s.to.sub(s.from).mul(x)) }

// pose of the frame: the base stands at heading - asin(off / base).
func (s *steer) pose(x float64) pose {
	b, own := s.base()
	p := s.rearAt(x)
	yaw := s.heading - math.Asin(math.Max(-1, math.Min(1, s.off(p)/b))) - own
	out := spin(vec{}, vec{0, 0, 1}, yaw)
	out.t = vec{p[0], p[1], 0}.sub(out.apply(vec{s.rear[0], s.rear[1], 0}))
	return out
}

// curve of the frame over an interval. With h = off / base, which runs at a
// constant rate, yaw' = -h'/cos and yaw” = -h'² h/cos³ where cos² = 1 - h².
func (s *steer) curve(s0, s1 float64) curve {
	k := curve{c: vec{s.rear[0], s.rear[1], 0}, tilt: unmoved()}
	b, _ := s.base()
	h := math.Max(math.Abs(s.off(s.rearAt(s0))), math.Abs(s.off(s.rearAt(s1)))) / b
	speed := math.Abs(s.off(s.to)-s.off(s.from)) / b
	if speed == 0 { // the frame stands turned
		k.tilt = s.pose(s0)
		return k
	}
	if !(h < sharpest) {
		k.a = math.Inf(1)
		return k
	}
	cos := math.Sqrt(1 - h*h)
	d, dd := speed/cos, speed*speed*h/(cos*cos*cos)
	k.turn(k.c, vec{0, 0, 1}, rate{anything(), iv{-d, d}, iv{-dd, dd}})
	return k
}

func (s *steer) joints() int  { return 1 }
func (s *steer) far() float64 { return s.rear.length() + math.Max(s.from.length(), s.to.length()) }

// unsure is what rounding does to the angle, 256 roundings of what enters.
func (s *steer) unsure() float64 {
	b, _ := s.base()
	return 0x1p-45 * (1 + (s.on.length()+math.Max(s.from.length(), s.to.length()))/b)
}

package motion

import (
	"errors"
	"math"
	"testing"

	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

const (
	bodyFrame = iota
	bodyHalf
	bodyWall
)

const (
	linkTurnbuckle = iota
	linkLow
	linkUpper
)

// halves is the left side of a carrier whose wall hangs on a sliding roof half:
// a 3.0 m by 2.4 m cell, pins in metres as raised.
func halves() *Mechanism {
	x := geom.Vec{1, 0, 0}
	at := func(y, z float64) geom.Vec { return geom.Vec{0, y, z} }
	return &Mechanism{
		Bodies: []Body{
			{Name: "frame", Parent: Ground, Joint: Joint{Kind: Prismatic, Axis: geom.Vec{0, 0, 1}, Link: None}},
			{Name: "half", Parent: bodyFrame, Joint: Joint{Kind: Prismatic, Axis: geom.Vec{0, -1, 0}, Link: linkTurnbuckle}},
			{Name: "wall", Parent: bodyHalf, Joint: Joint{Kind: Revolute, Axis: x.Mul(-1), Pin: at(1.340, 2.250), Link: linkLow}},
		},
		Links: []Link{
			{Name: "turnbuckle", A: bodyFrame, B: bodyHalf, PinA: at(0.600, 2.140), PinB: at(1.300, 2.140)},
			{Name: "low brace", A: bodyFrame, B: bodyWall, PinA: at(0.560, 0.470), PinB: at(1.290, 0.500)},
			{Name: "upper brace", A: bodyFrame, B: bodyWall, PinA: at(0.560, 2.020), PinB: at(1.290, 1.200)},
		},
	}
}

func mustPath(t *testing.T, m *Mechanism, drives ...Drive) *Path {
	t.Helper()
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	p, err := NewPath(m, drives)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.7f, want %.7f", what, got, want)
	}
}

func TestBraceShortenedTo590SwingsTheWall4638Degrees(t *testing.T) {
	m := halves()
	low := m.Links[linkLow].Raised()
	p := mustPath(t, m, Drive{}, Drive{0.7, 0.7}, Drive{low, 0.590})
	near(t, "swing", mgl(p.Coordinate(bodyWall, 1)), 4.638, 0.0005)
	near(t, "upper brace", p.Length(linkUpper, 1), 1.0376, 0.00005)
	foot := p.Pose(Ground, bodyWall, 1).Apply(geom.Vec{0, 1.5, 0.25})
	near(t, "foot y", foot[1], 1.3378, 0.00005)
	near(t, "foot z", foot[2], 0.2436, 0.00005)
}

func TestArmsDrawnInUnderALockedBraceSwingTheWallBack(t *testing.T) {
	m := halves()
	p := mustPath(t, m, Drive{-0.075, -0.075}, Drive{0.7, 0.580}, Drive{0.590, 0.590})
	near(t, "swing", mgl(p.Coordinate(bodyWall, 1)), 0.681, 0.0005)
	near(t, "drawn in", p.Coordinate(bodyHalf, 1), 0.120, 1e-12)
	near(t, "upper brace", p.Length(linkUpper, 1), 1.0141, 0.00005)
	lowered := mustPath(t, m, Drive{-0.120, -0.120}, Drive{0.580, 0.580}, Drive{0.590, 0.590})
	foot := lowered.Pose(Ground, bodyWall, 1).Apply(geom.Vec{0, 1.5, 0.25})
	near(t, "foot y", foot[1], 1.356213, 1e-6)
	near(t, "foot z", foot[2], 0.128239, 1e-6)
}

func mgl(rad float64) float64 { return rad * 180 / math.Pi }

func TestLinkThatCannotCloseIsNamedWithItsReach(t *testing.T) {
	m := halves()
	_, err := NewPath(m, []Drive{{}, {0.7, 0.7}, {0.7306, 0.150}})
	var blocked *Blocked
	if !errors.As(err, &blocked) {
		t.Fatalf("got %v, want a blocked link", err)
	}
	if blocked.Link != "low brace" {
		t.Errorf("names %q", blocked.Link)
	}
	near(t, "least reach", blocked.Least, 0.1927, 0.00005)
	near(t, "most reach", blocked.Most, 3.694, 0.0005)
}

func TestUntouchedCarrierStandsExactlyAsRaised(t *testing.T) {
	m := halves()
	p := mustPath(t, m, Drive{}, Drive{0.7, 0.7}, Drive{m.Links[linkLow].Raised(), m.Links[linkLow].Raised()})
	v := geom.Vec{0, 1.5, 0.25}
	if d := p.Pose(Ground, bodyWall, 0.37).Apply(v).Sub(v).Len(); d > 1e-15 {
		t.Errorf("moved by %v", d)
	}
}

// second estimates |p”| of a body point by central differences.
func second(p *Path, ref, body int, v geom.Vec, s, h float64) float64 {
	a, b, c := p.Pose(ref, body, s-h).Apply(v), p.Pose(ref, body, s).Apply(v), p.Pose(ref, body, s+h).Apply(v)
	return a.Add(c).Sub(b.Mul(2)).Len() / (h * h)
}

func TestBoundHoldsForEveryPointAndIntervalOfRandomSteps(t *testing.T) {
	m := halves()
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		drives := []Drive{{f("v0", -0.15, 0), f("v1", -0.15, 0)}, {f("t0", 0.57, 0.71), f("t1", 0.57, 0.71)}, {f("l0", 0.57, 0.745), f("l1", 0.57, 0.745)}}
		p, err := NewPath(m, drives)
		if err != nil {
			t.Fatal(err)
		}
		s0 := f("s0", 0.01, 0.9)
		s1 := s0 + f("ds", 0.001, 0.09)
		v := geom.Vec{0, f("y", 1.2, 1.6), f("z", 0.2, 2.4)}
		k := p.Bound(Ground, bodyWall, s0, s1).Curvature(v)
		for i := range 5 {
			s := s0 + (s1-s0)*float64(i)/4
			// central difference over h = 1e-3: truncation below 1e-4, rounding 1e-9
			if got := second(p, Ground, bodyWall, v, s, 1e-3); got > k*1.02+1e-4 {
				t.Fatalf("acceleration %v above the bound %v", got, k)
			}
		}
		least, most, wide := p.LengthRange(linkUpper)
		for i := range 50 {
			l := p.Length(linkUpper, float64(i)/49)
			if l < least-wide-1e-12 || l > most+wide+1e-12 {
				t.Fatalf("length %v outside [%v, %v]", l, least, most)
			}
		}
	})
}

func TestBoundOfASteadyBraceCountsTheAngularAccelerationToo(t *testing.T) {
	m := halves()
	low := m.Links[linkLow].Raised()
	p := mustPath(t, m, Drive{}, Drive{0.7, 0.7}, Drive{low, 0.590})
	var omega, alpha float64
	for k := range 256 {
		b := p.Bound(Ground, bodyWall, float64(k)/256, float64(k+1)/256)
		omega, alpha = math.Max(omega, b.Omega), math.Max(alpha, b.Alpha)
	}
	// worked by hand: 0.0816 rad per step, al up to 0.0018 against om^2 = 0.0066
	near(t, "omega", omega, 0.0816, 0.0002)
	near(t, "alpha", alpha, 0.0018, 0.0002)
	// the whole step in one interval: the closed form |f'| <= |l'| l_max/(ab S)
	whole := p.Bound(Ground, bodyWall, 0, 1)
	lever, ground := math.Hypot(0.05, 1.75), math.Hypot(0.78, 1.78)
	closed := (low - 0.590) * low / (lever * ground * math.Sin(17.3885*math.Pi/180))
	near(t, "omega over the whole step", whole.Omega, closed, 1e-4)
}

func TestTriangleOfRightAnglesFollowsTheLawOfCosines(t *testing.T) {
	// sides 3, 4, 5: the hinge angle is 90 degrees when the link measures 5
	m := &Mechanism{
		Bodies: []Body{{Name: "arm", Parent: Ground, Joint: Joint{Kind: Revolute, Axis: geom.Vec{1, 0, 0}, Link: 0}}},
		Links:  []Link{{Name: "link", A: Ground, B: 0, PinA: geom.Vec{0, 3, 0}, PinB: geom.Vec{0, 4 * math.Cos(1), 4 * math.Sin(1)}}},
	}
	p := mustPath(t, m, Drive{m.Links[0].Raised(), 5})
	near(t, "angle", 1+p.Coordinate(0, 1), math.Pi/2, 1e-14)
}

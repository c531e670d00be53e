package sweep

import (
	"math"
	"testing"

	"boxwalk/model/geom"
)

// knownCase is a motion whose least signed distance follows from a sketch.
type knownCase struct {
	name string
	m    Motion
	part Part
	to   Part
	want float64
}

func knownCases() []knownCase {
	// The lower outer corner is 0.14 m before and 0.1 m below a pivot that is
	// not at the edge it should be: turning, it comes out by this much.
	dig := math.Hypot(0.14, 0.1)*math.Cos(math.Atan2(0.1, 0.14)-0.027) - 0.14
	// A tip at radius 1 on a slide: x = 0.2 s + sin(0.9 + s), largest where
	// cos(0.9 + s) = -0.2.
	turned := math.Acos(-0.2)
	tip := 0.2*(turned-0.9) + math.Sin(turned)
	arm := tree{
		{parent: Ground, dir: alongX, drive: drive{q1: 0.2}},
		{parent: 0, hinge: true, dir: alongY, drive: drive{q0: 0.9, q1: 1}},
	}
	// One block at s, the other at 2 + s²: nearest at s = 1/2.
	chase := tree{
		{parent: Ground, dir: alongX, drive: drive{q1: 1}},
		{parent: Ground, dir: alongX, drive: drive{q0: 2, q2: 2}},
	}
	return []knownCase{
		{"corner passes corner", slide(geom.Vec{0, 12, 0}), Part{0, block(0, 1, 0, 1, 0, 1)},
			ground(block(1.03, 2, 5, 6, 1.04, 2)), 0.05},
		{"parallel faces slide", slide(geom.Vec{0, 12, 0}), Part{0, block(0, 1, 0, 1, 0, 1)},
			ground(block(1.04, 2, -20, 40, 0, 1)), 0.04},
		{"a 3 mm fin grazes", slide(geom.Vec{0, 12, 0}), Part{0, block(0, 1, 0, 0.02, 0, 1)},
			ground(block(0.5, 0.51, 4.444, 4.447, 1.00005, 2)), 5e-5},
		{"a 3 mm fin crosses a 0.5 mm wire", slide(geom.Vec{0, 12, 0}), Part{0, block(0, 1, 0, 0.003, 0, 1)},
			ground(block(0.5, 0.5005, 4.4444, 4.4449, 0.5, 2)), -0.00175},
		{"an edge passes its apex", hinge(geom.Vec{}, alongY, 1.4), Part{0, block(0, 1, 0, 1, 0, 2)},
			ground(block(2.5, 3, -1, 2, -1, 3)), 2.5 - math.Sqrt(5)},
		{"a panel swings", hinge(geom.Vec{}, alongY, 0.027), Part{0, block(-0.1, 0.02, 0, 1.17, 0, 3.7)},
			ground(block(0.15, 0.5, -1, 3, 0, 5)), 0.15 - (3.7*math.Sin(0.027) + 0.02*math.Cos(0.027))},
		{"a wrong pivot digs in", hinge(geom.Vec{-0.12, 0, 0}, alongY, -0.027), Part{0, block(0, 0.02, 0, 1.17, -0.1, 3.6)},
			ground(block(0.02, 0.4, -5, 5, -0.5, -0.05)), -dig},
		{"a hinge on a slide", arm, Part{1, block(0, 0.001, -0.1, 0.1, 0, 1)},
			ground(block(1.5, 2, -1, 2, -1, 3)), 1.5 - tip},
		{"both move", chase, Part{0, block(-1, 0, 0, 1, 0, 1)}, Part{1, block(0, 1, 0, 1, 0, 1)}, 1.75},
		{"a face leaves its contact", hinge(geom.Vec{0, 0, 3}, alongY, 0.1), Part{0, block(-0.1, 0, 0, 1, 0, 3)},
			ground(block(0, 0.3, -1, 5, 0, 3)), 0},
	}
}

func TestLeastGapIsTheOneOnTheSketchAtEveryTolerance(t *testing.T) {
	for _, c := range knownCases() {
		for _, epsilon := range []float64{1e-3, 1e-4, 1e-6, 1e-9} {
			b := Least(c.m, Ground, c.part, []Part{c.to}, 0, 1, Options{Epsilon: epsilon})
			if !(b.Lower <= c.want+1e-12 && b.Upper >= c.want-1e-12 && b.Upper-b.Lower <= epsilon) {
				t.Errorf("%s at %g: [%.15g, %.15g], want %.15g", c.name, epsilon, b.Lower, b.Upper, c.want)
			}
		}
	}
}

func TestNearestOfManyIsNamedWithItsWitness(t *testing.T) {
	m := slide(geom.Vec{0, 12, 0})
	part := Part{0, block(0, 1, 0, 1, 0, 1)}
	against := []Part{
		ground(block(0, 1, 0, 20, 1.5, 2)),
		ground(block(0.2, 0.4, 6, 6.2, 1.25, 1.4)),
		ground(block(0, 1, 0, 20, -1, -0.3)),
	}
	b := Least(m, Ground, part, against, 0, 1, Options{Epsilon: 1e-6})
	if b.Against != 1 || math.Abs(b.Upper-0.25) > 1e-9 || math.Abs(b.N[2]-1) > 1e-12 {
		t.Errorf("%+v", b)
	}
	if w := b.B.Sub(b.A); math.Abs(w.Dot(b.N)-0.25) > 1e-9 || math.Abs(b.A[2]-1) > 1e-9 {
		t.Errorf("witness %v %v", b.A, b.B)
	}
}

func TestWhatStaysAboveTheCapIsOnlyCertifiedToIt(t *testing.T) {
	m := hinge(geom.Vec{}, alongY, 0.5)
	part := Part{0, block(0, 1, 0, 1, 0, 2)}
	far := ground(block(4, 5, 0, 1, 0, 2))
	near := ground(block(2.1, 3, 0, 1, 0, 2))
	if b := Least(m, Ground, part, []Part{far}, 0, 1, Options{Cap: 0.3}); !(b.Lower >= 0.3 && b.Lower < 4-(math.Cos(0.5)+2*math.Sin(0.5))) || !math.IsInf(b.Upper, 1) || b.Against != -1 {
		t.Errorf("capped: %+v", b)
	}
	b := Least(m, Ground, part, []Part{far, near}, 0, 1, Options{Cap: 0.3})
	if b.Against != 1 || b.Upper > 0.3 || b.Upper-b.Lower > DefaultEpsilon {
		t.Errorf("below the cap: %+v", b)
	}
}

func TestNothingToMeetLeavesBothEndsInfinite(t *testing.T) {
	b := Least(slide(alongX), Ground, Part{0, block(0, 1, 0, 1, 0, 1)}, nil, 0, 1, Options{})
	if !math.IsInf(b.Lower, 1) || !math.IsInf(b.Upper, 1) || b.Against != -1 {
		t.Errorf("%+v", b)
	}
}

func TestAMotionThatIsNoNumberCertifiesNothing(t *testing.T) {
	part, wall := Part{0, block(0, 1, 0, 1, 0, 1)}, []Part{ground(block(5, 6, 0, 1, 0, 1))}
	nan := math.NaN()
	for name, m := range map[string]Motion{
		"pose":  slide(geom.Vec{nan, 0, 0}),
		"bound": bent{slide(alongX), func(b geom.Bound) geom.Bound { b.A = nan; return b }},
		"axis":  bent{hinge(geom.Vec{}, alongY, 1), func(b geom.Bound) geom.Bound { b.C[0] = nan; return b }},
		"sign":  bent{slide(alongX), func(b geom.Bound) geom.Bound { b.Alpha = -1; return b }},

		"error bound":         misjudged{slide(alongX), geom.ErrorBound{Shift: nan}},
		"error bound's turn":  misjudged{slide(alongX), geom.ErrorBound{Turn: nan}},
		"error bound's sign":  misjudged{slide(alongX), geom.ErrorBound{Shift: -1}},
		"endless error bound": misjudged{slide(alongX), geom.ErrorBound{Turn: math.Inf(1)}},
	} {
		for _, o := range []Options{{}, {Cap: 0.1}} {
			if b := Least(m, Ground, part, wall, 0, 1, o); !math.IsInf(b.Lower, -1) || !math.IsInf(b.Upper, 1) {
				t.Errorf("%s: %+v", name, b)
			}
		}
		_, curved := m.(bent) // which a moment does not ask for
		if b := At(m, Ground, part, wall, 0.5); !curved && (!math.IsInf(b.Lower, -1) || !math.IsInf(b.Upper, 1)) {
			t.Errorf("%s: at a moment %+v", name, b)
		}
		if lo, hi, found := First(m, Ground, part, wall[0], 0, 1, 0, 1e-3); found || lo >= hi {
			t.Errorf("%s: first says clear: %v %v %v", name, lo, hi, found)
		}
		if d := Drag(m, Ground, part, wall[0], 0, 1, DragOptions{}); !math.IsInf(d.Upper, 1) {
			t.Errorf("%s: drag %+v", name, d)
		}
	}
}

// misjudged tells another error bound than a motion's own.
type misjudged struct {
	Motion
	errorBound geom.ErrorBound
}

func (d misjudged) ErrorBound(ref, body int, s float64) geom.ErrorBound {
	if body == ref {
		return geom.ErrorBound{}
	}
	return d.errorBound
}

func TestAnEndlessCurvatureLeavesAWideBracketNotAWrongOne(t *testing.T) {
	m := bent{slide(alongX), func(b geom.Bound) geom.Bound { b.A = math.Inf(1); return b }}
	b := Least(m, Ground, Part{0, block(0, 1, 0, 1, 0, 1)}, []Part{ground(block(3, 4, 0, 1, 0, 1))}, 0, 1, Options{})
	if !math.IsInf(b.Lower, -1) || math.Abs(b.Upper-1) > 1e-9 {
		t.Errorf("%+v", b)
	}
}

// apexAlone is the plane bound over one symmetric interval about the apex of a
// turning edge, with the curvature scaled, and the true least.
func apexAlone(scale float64) (bound, least float64) {
	const half = 0.05
	axis := math.Sqrt(5)
	m := bent{
		tree{{parent: Ground, hinge: true, dir: alongY, drive: drive{q0: math.Atan2(2, 1) - half, q1: 2 * half}}},
		func(b geom.Bound) geom.Bound { b.Omega *= math.Sqrt(scale); return b },
	}
	part, wall := Part{0, block(0, 1, 0, 1, 0, 2)}, ground(block(2.5, 3, -1, 2, -1, 3))
	var c cache
	c.reset(m, Ground)
	var s stretch
	s.load(&c, part, wall, 0, 1)
	return s.plane(xyz(1, 0, 0)), 2.5 - axis
}

func TestCurvatureBoundIsAttainedWithinOnePercentAndNoSmallerOneWouldDo(t *testing.T) {
	bound, least := apexAlone(1)
	sagitta := math.Sqrt(5) * (1 - math.Cos(0.05))
	if short := least - bound; short < 0 || short > 0.01*sagitta {
		t.Errorf("bound %.9g, least %.9g: short by %.2g of the sagitta", bound, least, short/sagitta)
	}
	if bound, least := apexAlone(0.95); bound <= least {
		t.Errorf("with 95 %% of the curvature %.9g is still below %.9g", bound, least)
	}
}

func TestCommonMotionOfTwoBodiesCostsNothing(t *testing.T) {
	m := tree{
		{parent: Ground, dir: alongY, drive: drive{q1: 12}},
		{parent: Ground, dir: alongY, drive: drive{q1: 12}},
	}
	a, b := Part{0, block(0, 1, 0, 1, 0, 1)}, Part{1, block(1.02, 2, 0, 1, 0, 1)}
	var c cache
	c.reset(m, Ground)
	var s stretch
	s.load(&c, a, b, 0, 1)
	if got := s.plane(xyz(1, 0, 0)); math.Abs(got-0.02) > 1e-12 {
		t.Errorf("one plane gives %.15g, want 0.02", got)
	}
}

func TestAtIsAsWideAsRounding(t *testing.T) {
	m := hinge(geom.Vec{}, alongY, 0.5)
	part, wall := Part{0, block(0, 1, 0, 1, 0, 2)}, []Part{ground(block(9, 10, 0, 1, 0, 1)), ground(block(2.5, 3, -1, 2, -1, 3))}
	b := At(m, Ground, part, wall, 1)
	want := 2.5 - (math.Cos(0.5) + 2*math.Sin(0.5))
	if b.Against != 1 || b.Lower > want || b.Upper < want || b.Upper-b.Lower > 1e-12 {
		t.Errorf("%+v, want %.15g", b, want)
	}
}

func TestLeastDoesNotAllocateOnceWarm(t *testing.T) {
	var m Motion = hinge(geom.Vec{}, alongY, 0.5)
	part, against := Part{0, block(0, 1, 0, 1, 0, 2)}, []Part{ground(block(2.3, 3, -1, 2, -1, 3)), ground(block(1, 2, 0, 1, -1, -0.1))}
	w := new(work)
	n := testing.AllocsPerRun(20, func() { w.least(m, Ground, part, against, 0, 1, Options{}) })
	if n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestNoFinOrWireIsMissedOnALongWay(t *testing.T) {
	r := newDice(17)
	for k := range 300 {
		thin := []float64{0.003, 0.0005}[k%2]
		x := 1 + 10*r.Float64()
		fin := ground(block(x, x+thin, 0.2+0.5*r.Float64(), 5, -1, 2))
		m := tree{
			{parent: Ground, dir: alongX, drive: drive{q1: 12}},
			{parent: 0, hinge: true, dir: alongX, drive: drive{q1: 0.01 * r.NormFloat64()}},
		}
		part := Part{1, block(-0.02-r.Float64(), 0, 0, 1, 0, 1)}
		b := Least(m, Ground, part, []Part{fin}, 0, 1, Options{})
		if !(b.Upper < -thin/2) {
			t.Errorf("fin at %g: [%g, %g]", x, b.Lower, b.Upper)
		}
		lo, hi, found := First(m, Ground, part, fin, 0, 1, 5e-5, 1e-6)
		if !found || 12*hi < x || 12*lo > x+5e-5 || hi-lo > 1e-6 {
			t.Errorf("fin at %g: first [%g, %g] %v", x, 12*lo, 12*hi, found)
		}
	}
}

func TestBodiesThatDoNotMoveRelativeToEachOtherAreOneQuery(t *testing.T) {
	m := tree{
		{parent: Ground, hinge: true, dir: alongY, drive: drive{q1: 2}},
		{parent: 0, dir: alongX, drive: drive{q0: 0.3}},
	}
	b := Least(m, 0, Part{0, block(0, 1, 0, 1, 0, 1)}, []Part{{1, block(1, 2, 0, 1, 0, 1)}}, 0, 1, Options{Epsilon: 1e-9})
	if b.Lower > 0.3 || b.Upper < 0.3 || b.Upper-b.Lower > 1e-12 {
		t.Errorf("%+v", b)
	}
}

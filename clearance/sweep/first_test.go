package sweep

import (
	"math"
	"testing"

	"boxwalk/model/geom"
)

func TestFirstContactOfASlideIsWhereTheFacesMeet(t *testing.T) {
	m := slide(geom.Vec{2, 0, 0})
	a, b := Part{0, block(0, 1, 0, 1, 0, 1)}, ground(block(2, 3, 0, 1, 0, 1))
	const below = 5e-5
	lo, hi, found := First(m, Ground, a, b, 0, 1, below, 1e-6)
	want := (1 + below) / 2
	if !found || lo > want || hi < want || hi-lo > 1e-6 {
		t.Errorf("[%.9g, %.9g] %v, want %.9g", lo, hi, found, want)
	}
}

func TestFirstContactOfATurningEdgeIsOnItsArc(t *testing.T) {
	m := hinge(geom.Vec{}, alongY, 1.4)
	a, b := Part{0, block(0, 1, 0, 1, 0, 2)}, ground(block(2.2, 3, -1, 2, -1, 3))
	lo, hi, found := First(m, Ground, a, b, 0, 1, 0, 1e-7)
	want := (math.Atan2(2, 1) - math.Acos(2.2/math.Sqrt(5))) / 1.4
	if !found || lo > want+1e-12 || hi < want-1e-12 || hi-lo > 1e-7 {
		t.Errorf("[%.9g, %.9g] %v, want %.9g", lo, hi, found, want)
	}
}

func TestFirstOfAClearMotionProvesAllOfIt(t *testing.T) {
	m := hinge(geom.Vec{}, alongY, 1.4)
	lo, hi, found := First(m, Ground, Part{0, block(0, 1, 0, 1, 0, 2)}, ground(block(2.5, 3, -1, 2, -1, 3)), 0.1, 0.9, 0, 1e-6)
	if found || lo != 0.9 || hi != 0.9 {
		t.Errorf("[%g, %g] %v", lo, hi, found)
	}
}

func TestFirstOfAStartInsideIsTheStart(t *testing.T) {
	m := slide(geom.Vec{-2, 0, 0})
	lo, hi, found := First(m, Ground, Part{0, block(0, 1, 0, 1, 0, 1)}, ground(block(0.9, 3, 0, 1, 0, 1)), 0, 1, 1e-3, 1e-6)
	if !found || lo != 0 || hi != 0 {
		t.Errorf("[%g, %g] %v", lo, hi, found)
	}
}

func TestFirstNeverCallsAGrazingMotionClear(t *testing.T) {
	m := slide(geom.Vec{0, 12, 0})
	lo, hi, found := First(m, Ground, Part{0, block(0, 1, 0, 1, 0, 1)}, ground(block(1, 2, -1, 20, 0, 1)), 0, 1, 0, 1e-3)
	if found || !(lo < hi) {
		t.Errorf("[%g, %g] %v", lo, hi, found)
	}
}

func TestFirstMeetsAThinFinOnALongWay(t *testing.T) {
	m := slide(geom.Vec{0, 12, 0})
	a, b := Part{0, block(0, 1, 0, 0.02, 0, 1)}, ground(block(0.5, 0.51, 7.444, 7.447, 0.5, 2))
	lo, hi, found := First(m, Ground, a, b, 0, 1, 0, 1e-6)
	want := (7.444 - 0.02) / 12
	if !found || lo > want+1e-12 || hi < want-1e-12 || hi-lo > 1e-6 {
		t.Errorf("[%.9g, %.9g] %v, want %.9g", lo, hi, found, want)
	}
}

func TestFirstOfOnePoseIsClearOnlyIfItIsProved(t *testing.T) {
	m := slide(geom.Vec{1, 0, 0})
	a := Part{0, block(0, 1, 0, 1, 0, 1)}
	if lo, hi, found := First(m, Ground, a, ground(block(2, 3, 0, 1, 0, 1)), 0.5, 0.5, 0, 1e-6); found || lo != 0.5 || hi != 0.5 {
		t.Errorf("apart: [%g, %g] %v", lo, hi, found)
	}
	if lo, hi, found := First(m, Ground, a, ground(block(1.5, 3, 0, 1, 0, 1)), 0.5, 0.5, 0, 1e-6); found || !(lo < hi) {
		t.Errorf("touching: [%g, %g] %v", lo, hi, found)
	}
	if lo, hi, found := First(m, Ground, a, ground(block(2, 3, 0, 1, 0, 1)), 1, 0, 0, 1e-6); found || !(lo < hi) {
		t.Errorf("backwards: [%g, %g] %v", lo, hi, found)
	}
}

func TestFirstThatGrazesOnTheWayProvesNothingBeyondTheGraze(t *testing.T) {
	// A turning block's lower corner, at radius sqrt 2, grazes the floor at 45
	// degrees; its upper corner, farther out, digs in at 119.77.
	m := hinge(geom.Vec{}, alongY, 2.5)
	a := Part{0, block(-1, 1, 0, 1, -1, 1.1)}
	floor := ground(block(-5, 5, -1, 2, -3, -math.Sqrt2))
	lo, hi, found := First(m, Ground, a, floor, 0, 1, 0, 1e-4)
	dig := math.Asin(math.Sqrt2/math.Hypot(1, 1.1)) + math.Atan2(1.1, 1)
	if !found || 2.5*lo > math.Pi/4 || 2.5*hi < dig || 2.5*hi > dig+1e-3 {
		t.Errorf("[%g, %g] %v: grazing at %g, digging in at %g", 2.5*lo, 2.5*hi, found, math.Pi/4, dig)
	}
}

package sweep

import (
	"math"
	"reflect"

	"boxwalk/model/geom"
)

// cache keeps the last poses and bounds asked of a motion: neighbouring
// intervals share ends, and the solids of one body share everything. A slot
// that is taken over by another key is simply asked for again.
type cache struct {
	m      Motion
	ref    int
	poses  [slots]poseSlot
	bounds [slots]boundSlot
}

const slots = 32

// placed is a pose and how far it may be off.
type placed struct {
	pose       geom.Pose
	errorBound geom.ErrorBound
}

type poseSlot struct {
	used bool
	body int
	s    float64
	at   placed
}

type boundSlot struct {
	used   bool
	body   int
	s0, s1 float64
	bound  geom.Bound
}

// reset turns to a motion. What is known of the same one stays known: the parts
// of one body, searched one after another, share poses and bounds.
func (c *cache) reset(m Motion, ref int) {
	if ref == c.ref && same(m, c.m) {
		return
	}
	c.m, c.ref = m, ref
	for i := range c.poses {
		c.poses[i].used = false
		c.bounds[i].used = false
	}
}

// same tells whether two motions are one and the same object; of values nothing
// is taken for granted. The old one is still held, so its place is not taken.
func same(a, b Motion) bool {
	x, y := reflect.ValueOf(a), reflect.ValueOf(b)
	return x.Kind() == reflect.Pointer && y.Kind() == reflect.Pointer && x.Type() == y.Type() && x.Pointer() == y.Pointer()
}

// slot spreads keys by their high bits (Fibonacci hashing).
func slot(body int, s float64) uint64 {
	return (math.Float64bits(s)*0x9e3779b97f4a7c15 + uint64(body)*0xbf58476d1ce4e5b9) >> 59
}

// pose is refFromBody at s; the pointer is good until the next call.
func (c *cache) pose(body int, s float64) *placed {
	x := &c.poses[slot(body, s)]
	if !x.used || x.body != body || x.s != s {
		*x = poseSlot{true, body, s, placed{c.m.Pose(c.ref, body, s), c.m.ErrorBound(c.ref, body, s)}}
	}
	return &x.at
}

// bound over [s0, s1]; the pointer is good until the next call.
func (c *cache) bound(body int, s0, s1 float64) *geom.Bound {
	x := &c.bounds[slot(body, s0+2*s1)]
	if !x.used || x.body != body || x.s0 != s0 || x.s1 != s1 {
		*x = boundSlot{true, body, s0, s1, c.m.Bound(c.ref, body, s0, s1)}
	}
	return &x.bound
}

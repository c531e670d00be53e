package proof

import "math"

// close checks a carrier's joints when all its links are known.
func (m *model) close(t *text) {
	if m.closed || len(m.carriers) == 0 {
		return
	}
	m.closed = true
	c := m.carrier(t)
	for i := range c.bodies {
		if b := &c.bodies[i]; b.link >= 0 && t.bad == nil {
			t.charge(2 * len(c.bodies))
			if why := c.linked(i, b); why != "" {
				t.fail("body %d and link %d: %s", i, b.link, why)
			}
		}
	}
}

// squareTo is how square to an axis things lie: a sine, or metres.
const squareTo = 1e-9

// linked tells what is wrong with a joint that a link sets, or that aims.
func (c *carrier) linked(i int, b *body) string {
	if b.link >= len(c.links) {
		return "the link is not there"
	}
	l := c.links[b.link]
	far := l.a
	switch {
	case b.kind == isAim && b.pin == l.pinA && b.parent == l.a:
		far = l.b
	case b.kind == isAim && b.pin == l.pinB && b.parent == l.b:
	case b.kind == isAim:
		return "the bar hangs on none of the link's pins"
	case l.b != i:
		return "the link does not end on the body that it sets"
	}
	switch off := b.axis.dot(l.pinB.sub(l.pinA)); {
	case b.kind == isSlide && off == 0, b.kind == isTurn && !(math.Abs(math.Sin(b.open(l))) > 1e-6):
		return "as raised it is at dead centre"
	case b.kind != isSlide && math.Abs(off) > squareTo:
		return "the link does not lie square to the axis"
	case b.kind != isSlide && !c.plane(far, b):
		return "the link leaves the plane of the joint"
	}
	return ""
}

// open is the angle at the hinge, as raised, from far pin to near pin.
func (b *body) open(l link) float64 {
	r, g := l.pinB.sub(b.pin), l.pinA.sub(b.pin)
	return math.Atan2(r.dot(b.e2), r.dot(b.e1)) - math.Atan2(g.dot(b.e2), g.dot(b.e1))
}

// plane tells whether the bodies between a link's far pin and a joint move in
// the plane square to the joint's axis only.
func (c *carrier) plane(far int, b *body) bool {
	top := c.common(far, b.parent)
	for _, x := range [2]int{far, b.parent} {
		for ; x != top; x = c.bodies[x].parent {
			switch j := &c.bodies[x]; {
			case j.kind == isSlide && math.Abs(j.axis.dot(b.axis)) > squareTo*j.axis.length():
				return false
			case (j.kind == isTurn || j.kind == isAim) && j.axis.cross(b.axis).length() > squareTo:
				return false
			}
		}
	}
	return true
}

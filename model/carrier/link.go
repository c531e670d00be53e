package carrier

import (
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// pin is where a link's pin stands, in the section plane.
func (b *builder) pin(p job.Pin, side culvert.Side) geom.Vec {
	y, z := b.place(p)
	return geom.Vec{0, float64(side) * y, z}
}

// place is a pin's distance out from the centreline and its height.
func (b *builder) place(p job.Pin) (y, z float64) {
	switch {
	case p.Out != nil:
		y = float64(*p.Out)
	case p.Behind != nil:
		y = b.s.Half - float64(*p.Behind)
	}
	switch {
	case p.AboveSill != nil:
		z = b.s.Jack + float64(*p.AboveSill)
	case p.AboveHeader != nil:
		z = b.s.Header + float64(*p.AboveHeader)
	case p.AboveFoot != nil:
		z = b.s.Foot + float64(*p.AboveFoot)
	case p.BelowTop != nil:
		z = b.s.PlaneTop - float64(*p.BelowTop)
	}
	return y, z
}

// pinBody is the body a pin is on; the frame has one for both sides.
func (b *builder) pinBody(p job.Pin, side culvert.Side) int {
	if i, ok := b.body[sided(p.Body, side)]; ok {
		return i
	}
	return b.body[p.Body]
}

// bars are the solid of a link: two halves, each hung on its own pin and
// always pointing at the other pin. Together they cover the link from eye to
// eye at its greatest length; at less they run into each other.
func (b *builder) bars(l job.Link, side culvert.Side, link int) {
	m := b.c.Mechanism.Links[link]
	long := max(float64(l.Length.Max), m.Raised())
	half := long/2 - float64(l.Eye)
	for end, hung := range [2]struct {
		body     int
		pin, far geom.Vec
	}{{m.A, m.PinA, m.PinB}, {m.B, m.PinB, m.PinA}} {
		name := sided(l.Name, side) + map[int]string{0: " near", 1: " far"}[end]
		b.c.Mechanism.Bodies = append(b.c.Mechanism.Bodies, motion.Body{Name: name, Parent: hung.body,
			Joint: motion.Joint{Kind: motion.Aim, Axis: geom.Vec{1, 0, 0}, Pin: hung.pin, Link: link}})
		b.body[name] = len(b.c.Mechanism.Bodies) - 1
		along := hung.far.Sub(hung.pin).Normalize()
		from, to := hung.pin.Add(along.Mul(float64(l.Eye))), hung.pin.Add(along.Mul(float64(l.Eye)+half))
		for n, x := range b.c.Bents {
			s := geom.Bar(x+float64(l.Beside), geom.Point2{from[1], from[2]}, geom.Point2{to[1], to[2]}, float64(l.Thickness))
			p := Part{Role: LinkBar, Name: l.Name, Side: side, Bent: n + 1, Mass: perMetre(l.Mass, half)}
			if side == culvert.Right {
				s = s.Mirrored() // add mirrors what was built for the left
			}
			b.add(p, name, s)
		}
	}
}

// lugSize is half the width of the lug that holds a pin: it must stay inside
// the eye's reach, which is 45 mm by default; judgement.
const lugSize = 0.030

// lugs hold a link's pins on their bodies: down to the strut, up to or beside
// the header tube or arm, out to the waler.
func (b *builder) lugs(l job.Link, side culvert.Side) {
	for _, p := range [2]job.Pin{l.From, l.To} {
		body := b.c.Mechanism.Bodies[b.pinBody(p, side)].Name
		for n, x := range b.c.Bents {
			b.add(Part{Role: Lug, Name: l.Name, Side: side, Bent: n + 1}, body, geom.Block(b.lug(l, p, x)))
		}
	}
}

// lug is the block around a pin at the bent at station x, grown until it meets
// what carries it.
func (b *builder) lug(l job.Link, p job.Pin, x float64) geom.Box {
	const thick = 0.01
	y, z := b.place(p)
	plane := x + float64(l.Beside)
	reach := geom.Box{Min: geom.Vec{min(x, plane) - thick, y - lugSize, z - lugSize}, Max: geom.Vec{max(x, plane) + thick, y + lugSize, z + lugSize}}
	header := b.g.Frame.Header
	under := b.s.Header - float64(header.Section.Y)/2
	cheek := float64(header.Section.X) / 2
	if m := b.kind.member(p.Body); m != nil && m.arms {
		cheek = float64(header.Arm.Section.X) / 2
	}
	switch {
	case p.AboveSill != nil:
		reach.Min[2] = min(reach.Min[2], b.sillTop())
	case p.AboveHeader != nil && z < under:
		reach.Max[2] = under
	case p.AboveHeader != nil && plane > x:
		reach.Min[0] = x + cheek
	case p.AboveHeader != nil:
		reach.Max[0] = x - cheek
	default:
		reach.Min[0], reach.Max[0] = plane-2*thick, plane+2*thick
		reach.Max[1] = max(reach.Max[1], b.s.Half-float64(b.g.Wall.Depth)-float64(b.g.Wall.Walers.Section.X))
	}
	return reach
}

func (b *builder) sillTop() float64 { return b.s.Jack + float64(b.g.Frame.Sill.Y) }

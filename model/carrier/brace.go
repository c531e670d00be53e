package carrier

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// Brace is a link to the wall of a side, as it stands raised at every bent.
type Brace struct {
	Link job.Link
	Wall geom.Vec // its pin on the wall
	Far  geom.Vec // the other one
}

// Length is from pin to pin.
func (b Brace) Length() float64 { return b.Far.Sub(b.Wall).Len() }

// Braces are the links to the wall of a side.
func (c *Carrier) Braces(side culvert.Side) []Brace {
	wall := c.bodyNamed(sided(bodyWall, side))
	var out []Brace
	for _, l := range c.Mechanism.Links {
		for _, own := range c.Gear.Links {
			switch {
			case l.Name != sided(own.Name, side):
			case l.B == wall:
				out = append(out, Brace{own, l.PinB, l.PinA})
			case l.A == wall:
				out = append(out, Brace{own, l.PinA, l.PinB})
			}
		}
	}
	return out
}

// WallHangs is where the wall of a side hangs, raised: the hinge, the middle of the
// brackets that it rolls on, or the header's centre where arms carry it. y is that of the
// left side.
func (c *Carrier) WallHangs(side culvert.Side) (y, z float64) {
	wall := c.bodyNamed(sided(bodyWall, side))
	if j := c.Mechanism.Bodies[wall].Joint; j.Kind == motion.Revolute {
		return math.Abs(j.Pin[1]), j.Pin[2]
	}
	low, high, in, out := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range c.Parts {
		if p.Role == Bracket && p.Side == side {
			b := p.Box()
			low, high = math.Min(low, b.Min[2]), math.Max(high, b.Max[2])
			in, out = math.Min(in, math.Min(math.Abs(b.Min[1]), math.Abs(b.Max[1]))), math.Max(out, math.Max(math.Abs(b.Min[1]), math.Abs(b.Max[1])))
		}
	}
	if low > high {
		return c.Half - float64(c.Gear.Wall.Depth), c.Header
	}
	return (in + out) / 2, (low + high) / 2
}

// bodyNamed is a body's number; Ground if there is none of that name.
func (c *Carrier) bodyNamed(name string) int {
	for i, b := range c.Mechanism.Bodies {
		if b.Name == name {
			return i
		}
	}
	return motion.Ground
}

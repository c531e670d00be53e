package carrier

import (
	"math"
	"sync"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// Carrier is a gear set to one pour of one cell.
type Carrier struct {
	Setting
	Gear      *job.Gear
	Kept      Kept      // hangers that its fillers are cut around
	Rear      float64   // rear end of the form, in the frame of cell and pour
	Bents     []float64 // stations of the bents, in the same frame
	Mechanism *motion.Mechanism
	Parts     []Part
	Adjusters []Adjuster
	Declared  []Pair // pairs of parts that touch or share a joint by design
	Rests     Rests  // what the roof rests on

	once   sync.Once
	pieces []weighedPiece // by part, see weighed
}

// The bodies every kind has. The rest are named by the kind.
const (
	bodyCarriage  = "carriage" // rolls along the cell
	bodyLift      = "lift"     // goes up and down on the jacks
	bodyFrame     = "frame"    // leans when the jacks of the two sides differ
	bodyPlate     = "plate"    // jack plate and screw, each side
	bodyWall      = "wall"     // wall panels, each side; on what the kind hangs it
	bodyFillers   = "fillers"
	bodyOverBents = "fillers over bents"
)

// builder collects a carrier's bodies and parts.
type builder struct {
	g    *job.Gear
	s    Setting
	c    *Carrier
	body map[string]int
	wall [2]float64 // thickness of the concrete wall, left and right
	kept Kept
	kind *kind
}

// Build makes the carrier that a setting describes, with the rear end of its
// form at station rear, its fillers cut around the hangers that stay. The gear
// must have no Lacks.
func Build(g *job.Gear, sec culvert.Section, s Setting, kept Kept, rear float64) *Carrier {
	b := &builder{g: g, s: s, body: map[string]int{}, wall: [2]float64{sec.Left, sec.Right}, kept: kept, kind: kindOf(g),
		c: &Carrier{Setting: s, Gear: g, Kept: kept, Rear: rear, Mechanism: &motion.Mechanism{}}}
	b.c.Bents = Bents(g, rear)
	b.trunk()
	b.members()
	b.kind.parts(b)
	b.rests()
	b.frameParts()
	b.wheels()
	b.jacks()
	b.links()
	b.declare()
	MarkTogether(b.c)
	return b.c
}

// Kept is what the carrier is set beside and keeps: the hangers that stay, and
// over which bents (nil hangers for none); and walls that stand already, left
// and right, which no tie runs through.
type Kept struct {
	*job.Hangers
	Over   []bool // for each bent
	Untied [2]bool
}

// Bents are the stations of a gear's bents when its form begins at rear.
func Bents(g *job.Gear, rear float64) []float64 {
	var out []float64
	for i := range g.Form.Bents {
		out = append(out, rear+float64(g.Form.First)+float64(i)*float64(g.Form.Spacing))
	}
	return out
}

// trunk hangs the bodies that every kind has, and their adjusters.
func (b *builder) trunk() {
	up, ahead := geom.Vec{0, 0, 1}, geom.Vec{1, 0, 0}
	b.hang(bodyCarriage, "", motion.Joint{Kind: motion.Prismatic, Axis: ahead, Link: motion.None})
	b.hang(bodyLift, bodyCarriage, motion.Joint{Kind: motion.Prismatic, Axis: up, Link: motion.None})
	b.hang(bodyFrame, bodyLift, motion.Joint{Kind: motion.Revolute, Axis: ahead, Link: motion.None})
	for _, side := range sides {
		plate := b.hang(sided(bodyPlate, side), bodyCarriage, motion.Joint{Kind: motion.Prismatic, Axis: up, Link: motion.None})
		b.adjuster(Adjuster{Name: "jack", Side: side, Body: plate, Link: motion.None, Range: b.g.Jack.Reading, Raised: b.s.Jack, sets: byJack})
	}
}

// members hangs the bodies of the kind, each with what moves it, and the
// fillers, which only ever come down and off.
func (b *builder) members() {
	for _, side := range sides {
		for _, m := range b.kind.bodies {
			if !m.middle {
				b.member(m, side)
			}
		}
		for _, m := range b.kind.bodies {
			if !m.middle && m.screw == nil {
				b.c.Mechanism.Bodies[b.body[sided(m.name, side)]].Joint.Link = b.linkNumber(drives(b.g, m.name)[0], side)
			}
		}
	}
	for _, m := range b.kind.bodies {
		if m.middle {
			b.member(m, culvert.Both)
		}
	}
	for _, name := range []string{bodyFillers, bodyOverBents} {
		b.hang(name, bodyCarriage, straightDown(b, culvert.Both))
	}
}

// member hangs a member on one side, or on both, with its screw.
func (b *builder) member(m member, side culvert.Side) {
	on := sided(m.on, side)
	if _, own := b.body[on]; !own {
		on = m.on
	}
	body := b.hang(sided(m.name, side), on, m.joint(b, side))
	if m.screw == nil {
		return
	}
	if reach := m.screw.of(b.g); reach != nil {
		b.adjuster(Adjuster{Name: m.screw.name, Side: side, Body: body, Link: motion.None, Range: *reach, sets: byStroke})
	}
}

// sides from left to right, the order of everything that stands on both.
var sides = [2]culvert.Side{culvert.Left, culvert.Right}

// sided is a name on one side.
func sided(name string, side culvert.Side) string {
	if side == culvert.Both {
		return name
	}
	return name + " " + side.String()
}

// hang adds a body and returns its number.
func (b *builder) hang(name, parent string, j motion.Joint) int {
	p := motion.Ground
	if parent != "" {
		p = b.body[parent]
	}
	b.c.Mechanism.Bodies = append(b.c.Mechanism.Bodies, motion.Body{Name: name, Parent: p, Joint: j})
	b.body[name] = len(b.c.Mechanism.Bodies) - 1
	return b.body[name]
}

func (b *builder) adjuster(a Adjuster) { b.c.Adjusters = append(b.c.Adjusters, a) }

// add places a solid built for the left side, mirrored for the right. What has no
// thickness is no part. A mass that is not stated is worked out from the volume.
func (b *builder) add(p Part, body string, s *geom.Solid) {
	if flat(s) {
		return
	}
	if p.Side == culvert.Right {
		s = s.Mirrored()
	}
	p.Body = b.body[body]
	p.Solid = s
	if p.Mass == (Mass{}) {
		p.Mass = ofSolid(p.Role, s)
	}
	b.c.Parts = append(b.c.Parts, p)
}

// panel is add of a prism over an outline; what is not convex is cut into convex
// pieces that share its mark, its mass and its face. An outline that crosses itself is left
// for Unfit to tell.
func (b *builder) panel(p Part, body string, outline []geom.Point2, x0, x1 float64) {
	outline = distinct(outline)
	pieces := geom.ConvexPieces(outline)
	if len(pieces) < 2 {
		b.add(p, body, geom.Prism(outline, x0, x1))
		return
	}
	whole, mass, face := 0.0, p.Mass, p.Face
	for _, piece := range pieces {
		whole += geom.Area(piece)
	}
	for i, piece := range pieces {
		p.Mass, p.Face = mass.Times(geom.Area(piece)/whole), face*geom.Area(piece)/whole
		if i > 0 {
			p.Piece = i + 1
		}
		b.add(p, body, geom.Prism(piece, x0, x1))
	}
}

// pieces divides the form's length into equal panels no longer than the
// gear's longest piece.
func (b *builder) pieces() [][2]float64 {
	l := float64(b.g.Form.Length)
	n := int(math.Ceil(l/float64(b.g.Form.Piece) - 1e-9))
	out := make([][2]float64, n)
	for i := range out {
		out[i] = [2]float64{b.c.Rear + l*float64(i)/float64(n), b.c.Rear + l*float64(i+1)/float64(n)}
	}
	return out
}

// length of the whole form as one pair of stations.
func (b *builder) whole() (x0, x1 float64) { return b.c.Rear, b.c.Rear + float64(b.g.Form.Length) }

// rectangle in y and z.
func rectangle(y0, z0, y1, z1 float64) []geom.Point2 {
	return []geom.Point2{{y0, z0}, {y1, z0}, {y1, z1}, {y0, z1}}
}

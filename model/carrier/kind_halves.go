package carrier

import (
	"slices"

	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// roofHalves: two roof halves with a filler between, on sliding header arms,
// each with its corner panel; wall panels hinge on the roof half at or above
// the top of the plane wall face. Fillers out; wall bottoms in; ease down a
// little; header arms in (stage 1); down; header arms fully in; down onto the wheels.
var _ = register(kind{
	name: "roof_halves",
	mark: mark{"hinge", "hinge"},
	needs: []need{
		{"hinge", diag.Problem{Key: "gear.kind", Summary: "roof_halves needs the hinge of the wall on the roof half", Fix: "for example hinge: {behind: 160 mm, above: 50 mm}"}},
		{"frame.header.arm", diag.Problem{Key: "frame.header", Summary: "roof_halves needs sliding arms", Fix: "give frame.header.arm: {section, length, behind, overlap}"}},
	},
	takes: []string{"corner.return", "corner.leg"},
	bodies: []member{
		{name: bodyHalf, on: bodyFrame, arms: true, joint: func(_ *builder, side culvert.Side) motion.Joint { return along(geom.Vec{0, -float64(side), 0}) }},
		{name: bodyWall, on: bodyHalf, joint: (*builder).hinge},
	},
	share: 2,
	parts: (*builder).halvesParts,
	rests: func(b *builder) ([]Strip, []Hung) {
		return []Strip{{Side: culvert.Left, From: b.s.Filler / 2, To: b.s.Half}},
			[]Hung{{Side: culvert.Left, At: b.s.Half - float64(b.g.Hinge.Behind), On: Arm, From: b.s.Half, To: b.s.Half}}
	},
	widths: func(s Setting) []Width {
		h := s.Filler / 2
		return []Width{{"filler", h, -h}, {"roof panel", s.Edge, h}}
	},
	measures: func(g *job.Gear) []Measure {
		return []Measure{{Name: "Hinge behind wall face", Value: float64(g.Hinge.Behind)}, {Name: "Hinge above plane wall face", Value: float64(g.Hinge.Above)}}
	},
})

const bodyHalf = "half"

// hinge turns the wall's foot inward.
func (b *builder) hinge(side culvert.Side) motion.Joint {
	pin := geom.Vec{0, float64(side) * (b.s.Half - float64(b.g.Hinge.Behind)), b.s.PlaneTop + float64(b.g.Hinge.Above)}
	return motion.Joint{Kind: motion.Revolute, Axis: geom.Vec{-float64(side), 0, 0}, Pin: pin, Link: motion.None}
}

func (b *builder) halvesParts() {
	half := func(s culvert.Side) string { return sided(bodyHalf, s) }
	b.wallPanels(b.wallTopWithReturn)
	b.walers()
	b.ties()
	b.corners(half)
	b.halfPanels()
	b.stringers(half, b.s.Filler/2, b.s.Edge, b.s.Filler/2, (*builder).onTubeOrArm)
	b.arms()
	c := b.s.Filler / 2
	t := float64(b.g.Roof.Taper)
	b.fillers(culvert.Both, b.filling(-c, c, t, t), b.between(culvert.Both, -c, c, t, t))
}

// seam is where the corner panel begins on the haunch: the end of the wall
// panel's return.
func (b *builder) seam() geom.Point2 {
	h := b.g.Corner.Haunch
	r := float64(b.g.Corner.Return)
	if h.Y == 0 {
		return geom.Point2{b.s.Half, b.s.PlaneTop}
	}
	return geom.Point2{b.s.Half - r*float64(h.X)/float64(h.Y), b.s.PlaneTop + r}
}

func (b *builder) wallTopWithReturn(z0, z1 float64) []geom.Point2 {
	back := b.s.Half - float64(b.g.Wall.Depth)
	if b.g.Corner.Return == 0 || b.g.Corner.Leg > 0 {
		return rectangle(back, z0, b.s.Half, z1)
	}
	seam := b.seam()
	return []geom.Point2{{b.s.Half, z0}, {b.s.Half, z1}, seam, {back, seam[1]}, {back, z0}}
}

// corners lie over the haunch from the seam to its upper edge; with legs, where
// the panel has them, down the plane wall face and along the soffit. Each piece
// is convex; together they move as one body, named by side.
func (b *builder) corners(body func(culvert.Side) string) {
	c := b.g.Corner
	seam, depth, under := b.seam(), float64(c.Depth), b.s.Soffit-float64(b.g.Roof.Depth)
	upper := geom.Point2{b.s.Half - float64(c.Haunch.X), b.s.Soffit}
	if c.Haunch.X > 0 && c.Haunch.Y > 0 {
		b.corner(body, []geom.Point2{seam, upper, {upper[0], under}, {seam[0] - depth, seam[1]}}, seam.Sub(upper).Len())
	}
	if c.Leg > 0 {
		foot := b.s.PlaneTop - float64(c.Leg)
		b.corner(body, []geom.Point2{{b.s.Half, foot}, {b.s.Half, b.s.PlaneTop}, seam, {seam[0] - depth, seam[1]}, {b.s.Half - depth, foot}}, float64(c.Leg))
	}
	if c.Soffit > 0 {
		outer := upper[0]
		if c.Haunch.X == 0 && c.Leg > 0 {
			outer -= depth // the leg reaches up to the soffit
		}
		b.corner(body, rectangle(b.s.Edge, under, outer, b.s.Soffit), float64(c.Soffit))
	}
}

// corner adds one piece of the corner panel, of a face so wide, on both sides.
func (b *builder) corner(body func(culvert.Side) string, outline []geom.Point2, face float64) {
	for _, side := range sides {
		for _, x := range b.pieces() {
			b.panel(faced(Part{Role: CornerPanel, Side: side}, b.g.Corner.Mass, face*(x[1]-x[0])), body(side), outline, x[0], x[1])
		}
	}
}

// distinct leaves out corners that fall on the one before.
func distinct(outline []geom.Point2) []geom.Point2 {
	var out []geom.Point2
	for i, p := range outline {
		if last := outline[(i+len(outline)-1)%len(outline)]; p.Sub(last).Len() > 1e-9 {
			out = append(out, p)
		}
	}
	return out
}

func (b *builder) halfPanels() {
	inner, under := b.s.Filler/2, b.s.Soffit-float64(b.g.Roof.Depth)
	outline := []geom.Point2{{inner, b.s.Soffit}, {b.s.Edge, b.s.Soffit}, {b.s.Edge, under}, {inner + float64(b.g.Roof.Taper), under}}
	for _, side := range sides {
		for _, x := range b.pieces() {
			b.panel(faced(Part{Role: RoofPanel, Side: side}, b.g.Roof.Mass, b.s.Panel*(x[1]-x[0])), sided(bodyHalf, side), outline, x[0], x[1])
		}
	}
}

// arms slide in the header tube, on the member that has them.
func (b *builder) arms() {
	a := b.g.Frame.Header.Arm
	body := b.kind.bodies[slices.IndexFunc(b.kind.bodies, func(m member) bool { return m.arms })].name
	w, h := float64(a.Section.X)/2, float64(a.Section.Y)/2
	for _, side := range sides {
		for n, x := range b.c.Bents {
			b.add(Part{Role: Arm, Side: side, Bent: n + 1, Mass: perMetre(a.Mass, b.s.ArmOuter-b.s.ArmInner)}, sided(body, side), geom.Prism(rectangle(b.s.ArmInner, b.s.Header-h, b.s.ArmOuter, b.s.Header+h), x-w, x+w))
		}
	}
}

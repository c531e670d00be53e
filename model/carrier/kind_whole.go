package carrier

import (
	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// roofWhole: one-piece roof with an edge filler each side; wall with corner
// panel draws in on rollers falling toward the centre while the roof still
// bears; then all down. With roof jacks the roof may come down first.
var _ = register(kind{
	name: "roof_whole",
	mark: mark{"slide", "roller track"},
	needs: []need{
		{"slide", diag.Problem{Key: "gear.kind", Summary: "roof_whole needs the roller track on which the walls draw in", Fix: "give slide: {fall: 1:20, draw: {min: 0 mm, max: 150 mm}, bracket: {from: 460 mm, above: 15 mm, depth: 65 mm}}"}},
	},
	takes: []string{"roof_jack", "roof.pocket", "roof.stringers.middle"},
	bodies: []member{
		{name: bodyWall, on: bodyFrame, joint: func(b *builder, side culvert.Side) motion.Joint {
			return along(geom.Vec{0, -float64(side), -float64(b.g.Slide.Fall)})
		}, screw: &screw{"draw screw", func(g *job.Gear) *job.Adjust { return &g.Slide.Draw }}},
		{name: bodyRoof, on: bodyFrame, middle: true, joint: straightDown, screw: &screw{"roof jack", roofJack}},
	},
	share: 1,
	parts: (*builder).wholeParts,
	rests: func(b *builder) ([]Strip, []Hung) {
		shoe := b.s.Half - float64(b.g.Slide.Bracket.From) + shoeFrom + shoeLong/2
		return []Strip{{Side: culvert.Both, From: -b.s.Panel, To: b.s.Panel}},
			[]Hung{{Side: culvert.Left, At: shoe, On: Header, From: b.s.Edge, To: b.s.Half}}
	},
	widths: func(s Setting) []Width {
		return []Width{{"filler", s.Edge, s.Edge - s.Filler}, {"roof panel", s.Panel, -s.Panel}}
	},
	measures: func(g *job.Gear) []Measure {
		return []Measure{{Name: "Fall of roller track", Value: float64(g.Slide.Fall), Slope: true}}
	},
})

const bodyRoof = "roof"

// roofJack is how far the roof is lowered by jacks of its own; nil where there are none.
func roofJack(g *job.Gear) *job.Adjust {
	if g.RoofJack == nil {
		return nil
	}
	return &g.RoofJack.Adjust
}

func (b *builder) wholeParts() {
	b.wallPanels(b.wallTopWithCorner)
	b.wallCorners()
	b.walers()
	b.ties()
	b.brackets()
	b.wholePanels()
	b.stringers(func(culvert.Side) string { return bodyRoof }, 0, b.s.Panel, b.s.Panel, (*builder).onRoofJackOrTube)
	t := float64(b.g.Roof.Taper)
	for _, side := range sides {
		b.fillers(side, b.filling(b.s.Panel, b.s.Edge, t, t), b.between(side, b.s.Panel, b.s.Edge, t, t))
	}
}

func (b *builder) wallTopWithCorner(z0, z1 float64) []geom.Point2 {
	return rectangle(b.s.Half-float64(b.g.Wall.Depth), z0, b.s.Half, z1)
}

// wallCorners are part of the wall body: from the top of the plane face over
// the haunch to the filler, its edge tapered as the filler's is.
func (b *builder) wallCorners() {
	c := b.g.Corner
	face := geom.Point2{float64(c.Haunch.X), float64(c.Haunch.Y)}
	back, under := b.s.Half-float64(b.g.Wall.Depth), b.s.Soffit-float64(b.g.Roof.Depth)
	edge := geom.Point2{b.s.Edge + float64(b.g.Roof.Taper), under}
	outline := []geom.Point2{{b.s.Half, b.s.PlaneTop}, {b.s.Half - float64(c.Haunch.X), b.s.Soffit}, {b.s.Edge, b.s.Soffit}, edge, {back, b.s.PlaneTop}}
	if c.Haunch.X == 0 || c.Haunch.Y == 0 {
		// without a haunch the wall panel itself reaches the soffit
		if b.s.Edge > back-1e-9 {
			return
		}
		face = geom.Point2{float64(c.Soffit), 0}
		outline = []geom.Point2{{back, b.s.Soffit}, {b.s.Edge, b.s.Soffit}, edge, {back, under}}
	}
	for _, side := range sides {
		for _, x := range b.pieces() {
			b.panel(faced(Part{Role: CornerPanel, Side: side}, c.Mass, face.Len()*(x[1]-x[0])), sided(bodyWall, side), outline, x[0], x[1])
		}
	}
}

// The shoe under a bracket runs on a wedge on the header that falls as the
// wall draws in. Their own sizes are judgement; only their faces, parallel to
// the fall, matter.
const (
	shoeFrom  = 0.100 // from the bracket's inner end
	shoeLong  = 0.060
	shoeDepth = 0.003 // at the header's end
	wedgeLow  = 0.001 // least thickness of the wedge
)

func (b *builder) brackets() {
	s := b.g.Slide
	top := b.s.Header + float64(b.g.Frame.Header.Section.Y)/2
	end := float64(b.g.Frame.Header.Length) / 2
	inner, z := b.s.Half-float64(s.Bracket.From), top+float64(s.Bracket.Above)
	running := func(y float64) float64 { return z - shoeDepth - float64(s.Fall)*(end-y) }
	y0, y1 := inner+shoeFrom, inner+shoeFrom+shoeLong
	low := y0 - float64(s.Draw.Max) - 0.02
	if f := float64(s.Fall); f > 0 {
		low = max(low, end-(z-shoeDepth-top-wedgeLow)/f)
	}
	hx := float64(b.g.Frame.Header.Section.X) / 2
	for _, side := range sides {
		for n, x := range b.c.Bents {
			wall := sided(bodyWall, side)
			b.add(Part{Role: Bracket, Side: side, Bent: n + 1}, wall, geom.Prism(rectangle(inner, z, b.s.Half-float64(b.g.Wall.Depth), z+float64(s.Bracket.Depth)), x-hx, x+hx))
			b.add(Part{Role: Bracket, Side: side, Bent: n + 1}, wall, geom.Prism([]geom.Point2{{y0, z}, {y1, z}, {y1, running(y1)}, {y0, running(y0)}}, x-hx/2, x+hx/2))
			if low < end {
				b.add(Part{Role: Track, Side: side, Bent: n + 1}, bodyFrame, geom.Prism([]geom.Point2{{low, top}, {end, top}, {end, running(end)}, {low, running(low)}}, x-hx/2, x+hx/2))
			}
		}
	}
}

// wholePanels run from filler to filler; where hanger plates lie in pockets of
// the facing, each panel is cut into convex pieces around them.
func (b *builder) wholePanels() {
	under, taper := b.s.Soffit-float64(b.g.Roof.Depth), float64(b.g.Roof.Taper)
	w := b.s.Panel
	full := []geom.Point2{{-w, b.s.Soffit}, {w, b.s.Soffit}, {w - taper, under}, {-w + taper, under}}
	for _, x := range b.pieces() {
		r := roofPiece{b, len(b.c.Parts)}
		if b.g.Roof.Pocket == nil {
			r.add(full, x[0], x[1])
			continue
		}
		r.pocketed(x[0], x[1], under, taper)
	}
}

// roofPiece is a roof panel that is being cut into solids, all of one mark.
type roofPiece struct {
	*builder
	first int // its first part
}

func (r roofPiece) add(outline []geom.Point2, x0, x1 float64) {
	if x1-x0 < 1e-6 {
		return
	}
	area := (outline[1][0] - outline[0][0]) * (x1 - x0)
	r.panel(faced(Part{Role: RoofPanel, Piece: r.next()}, r.g.Roof.Mass, area), bodyRoof, outline, x0, x1)
}

// next is the number of its next solid: 0 for the first, then from 2.
func (r roofPiece) next() int {
	if n := len(r.c.Parts) - r.first; n > 0 {
		return n + 1
	}
	return 0
}

// pocketed is a panel with a pocket on the centreline over every bent.
func (r roofPiece) pocketed(x0, x1, under, taper float64) {
	p := r.g.Roof.Pocket
	w, half := r.s.Panel, float64(p.Y)/2
	r.add([]geom.Point2{{-w, r.s.Soffit}, {-half, r.s.Soffit}, {-half, under}, {-w + taper, under}}, x0, x1)
	r.add([]geom.Point2{{half, r.s.Soffit}, {w, r.s.Soffit}, {w - taper, under}, {half, under}}, x0, x1)
	at := x0
	for _, x := range r.c.Bents {
		lo, hi := max(x0, x-float64(p.X)/2), min(x1, x+float64(p.X)/2)
		if lo >= hi {
			continue
		}
		r.add(rectangleDown(half, r.s.Soffit, under), at, lo)
		floor := rectangleDown(half, r.s.Soffit-float64(p.Z), under)
		r.builder.add(faced(Part{Role: RoofPanel, Name: PocketFloor, Piece: r.next()}, r.g.Roof.Mass, 2*half*(hi-lo)), bodyRoof, geom.Prism(floor, lo, hi))
		at = hi
	}
	r.add(rectangleDown(half, r.s.Soffit, under), at, x1)
}

// rectangleDown is symmetric about the centreline, its top edge first.
func rectangleDown(half, top, under float64) []geom.Point2 {
	return []geom.Point2{{-half, top}, {half, top}, {half, under}, {-half, under}}
}

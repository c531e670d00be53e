package views

import (
	"math"
	"sync"

	"boxwalk/export/lineart"
	"boxwalk/export/scene"
	"boxwalk/export/sheet"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// middle is the bent that sections are taken at: one near the middle that has
// hangers, if any does.
func (st stand) middle() int {
	bents := st.bay.Carrier.Bents
	best := len(bents) / 2
	reach := st.spacing() / 4
	if len(st.hangers(bents[best], reach)) > 0 {
		return best
	}
	for n, x := range bents {
		if len(st.hangers(x, reach)) > 0 {
			return n
		}
	}
	return best
}

func (st stand) spacing() float64 { return float64(st.bay.Carrier.Gear.Form.Spacing) }

// cutAt is the station at which the section of bent number n (from 0) cuts what
// runs along the form: the bent's own, and where the form ends there a little
// behind, as no piece is ahead.
func (st stand) cutAt(n int) float64 {
	c := st.bay.Carrier
	return min(c.Bents[n], c.Rear+float64(c.Gear.Form.Length)-beforeEnd)
}

// beforeEnd is how far behind the form's front end its last section lies, m: too
// little to be seen, and more than atJoint.
const beforeEnd = 1e-3

// cutGroup marks what is cut by the section: bent, links and wheels lie in or
// beside the plane and are shown whole, as bars are not cut along their length.
const cutGroup = "cut "

// atBent picks the parts that a section at bent number n (from 0) shows, and
// tells which of them are cut.
func (st stand) atBent(n int) (shown []carrier.Part, cut []bool) {
	c := st.bay.Carrier
	x := st.cutAt(n)
	wheel := nearest(c.Parts, carrier.Wheel, x)
	tie := nearest(c.Parts, carrier.Tie, x)
	for _, p := range st.parts() {
		at := p.Box()
		switch {
		case p.Bent == n+1:
			shown, cut = append(shown, p), append(cut, false)
		case p.Bent > 0:
		case p.Role == carrier.Wheel || p.Role == carrier.Fork:
			if abs(at.Center()[0]-wheel) < 0.3 {
				shown, cut = append(shown, p), append(cut, false)
			}
		case p.Role == carrier.Tie:
			if abs(at.Center()[0]-tie) < 0.01 {
				shown, cut = append(shown, p), append(cut, false)
			}
		case cuts(at.Min[0], at.Max[0], x):
			shown, cut = append(shown, p), append(cut, true)
		}
	}
	return shown, cut
}

// nearest station of a role's parts: the first one at x or ahead of it, else
// the last before it.
func nearest(parts []carrier.Part, role carrier.Role, x float64) float64 {
	ahead, behind := math.Inf(1), math.Inf(-1)
	for _, p := range parts {
		if p.Role != role {
			continue
		}
		if c := p.Box().Center()[0]; c >= x-1e-9 {
			ahead = min(ahead, c)
		} else {
			behind = max(behind, c)
		}
	}
	if !math.IsInf(ahead, 1) {
		return ahead
	}
	return behind
}

// bentKey is a bent of a carrier as it stands.
type bentKey struct {
	stand
	n int
}

// drawBent draws the carrier at a bent. Its lines are the same at every scale that is
// tried for a sheet, and are worked out once.
func (o *drafter) drawBent(v *sheet.View, st stand, n int) error {
	draw, _ := o.bents.LoadOrStore(bentKey{st, n}, sync.OnceValues(func() ([]sheet.Item, error) {
		own := sheet.NewView("")
		err := st.drawBent(own, n)
		return own.Items, err
	}))
	items, err := draw.(func() ([]sheet.Item, error))()
	v.Add(items...)
	return err
}

// drawBent draws the carrier at a bent, looking ahead, with hidden lines
// removed: panels, walers, stringers and sills are cut in the bent's plane.
func (st stand) drawBent(v *sheet.View, n int) error {
	x := st.cutAt(n)
	parts, cut := st.atBent(n)
	var sc scene.Scene
	groups := map[string]bool{}
	var list []string
	for i, p := range parts {
		o := st.object(p)
		if cut[i] {
			o.Group = cutGroup + o.Group
			if !groups[o.Group] {
				groups[o.Group] = true
				list = append(list, o.Group)
			}
		}
		sc.Objects = append(sc.Objects, o)
	}
	sc.Objects = append(sc.Objects, st.hangers(x, st.spacing()/2)...)
	cam := scene.Orthographic(geom.Vec{-1, 0, 0}, geom.Vec{0, 0, 1})
	cam.Target = geom.Vec{x, 0, 0}
	if len(list) > 0 {
		cam = cam.Cutting(scene.Cut{Plane: geom.Plane{N: geom.Vec{-1, 0, 0}, D: -x}, Groups: list})
	}
	paths, err := lineart.Draw(sc, cam)
	if err != nil {
		return err
	}
	for _, p := range paths {
		v.Line(layerOf(sc.Objects[p.Object].Style, p.Kind), p.From, p.To)
	}
	st.hiddenInside(v, parts)
	st.pins(v)
	return nil
}

// layers of styles as drawn.
var layers = map[scene.Style]sheet.Layer{
	scene.Concrete: sheet.Concrete, scene.Kept: sheet.Steel, scene.Steel: sheet.Steel,
	scene.RoofPanel: sheet.Panel, scene.WallPanel: sheet.Panel, scene.CornerPanel: sheet.Panel, scene.Filler: sheet.Panel,
	scene.Link: sheet.Hardware, scene.Wheel: sheet.Hardware, scene.Ghost: sheet.Collapsed,
}

// layerOf gives what is cut and what bounds a panel its weight; lines inside an
// outline are thin.
func layerOf(s scene.Style, k lineart.Kind) sheet.Layer {
	if k == lineart.Inner {
		return sheet.General
	}
	return layers[s]
}

// hiddenInside draws the tubes that run inside others.
func (st stand) hiddenInside(v *sheet.View, parts []carrier.Part) {
	tube := float64(st.bay.Carrier.Gear.Frame.Header.Length) / 2
	for _, p := range parts {
		if p.Role != carrier.Arm {
			continue
		}
		b := p.Box()
		inner, outer := b.Min[1], min(b.Max[1], tube)
		if p.Side == culvert.Right {
			inner, outer = b.Max[1], max(b.Min[1], -tube)
		}
		v.Polyline(sheet.Hidden, across(outer, b.Min[2]), across(inner, b.Min[2]), across(inner, b.Max[2]), across(outer, b.Max[2]))
	}
}

// pinRadius is drawn for every pin, m; the real pin is the gear's affair.
const pinRadius = 0.012

// pins marks the pins of links and hinges.
func (st stand) pins(v *sheet.View) {
	m := st.bay.Carrier.Mechanism
	mark := func(body int, pin geom.Vec) {
		at := st.pose(body).Apply(pin)
		v.Circle(sheet.Hardware, across(at[1], at[2]), perMetre*pinRadius)
	}
	for _, l := range m.Links {
		mark(l.A, l.PinA)
		mark(l.B, l.PinB)
	}
	for _, h := range st.hinges() {
		c := across(h[0], h[1])
		v.Circle(sheet.Hardware, c, 2*perMetre*pinRadius)
		v.Line(sheet.Centre, c.Add(sheet.Pt(-50, 0)), c.Add(sheet.Pt(50, 0)))
		v.Line(sheet.Centre, c.Add(sheet.Pt(0, -50)), c.Add(sheet.Pt(0, 50)))
	}
}

// hinges as they stand, in the section; none where nothing hinges.
func (st stand) hinges() []geom.Point2 {
	c := st.bay.Carrier
	var out []geom.Point2
	for _, i := range c.Hinged() {
		at := st.pose(i).Apply(c.Mechanism.Bodies[i].Joint.Pin)
		out = append(out, geom.Point2{at[1], at[2]})
	}
	return out
}

// ghosts draws the faced parts where they stood before, in the line of other
// positions of moving parts: those that are gone now, and those that have moved
// by more than least (m).
func (st stand) ghosts(v *sheet.View, before stand, n int, least float64) {
	x := st.cutAt(n)
	now := map[string]carrier.Part{}
	for _, p := range st.parts() {
		now[p.At()] = p
	}
	for _, p := range before.parts() {
		if !p.Role.Faced() {
			continue
		}
		if q, there := now[p.At()]; there && farthestMove(p, q) < least {
			continue
		}
		if poly := section(p.Solid, x); poly != nil {
			v.Polygon(sheet.Collapsed, acrossAll(poly)...)
		}
	}
}

// farthestMove is how far a part's vertices are apart in two places, at most.
func farthestMove(p, q carrier.Part) float64 {
	most := 0.0
	for i, v := range p.Vertices {
		most = max(most, q.Vertices[i].Sub(v).Len())
	}
	return most
}

// hangerRods draws the rods of the hangers up through the roof to where the
// beam or plate above holds them.
func (o *drafter) hangerRods(v *sheet.View, cell culvert.Cell) []sheet.Point {
	h := o.study.Job.LeftInPlace.Hangers
	if h == nil {
		return nil
	}
	r, top := float64(h.Rod)/2, cell.Rise+cell.Roof
	var tips []sheet.Point
	for _, line := range h.Lines {
		y := float64(line)
		for _, s := range [2]float64{-1, 1} {
			v.Line(sheet.Hardware, across(y+s*r, cell.Rise), across(y+s*r, top+rodAbove))
		}
		v.Line(sheet.Hardware, across(y-r, top+rodAbove), across(y+r, top+rodAbove))
		v.Line(sheet.Centre, across(y, cell.Rise-float64(h.Plate.Z)-float64(h.Tail)-0.04), across(y, top+rodAbove+0.04))
		tips = append(tips, across(y, top+rodAbove*0.6))
	}
	return tips
}

// rodAbove is how far a hanger rod is drawn above the roof, m: to show that it
// goes on; what holds it there is not the carrier's.
const rodAbove = 0.1

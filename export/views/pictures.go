package views

import (
	"fmt"
	"math"
	"sync"

	"boxwalk/clearance/result"
	"boxwalk/export/lineart"
	"boxwalk/export/scene"
	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// Pictures are hidden-line views of the first cell at its first pour: raised,
// at the end of every step, collapsed and rolling, each with a closer view of
// one bent. Stamps and errors are those of Sheets.
func Pictures(s *model.Study, r *result.Result) ([]Named, error) {
	o := &drafter{study: s, result: r}
	groups := o.cells()
	if len(groups) == 0 {
		return nil, errNothing
	}
	b := groups[0].bay()
	end := last(b)
	var shots []shot
	add := func(name, title string, st stand) {
		shots = append(shots, shot{name: name, title: title, st: st}, shot{name: name + "-bent", title: title + ", one bent", st: st, close: true})
	}
	add("raised", "Raised", stand{b, raisedStep})
	for k := 0; k <= end.step; k++ {
		add(fmt.Sprintf("step-%d", k+1), fmt.Sprintf("End of step %d, %s", k+1, b.Steps[k].Name), stand{b, k})
	}
	if end.step >= 0 && end.step == len(b.Steps)-1 {
		add("collapsed", "Collapsed", end)
		shots = append(shots, o.rollingShots(end)...)
	}
	out := make([]Named, len(shots))
	err := Each(len(shots), func(i int) error {
		p := shots[i]
		s, err := o.fit(o.picture(p))
		if err != nil {
			return fmt.Errorf("picture %q: %w", p.name, err)
		}
		out[i] = Named{Name: p.name, Sheet: s}
		return nil
	})
	return out, err
}

// shot is one picture.
type shot struct {
	name, title string
	st          stand
	rolled      *geom.Pose // where it has rolled to, from where it stands collapsed; nil unless it rolls
	close       bool
}

// picture is the sheet of a shot.
func (o *drafter) picture(p shot) plan {
	small := sheet.A4
	drawn, err := o.shot(p)
	pl := plan{
		name: p.name, title: p.title, supplement: fmt.Sprintf("Cell %d, pour %d", p.st.bay.Cell.Number, p.st.bay.Pour.Number), kind: "Picture",
		brief: true, size: drawn.Extents().Width(), tall: drawn.Extents().Height(), build: func(s *sheet.Sheet, n float64) error {
			if err != nil {
				return err
			}
			s.Add(&sheet.View{Scale: n, NoScale: true, Items: drawn.Items})
			return nil
		},
	}
	if !o.units().Imperial {
		pl.paper = &small
	}
	return pl
}

// shotKey is what a picture of a carrier that does not roll shows.
type shotKey struct {
	st    stand
	close bool
}

// shot is a picture drawn; the end of the last step and collapsed are the same.
func (o *drafter) shot(p shot) (*sheet.View, error) {
	draw := sync.OnceValues(func() (*sheet.View, error) {
		v := sheet.NewView("")
		return v, o.shoot(v, p)
	})
	if p.rolled != nil {
		return draw()
	}
	known, _ := o.shots.LoadOrStore(shotKey{p.st, p.close}, draw)
	return known.(func() (*sheet.View, error))()
}

// Slice shown of one bent, each way, and where the concrete is cut open for the
// view of the whole carrier, as a share of the form's length, m.
const (
	sliceHalf = 0.8
	openAt    = 0.35
)

// shoot draws a picture into a view.
func (o *drafter) shoot(v *sheet.View, p shot) error {
	b := p.st.bay
	c := b.Carrier
	x0, length := c.Rear, float64(c.Gear.Form.Length)
	sc := o.carrierScene(p)
	sc.Objects = append(sc.Objects, o.concreteScene(b)...)
	cam := scene.Isometric(geom.Vec{1, -1, 1})
	near := x0 + length*openAt
	far := x0 - 0.6
	front := x0 + length + 0.6
	if p.rolled != nil {
		near, front = near+p.rolled.T[0], front+math.Max(0, b.Advance)
		far += math.Min(0, b.Advance)
		sc.Objects = append(sc.Objects, steelScene(b)...)
	}
	lower := []string{"invert"}
	if p.close {
		x := c.Bents[p.st.middle()]
		cam = scene.Perspective(geom.Vec{x + 5.5, -1.1, b.Cell.Rise * 0.75}, geom.Vec{x, 0, b.Cell.Rise * 0.48}, geom.Vec{0, 0, 1})
		near, far, front = x+0.15, x-sliceHalf, x+sliceHalf
		cam = cam.Cutting(
			scene.Cut{Plane: plane(1, front), Drop: false},
			scene.Cut{Plane: plane(-1, -far)})
	} else {
		cam = cam.Cutting(scene.Cut{Plane: plane(-1, -far), Groups: []string{"invert", "pour", "kept"}}, scene.Cut{Plane: plane(1, front), Groups: lower})
	}
	cam = cam.Cutting(scene.Cut{Plane: plane(1, near), Groups: []string{"pour", "kept"}, Drop: false}, steelCut(b))
	return drawScene(v, sc, cam)
}

// plane square to the cell: keeps x up to d for sign 1, beyond -d for -1.
func plane(sign, d float64) geom.Plane { return geom.Plane{N: geom.Vec{sign, 0, 0}, D: d} }

// carrierScene is the carrier as it stands.
func (o *drafter) carrierScene(p shot) scene.Scene {
	var sc scene.Scene
	for _, part := range p.st.parts() {
		obj := p.st.object(part)
		if p.rolled != nil {
			obj.Solid = obj.Solid.Moved(*p.rolled)
		}
		sc.Objects = append(sc.Objects, obj)
	}
	return sc
}

// concreteScene is the concrete around a bay; what runs through is the group
// "invert", walls and roof are "pour", what stays is "kept".
func (o *drafter) concreteScene(b *model.Bay) []scene.Object {
	var out []scene.Object
	for i, c := range b.Concrete {
		obj := scene.Object{ID: fmtID("concrete", i), Name: c.Name, Group: "pour", Whole: "concrete", Solid: c.Solid}
		switch c.Zone {
		case culvert.Invert, culvert.Kicker, culvert.HaunchBottom:
			obj.Group = "invert"
		case culvert.Hanger:
			obj.Group, obj.Style, obj.Whole = "kept", scene.Kept, ""
		}
		out = append(out, obj)
	}
	return out
}

// drawScene adds the lines of a scene to a view, heavier where they bound what
// is seen, and a tone on cut concrete.
func drawScene(v *sheet.View, sc scene.Scene, cam scene.Camera) error {
	tones, err := cutTones(sc, cam)
	if err != nil {
		return err
	}
	for _, t := range tones {
		v.Hatch(sheet.ConcreteHatch, sheet.Tone, t)
	}
	paths, err := lineart.Draw(sc, cam)
	if err != nil {
		return err
	}
	for _, p := range paths {
		v.Line(pictureLayer(sc.Objects[p.Object].Style, p.Kind), p.From, p.To)
	}
	return nil
}

// pictureLayer makes rims of cuts and concrete heavy and inner edges thin.
func pictureLayer(s scene.Style, k lineart.Kind) sheet.Layer {
	switch {
	case k == lineart.Inner:
		return sheet.ConcreteHatch
	case s == scene.Concrete && k != lineart.CutRim:
		return sheet.General
	case k == lineart.Silhouette && s != scene.Concrete:
		return sheet.General
	}
	return layers[s]
}

package statics

import (
	"fmt"
	"math"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/frame"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Steel is Young's modulus of steel, kPa: 210 GPa, EN 1993-1-1 3.2.6 (from memory).
const Steel = 210e6

// rigid and Limber are the ends between which a wall panel bends, kN m² for a metre of
// it: one that does not, and one with 71 cm⁴ of steel a metre, the lightest uprights
// that panels have (judgement). What each prop takes lies between.
const rigid, Limber = 1e7, 150

// Row is a row of ties, and the most of it.
type Row struct {
	Z    float64 // m above the invert
	Line float64 // kN per m of wall, by a panel that hangs on its hinge and lies on all rows
	Own  float64 // kN, the most of a tie from the area that is nearer to it than to another
	At   float64 // m, where that tie is
}

// Tie is the most of any of the row, kN: from its own area, or as a beam brings it there.
func (r Row) Tie(run *Run) float64 { return math.Max(r.Own, r.Line*run.Most()) }

// BraceLoad is the most that a link to the wall takes at any bent.
type BraceLoad struct {
	carrier.Brace
	Angle float64 // from level, above 0 where it runs down from the wall, rad
	Line  float64 // kN per m of wall, along the link
	Load  float64 // kN
}

// Side is one wall of a cell while its concrete is fresh.
type Side struct {
	Side     culvert.Side
	From, To float64 // m, where concrete presses on the face, in the frame of cell and pour
	Foot     float64 // m above the invert, where the panels end
	Hangs    float64 // m above the invert
	Rows     []Row
	Ties     *Run // over the ties of a row; nil where there are none
	Bents    *Run // over the bents; nil where nothing presses
	Braces   []BraceLoad
	Draws    [2]float64    // kN by which braces draw the wall down on its bent, at most and at least, of the bent that has most
	Shared   [2]float64    // kN, likewise with the ties as they share by stiffness
	Thrust   [2][2]float64 // kN per m that comes to the frame, rigid and limber, at the full height and so much lower
}

// SideOf is a wall of a bay; nil where that wall stands already. lower is the level
// difference at which what comes to the frame is worked out as well.
func SideOf(b *model.Bay, f Fresh, side culvert.Side, lower float64, k *Kept) (*Side, error) {
	c := b.Carrier
	if c.Kept.Untied[nth(side)] {
		return nil, nil
	}
	s := &Side{Side: side, Foot: math.Inf(1)}
	for _, p := range c.Parts {
		if p.Role == carrier.WallPanel && p.Side == side {
			s.Foot = math.Min(s.Foot, p.Box().Min[2])
		}
	}
	s.pressed(b, f)
	at, heights := tiesOf(c, side)
	length := float64(c.Gear.Form.Length)
	var err error
	if s.Ties, err = runOf(c.Rear, length, at, s.From, s.To, k); err != nil {
		return nil, err
	}
	if s.Bents, err = runOf(c.Rear, length, c.Bents, s.From, s.To, k); err != nil || s.Bents == nil {
		return s, err
	}
	for _, z := range heights {
		s.Rows = append(s.Rows, Row{Z: z})
	}
	if err := s.owns(b, f, at); err != nil {
		return nil, err
	}
	return s, s.bends(c, b.Cell.Section, f, lower, k)
}

// nth is the place of a side in pairs, left first.
func nth(side culvert.Side) int {
	if side == culvert.Left {
		return 0
	}
	return 1
}

// pressed finds where concrete presses on the face: as far as it does at any height.
func (s *Side) pressed(b *model.Bay, f Fresh) {
	rear, front := b.Cell.Ends(b.Pour)
	y := float64(s.Side) * b.Cell.HalfSpan
	s.From = math.Min(rear.At(y, f.Base), rear.At(y, b.Cell.Rise))
	s.To = math.Max(front.At(y, f.Base), front.At(y, b.Cell.Rise))
}

// tiesOf are the places of a side's ties along the form, and their heights.
func tiesOf(c *carrier.Carrier, side culvert.Side) (at, heights []float64) {
	for _, p := range c.Parts {
		if p.Role == carrier.Tie && p.Side == side {
			m := p.Centroid()
			at, heights = append(at, m[0]), append(heights, m[2])
		}
	}
	return distinct(at), distinct(heights)
}

// owns gives each row the most of a tie from its own area of the plane face, out to the
// edges, skewed ones too.
func (s *Side) owns(b *model.Bay, f Fresh, at []float64) error {
	rear, front := b.Cell.Ends(b.Pour)
	y, low, high := float64(s.Side)*b.Cell.HalfSpan, math.Max(s.Foot, f.Base), b.Carrier.PlaneTop
	corner := func(e interface{ At(y, z float64) float64 }, z float64) load.Point {
		x := math.Max(b.Carrier.Rear, math.Min(b.Carrier.Rear+float64(b.Carrier.Gear.Form.Length), e.At(y, z)))
		return load.Point{Along: units.Length(x), Up: units.Length(z)}
	}
	face := load.Outline{corner(rear, low), corner(front, low), corner(front, high), corner(rear, high)}
	var ties []load.Point
	for _, r := range s.Rows {
		for _, x := range at {
			if r.Z >= low && r.Z <= high && x >= float64(max(face[0].Along, face[3].Along)) && x <= float64(min(face[1].Along, face[2].Along)) {
				ties = append(ties, load.Point{Along: units.Length(x), Up: units.Length(r.Z)})
			}
		}
	}
	if len(ties) == 0 {
		return nil
	}
	loads, err := f.Diagram.TieLoads(face, ties)
	for i, t := range loads {
		for k := range s.Rows {
			if r := &s.Rows[k]; math.Abs(r.Z-float64(ties[i].Up)) < 1e-6 && float64(t.Force) > r.Own {
				r.Own, r.At = float64(t.Force), float64(ties[i].Along)
			}
		}
	}
	return err
}

// wall is a metre of the panel with its props.
func (s *Side) wall(c *carrier.Carrier, sec culvert.Section, ei float64) (frame.Wall, error) {
	y, hinge := c.WallHangs(s.Side)
	s.Hangs = hinge
	w := frame.Wall{Hinge: units.Length(hinge), Height: units.Length(hinge - s.Foot), Width: 1, EI: ei}
	if len(s.Rows) > 0 {
		d := float64(c.Gear.Ties.Diameter)
		half := map[culvert.Side]float64{culvert.Left: sec.Left, culvert.Right: sec.Right}[s.Side]/2 + float64(c.Gear.Wall.Depth) + float64(c.Gear.Wall.Walers.Section.X)
		for _, r := range s.Rows {
			w.Ties = append(w.Ties, frame.Prop{Below: units.Length(hinge - r.Z), Axial: Steel * math.Pi / 4 * d * d / half / float64(c.Gear.Ties.Spacing)})
		}
	}
	for i := range s.Braces {
		p, err := s.Braces[i].prop(y, hinge, float64(c.Gear.Form.Spacing))
		if err != nil {
			return w, err
		}
		w.Braces = append(w.Braces, p)
	}
	return w, nil
}

// prop is a brace as what holds a metre of a panel that hangs at y and z: by its
// section, or, where that is not stated, as a solid bar, which only tells how braces
// share, and takes more off ties than it would.
func (b *BraceLoad) prop(y, z, spacing float64) (frame.Prop, error) {
	in, down := math.Abs(b.Wall[1])-math.Abs(b.Far[1]), b.Wall[2]-b.Far[2]
	if in < 1e-3 {
		return frame.Prop{}, fmt.Errorf("%w: %s does not run from the wall toward the cell", load.ErrRange, b.Link.Name)
	}
	area := float64(b.Link.Thickness * b.Link.Thickness)
	if b.Link.Steel != nil {
		area = float64(b.Link.Steel.A)
	}
	b.Angle = math.Atan2(down, in)
	return frame.Prop{Below: units.Length(z - b.Wall[2]), Axial: Steel * area / b.Length() / spacing,
		Angle: units.Angle(b.Angle), Arm: units.Length(y - math.Abs(b.Wall[1]))}, nil
}

// bends solves the panel with all its props, with ties alone and with braces alone, as
// rigid and as limber as it may be.
func (s *Side) bends(c *carrier.Carrier, sec culvert.Section, f Fresh, lower float64, k *Kept) error {
	for _, b := range c.Braces(s.Side) {
		s.Braces = append(s.Braces, BraceLoad{Brace: b})
	}
	low := f.lowered(lower)
	for n, ei := range [2]float64{rigid, Limber} {
		w, err := s.wall(c, sec, ei)
		if err != nil {
			return err
		}
		full, err := k.Wall(w, f.Diagram)
		if err != nil {
			return err
		}
		for i := range s.Rows {
			s.Rows[i].Line = math.Max(s.Rows[i].Line, float64(full.Ties[i]))
		}
		for i := range s.Braces {
			s.Braces[i].Line = math.Max(s.Braces[i].Line, float64(full.Braces[i]))
		}
		s.draws(full)
		if s.Thrust[n][0], err = s.toFrame(full, f.Diagram, sec.Rise); err != nil {
			return err
		}
		if len(low) == 0 {
			continue
		}
		less, err := k.Wall(w, low)
		if err != nil {
			return err
		}
		if s.Thrust[n][1], err = s.toFrame(less, low, sec.Rise); err != nil {
			return err
		}
	}
	for i := range s.Braces {
		s.Braces[i].Load = s.Braces[i].Line * s.Bents.Most()
	}
	for i := range s.Draws {
		s.Draws[i], s.Shared[i] = s.Draws[i]*s.Bents.Most(), s.Shared[i]*s.Bents.Most()
	}
	return nil
}

// draws widens what braces draw the wall down by with an answer: ties alone, which lie
// level, draw nothing.
func (s *Side) draws(a frame.WallAnswer) {
	s.Shared[0], s.Shared[1] = math.Max(s.Shared[0], -float64(a.Together.Along)), math.Min(s.Shared[1], -float64(a.Together.Along))
	for _, f := range []frame.WallForces{a.Together, a.BracesAlone} {
		s.Draws[0], s.Draws[1] = math.Max(s.Draws[0], -float64(f.Along)), math.Min(s.Draws[1], -float64(f.Along))
	}
}

// toFrame is what comes across to the frame of a metre of wall: through hinge and
// braces, and of the faces above.
func (s *Side) toFrame(a frame.WallAnswer, d load.Diagram, soffit float64) (float64, error) {
	sum := float64(a.Together.Hinge)
	for i, n := range a.Together.Braces {
		sum += float64(n) * math.Cos(s.Braces[i].Angle)
	}
	above, err := Fresh{Diagram: d, Base: float64(d[0].Up)}.Between(s.Hangs, soffit)
	return sum + above, err
}

// lowered is the pressure with the concrete so much lower; none where it is below the
// base then.
func (f Fresh) lowered(by float64) load.Diagram {
	high := f.Top - f.Base - by
	if high <= 1e-6 {
		return nil
	}
	gradient := f.Weight * f.Pumped
	e := load.Envelope{Gradient: gradient, Height: units.Length(high), Pressure: units.Pressure(math.Min(f.Most, gradient*high))}
	d, err := e.Diagram()
	if err != nil {
		return nil
	}
	for i := range d {
		d[i].Up += units.Length(f.Base)
	}
	return d
}

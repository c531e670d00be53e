package statics

import (
	"math"
	"slices"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// BondPull is the step in which an adjuster first draws wall panels off the concrete.
type BondPull struct {
	Step     string
	Adjuster carrier.Adjuster
	// Per is the pull of one of these adjusters, at the bent that draws the longest piece
	// of form, for each unit of bond: m2.
	Per  float64
	Face float64 // m2 of face that comes off with all of that side
	Ride float64 // m3 that the faces sweep for each metre by which the adjuster moves
	Bent float64 // m of form that the bent draws
}

// BondRoof is the step in which the roof first comes down off the concrete; nothing but
// weight draws it.
type BondRoof struct {
	Step   string
	Face   float64      // m2 of roof and corner panels, as they lie in plan; fillers come off by themselves
	Weight carrier.Mass // of what comes down in that step; a jack plate that leaves the invert draws nothing
	// Puller is what draws the roof down beside its weight, such as roof jacks that stand
	// between header and roof and are fixed to both, and how many of them; "" is nothing.
	Puller  string
	Pullers int
}

// Bond is what has to break the bond between faces and concrete.
type Bond struct {
	Walls []BondPull
	Roof  *BondRoof // nil where no step lowers the roof
}

// little is how far into a step the faces are looked at: so far that the bond breaks,
// and no farther. Share of the step.
const little = 1e-4

// BondOf is the bond of a bay's form as its steps go. The pull of an adjuster follows
// from virtual work: its way times its force is the bond times the volume that the
// faces sweep. The bond counts as if it held everywhere at once; a face that peels off
// from an edge takes less.
func BondOf(b *model.Bay) Bond {
	var out Bond
	drawn := map[culvert.Side]bool{}
	for k, s := range b.Steps {
		if s.Path == nil {
			return out
		}
		f := faces{b, k, s}
		for _, m := range s.Moves {
			a := b.Carrier.Adjusters[m.Adjuster]
			if !m.Moves() || a.Follows() || a.Jack() || drawn[a.Side] {
				continue
			}
			if pull, draws := f.pull(a, m); draws {
				drawn[a.Side] = true
				out.Walls = append(out.Walls, pull)
			}
		}
		if roof := f.roof(); roof != nil && out.Roof == nil {
			out.Roof = roof
		}
		if out.Roof != nil && f.wallsMove() {
			return out // what is still on the concrete came off with this step
		}
	}
	return out
}

// faces are the panels of a bay as a step begins.
type faces struct {
	bay  *model.Bay
	at   int
	step carrier.Step
}

// before is where a body stands when the step begins.
func (f faces) before(body int) geom.Pose {
	if f.at == 0 {
		return geom.Identity()
	}
	return f.bay.Steps[f.at-1].Pose(body)
}

// off is how far a point of a part moves in the little of the step, for each whole step.
func (f faces) off(p carrier.Part) geom.Vec {
	c := p.Centroid()
	return f.step.Early(p.Body, little).Apply(c).Sub(f.before(p.Body).Apply(c)).Mul(1 / little)
}

// pull is what one adjuster of a side draws off; false where it draws nothing.
func (f faces) pull(a carrier.Adjuster, m carrier.Move) (BondPull, bool) {
	out := BondPull{Step: f.step.Name, Adjuster: a, Bent: f.reach()}
	way := math.Abs(m.To - m.From)
	for _, p := range f.bay.Carrier.Parts {
		if p.Side != a.Side || p.Role != carrier.WallPanel && p.Role != carrier.CornerPanel || !f.step.Present(p) || way == 0 {
			continue
		}
		in := -f.off(p).Dot(f.normal(p)) // square to its face, away from the concrete
		if in > 1e-6 && !f.lowers(p) {
			out.Face += p.Face
			out.Ride += p.Face * in / way
		}
	}
	out.Per = out.Ride / float64(f.bay.Carrier.Gear.Form.Length) * out.Bent
	return out, out.Face > 0
}

// wallsMove tells whether any wall panel moves in the step.
func (f faces) wallsMove() bool {
	return slices.ContainsFunc(f.bay.Carrier.Parts, func(p carrier.Part) bool {
		return p.Role == carrier.WallPanel && f.step.Present(p) && f.off(p).Len() > 1e-6
	})
}

// lowers tells whether a part comes down with the roof: then its weight draws it.
func (f faces) lowers(p carrier.Part) bool {
	d := f.off(p)
	return -d[2] > 2*math.Abs(d[1])
}

// normal of a panel's face toward the concrete: of a wall across, of a corner square to
// the haunch.
func (f faces) normal(p carrier.Part) geom.Vec {
	n := geom.Vec{0, float64(p.Side), 0}
	if h := f.bay.Carrier.Gear.Corner.Haunch; p.Role == carrier.CornerPanel && h.X > 0 && h.Y > 0 {
		n = geom.Vec{0, float64(p.Side) * float64(h.Y), float64(h.X)}.Normalize()
	}
	return n
}

// reach is the longest piece of form that one bent draws: half way to its neighbours, or
// to the form's end.
func (f faces) reach() float64 {
	g := f.bay.Carrier.Gear.Form
	overhang := float64(g.Length) - float64(g.First) - float64(g.Spacing)*float64(g.Bents-1)
	return math.Max(float64(g.Spacing), float64(g.Spacing)/2+math.Max(float64(g.First), overhang))
}

// roof is what comes down where the step lowers the roof panels; nil where it does not.
func (f faces) roof() *BondRoof {
	out := BondRoof{Step: f.step.Name}
	comes := func(p carrier.Part) bool { return f.step.Present(p) && -f.off(p)[2] > 1e-6 }
	for _, p := range f.bay.Carrier.Parts {
		switch p.Role {
		case carrier.RoofPanel:
			if comes(p) && p.Name != carrier.PocketFloor {
				out.Face += p.Face
			}
		case carrier.CornerPanel:
			if comes(p) {
				out.Face += p.Face * f.normal(p)[2]
			}
		}
	}
	if out.Face == 0 {
		return nil
	}
	out.Weight = f.bay.Carrier.Weigh(comes, f.before).Mass
	for _, m := range f.step.Moves {
		if a := f.bay.Carrier.Adjusters[m.Adjuster]; m.Moves() && !a.Follows() && !a.Jack() && out.Puller == "" {
			out.Puller = a.Name
		}
	}
	for _, p := range f.bay.Carrier.Parts {
		if p.Role == carrier.RoofScrew && out.Puller != "" {
			out.Pullers++
		}
	}
	return &out
}

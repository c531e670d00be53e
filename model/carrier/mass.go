package carrier

import (
	"math"

	"boxwalk/model/geom"
	"boxwalk/model/units"
)

// Mass is a mass in kg of which only a range is known: what is stated or derived
// has both ends alike. The real mass lies between them as far as the judgement
// of those ends goes, which stands beside each.
type Mass struct{ Low, High float64 }

// Known tells a mass that is stated or derived from what is not.
func (m Mass) Known() bool { return m.Low == m.High }

// Plus adds two masses, end by end.
func (m Mass) Plus(n Mass) Mass { return Mass{m.Low + n.Low, m.High + n.High} }

// Times is the mass of so many, or of so much.
func (m Mass) Times(n float64) Mass { return Mass{m.Low * n, m.High * n} }

// steelDensity in kg/m3; the usual value for structural steel (EN 1991-1-1 gives
// 77 to 78.5 kN/m3, from memory).
const steelDensity = 7850

// How much of a part's solid is steel where the gear states no mass.
var (
	// solid plates are what they are.
	solidPlate = Mass{1, 1}
	// round bars are drawn square: a circle in its square (geometry).
	roundBar = Mass{math.Pi / 4, math.Pi / 4}
	// hollow sections: square tubes of 80 to 150 mm have 0.08 (150 x 3 mm) to 0.36
	// (120 x 12.5 mm) of their envelope (EN 10219 tables, from memory); the upper
	// end rounded outward, judgement.
	hollow = Mass{0.08, 0.40}
	// anything else may be near to a plate frame or solid; judgement.
	unsaid = Mass{0.10, 1}
)

var made = map[Role]Mass{
	JackPlate: solidPlate, JackScrew: roundBar, Tie: roundBar,
	Leg: hollow, Header: hollow, Arm: hollow, Sill: hollow, Strut: hollow, Waler: hollow, Stringer: hollow,
}

// panelMass is that of a panel of which the gear states none, kg/m2 of face:
// plywood on a light steel frame weighs about 40, a steel facing of 6 mm (47 by
// itself) on a heavy one about 110; judgement.
var panelMass = Mass{40, 110}

// ofSolid is the mass of a part of which nothing is stated.
func ofSolid(r Role, s *geom.Solid) Mass {
	m, ok := made[r]
	if !ok {
		m = unsaid
	}
	return m.Times(s.Volume() * steelDensity)
}

// perMetre is the mass of a length of a section whose mass per metre is stated;
// nothing where it is not.
func perMetre(stated *units.Number, length float64) Mass {
	if stated == nil {
		return Mass{}
	}
	return Mass{float64(*stated), float64(*stated)}.Times(length)
}

// faced makes a part a panel of a face so large, in m2.
func faced(p Part, perArea *units.Number, area float64) Part {
	m := panelMass
	if perArea != nil {
		m = Mass{float64(*perArea), float64(*perArea)}
	}
	p.Face, p.Mass = area, m.Times(area)
	return p
}

// Weighed is what a carrier weighs at one moment, and where.
type Weighed struct {
	Mass    Mass
	Guessed float64 // share of the greatest mass that is neither stated nor derived
	// The centre of gravity lies in a box, in the frame of cell and pour.
	Least, Most geom.Vec
}

// piece is what parts of one make have in common: pieces of one section weigh
// alike per length, whatever that is, so that left and right do not differ by
// what is not known of them.
type piece struct {
	role  Role
	name  string
	girth float64
}

// share is the mass of all parts of one make, and its centre.
type share struct {
	mass   Mass
	centre geom.Vec
}

// Weigh sums the parts that are present, where they stand. What lies on the
// carrier or sticks to it (mass.extra) is between nothing and that, spread over
// the faces. A stated total (mass.total) governs: it is that of all parts, and
// what is not present is taken off it; the centre of gravity is still that of
// the parts, whatever they weigh within their ranges.
func (c *Carrier) Weigh(present func(Part) bool, pose func(body int) geom.Pose) Weighed {
	list, off := c.shares(present, pose)
	var w Weighed
	var guessed float64
	for _, s := range list {
		w.Mass = w.Mass.Plus(s.mass)
		if !s.mass.Known() {
			guessed += s.mass.High
		}
	}
	extra := list[len(list)-1].mass // the last
	if stated := c.Gear.Mass.Total; stated != nil {
		total := float64(*stated)
		w.Mass = Mass{max(0, total-off.High), total - off.Low}.Plus(extra)
		guessed = extra.High + off.High - off.Low
	}
	w.Guessed = guessed / w.Mass.High
	for k := range 3 {
		w.Least[k], w.Most[k] = -furthest(list, k, -1), furthest(list, k, 1)
	}
	return w
}

// WeighRaised is Weigh of all parts, as they stand when raised.
func (c *Carrier) WeighRaised() Weighed {
	return c.Weigh(func(Part) bool { return true }, func(int) geom.Pose { return geom.Identity() })
}

// once asks for the pose of each body once.
func once(pose func(body int) geom.Pose) func(body int) geom.Pose {
	known := map[int]*geom.Pose{}
	return func(body int) geom.Pose {
		p := known[body]
		if p == nil {
			at := pose(body)
			p = &at
			known[body] = p
		}
		return *p
	}
}

// shares are the parts that are present by make, what is extra the last of them,
// and the mass of those that are not.
func (c *Carrier) shares(present func(Part) bool, pose func(body int) geom.Pose) (list []share, off Mass) {
	at := map[piece]int{}
	moment := []geom.Vec{} // over the low mass
	var face float64
	var faces geom.Vec
	pieces := c.weighed()
	pose = once(pose)
	for n := range c.Parts {
		p := &c.Parts[n]
		if !present(*p) {
			off = off.Plus(p.Mass)
			continue
		}
		key := pieces[n].piece
		i, ok := at[key]
		if !ok {
			i = len(list)
			at[key] = i
			list, moment = append(list, share{}), append(moment, geom.Vec{})
		}
		centre := pose(p.Body).Apply(pieces[n].centre)
		list[i].mass = list[i].mass.Plus(p.Mass)
		moment[i] = moment[i].Add(centre.Mul(p.Mass.Low))
		face += p.Face
		faces = faces.Add(centre.Mul(p.Face))
	}
	for i := range list {
		list[i].centre = moment[i].Mul(1 / list[i].mass.Low)
	}
	extra := share{mass: Mass{0, float64(c.Gear.Mass.Extra) * face}}
	if face > 0 {
		extra.centre = faces.Mul(1 / face)
	}
	return append(list, extra), off
}

// pieceOf is a part's make: what it is, and the two lesser sides of its box, to
// a tenth of a millimetre.
func pieceOf(p Part) piece {
	d := p.Box().Max.Sub(p.Box().Min)
	girth := d[0] + d[1] + d[2] - max(d[0], d[1], d[2])
	if p.Role == LinkBar { // slanting
		girth = 0
	}
	return piece{p.Role, p.Name, math.Round(1e4 * girth)}
}

// weighedPiece is what weighing asks of a part's solid.
type weighedPiece struct {
	piece
	centre geom.Vec
}

// weighed are the parts' makes and centres, worked out once.
func (c *Carrier) weighed() []weighedPiece {
	c.once.Do(func() {
		c.pieces = make([]weighedPiece, len(c.Parts))
		for i, p := range c.Parts {
			c.pieces[i] = weighedPiece{pieceOf(p), p.Centroid()}
		}
	})
	return c.pieces
}

// furthest is how far the centre of gravity can lie along one axis, or against
// it: at the greatest quotient of moment and mass what lies beyond it is as heavy
// as it may be and the rest as light. From any start the quotient grows until it
// is that (Dinkelbach's method).
func furthest(list []share, axis int, way float64) float64 {
	at := math.Inf(-1)
	for range len(list) + 1 {
		var mass, moment float64
		for _, s := range list {
			m, x := s.mass.Low, way*s.centre[axis]
			if x > at {
				m = s.mass.High
			}
			mass, moment = mass+m, moment+m*x
		}
		next := moment / mass
		if next <= at {
			break
		}
		at = next
	}
	return at
}

// MassRange is what a part of which the gear states no mass is taken to weigh.
type MassRange struct {
	What         string
	Mass                // from the least to the most, in Unit
	Unit, Source string // Unit is kg/m2, or 1 for a share of the solid as drawn
}

// MassRanges are the ranges in use.
func MassRanges() []MassRange {
	return []MassRange{
		{"panels, kg per square metre of face", panelMass, "kg/m2", "judgement"},
		{"hollow sections, steel in their envelope", hollow, "1", "EN 10219 tables, from memory; upper end judgement"},
		{"other parts, steel in their envelope", unsaid, "1", "judgement"},
	}
}

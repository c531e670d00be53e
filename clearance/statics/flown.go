package statics

import (
	"math"
	"slices"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
)

// Flown is what of a carrier is lifted, the heaviest of its kind in a job.
type Flown struct {
	Mass    carrier.Mass
	Guessed float64 // share of the greatest mass that is neither stated nor derived
	// How far the centre of gravity may be from the middle of what is flown along and
	// across, m, at most.
	Along, Across float64
}

// FlownOf weighs what a job names of its carriers, as raised; false where it is none of
// the carrier's.
func FlownOf(s *model.Study, of string) (Flown, bool) {
	var out Flown
	found := false
	for _, i := range s.Reported() {
		c := s.Bays[i].Carrier
		for _, pick := range picks(c, of) {
			w := c.Weigh(pick, func(int) geom.Pose { return geom.Identity() })
			if f := flown(c, pick, w); !found || f.Mass.High > out.Mass.High {
				out, found = f, true
			}
		}
	}
	return out, found
}

func flown(c *carrier.Carrier, pick func(carrier.Part) bool, w carrier.Weighed) Flown {
	box := geom.Box{Min: geom.Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, Max: geom.Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}}
	for _, p := range c.Parts {
		if pick(p) {
			b := p.Box()
			for k := range 3 {
				box.Min[k], box.Max[k] = math.Min(box.Min[k], b.Min[k]), math.Max(box.Max[k], b.Max[k])
			}
		}
	}
	off := func(k int) float64 {
		mid := (box.Min[k] + box.Max[k]) / 2
		return math.Max(math.Abs(w.Least[k]-mid), math.Abs(w.Most[k]-mid))
	}
	return Flown{w.Mass, w.Guessed, off(0), off(1)}
}

// hung are the roles of what hangs on one side of a carrier.
var hung = []carrier.Role{carrier.WallPanel, carrier.CornerPanel, carrier.RoofPanel, carrier.Waler, carrier.Stringer}

// picks are the sets of parts that one flown thing may be.
func picks(c *carrier.Carrier, of string) []func(carrier.Part) bool {
	switch of {
	case "carrier":
		return []func(carrier.Part) bool{func(carrier.Part) bool { return true }}
	case "half":
		return []func(carrier.Part) bool{func(p carrier.Part) bool { return p.Side == culvert.Left && slices.Contains(hung, p.Role) }}
	}
	// a panel is a part and the pieces behind it; panels that are alike share a mark
	var panels []map[*geom.Solid]bool
	for _, p := range c.Parts {
		if string(p.Role) != of {
			continue
		}
		if p.Piece == 0 || len(panels) == 0 {
			panels = append(panels, map[*geom.Solid]bool{})
		}
		panels[len(panels)-1][p.Solid] = true
	}
	var out []func(carrier.Part) bool
	for _, panel := range panels {
		out = append(out, func(p carrier.Part) bool { return panel[p.Solid] })
	}
	return out
}

// Legs are how a load hangs on slings.
type Legs struct {
	Weight float64 // kN, jerks counted
	Legs   int
	Angle  float64 // of a leg from the vertical, rad
	Apart  float64 // m between the points that carry, corner to corner
	Off    float64 // m, centre of gravity from the middle between them, at most
}

// Leg is the most that one leg takes, kN. A single leg takes all. Of more, two are taken
// to carry: of four on a stiff load that is what statics leaves certain, of three it is on
// the safe side. Each has half, and the nearer more by the lever, all of it where the
// centre of gravity comes under it; infinite where it lies beyond.
func (l Legs) Leg() float64 {
	if l.Legs == 1 {
		return l.Weight
	}
	share := 0.5 + l.Off/l.Apart
	if !(share <= 1) {
		return math.Inf(1)
	}
	return l.Weight * share / math.Cos(l.Angle)
}

// LegsOf are the legs of a flown thing of so much mass, kg.
func LegsOf(f job.Flown, mass, along, across float64) Legs {
	l := Legs{Weight: mass * 9.80665 / 1000 * float64(f.Jerks), Legs: f.Legs, Angle: float64(f.Angle), Apart: math.Hypot(float64(f.Apart), float64(f.Across))}
	if f.Legs == 1 {
		l.Angle = 0
	}
	l.Off = math.Hypot(along+float64(f.Off), across)
	return l
}

package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// freeEdge is how far from a tread the slab ends across the cell. Toward the
// wall it runs on under haunch, kicker and wall, which load it and are no free
// edge, to the outside of the wall at least. A channel's edge is one as if the
// channel went through the slab; the tread may wander toward it.
func (r *route) freeEdge() float64 {
	outer := r.Carrier.Gauge/2 + float64(r.Carrier.Gear.Wheels.Tread)/2
	edge := r.Cell.HalfSpan + math.Min(r.Cell.Left, r.Cell.Right) - outer
	if r.Cell.Channel.Exists() {
		edge = math.Min(edge, r.besideChannel()-r.Tol.Value("wander"))
	}
	return edge
}

// offTheSlab says over which edge treads run that do not bear whole.
func (r *route) offTheSlab(edge float64) string {
	tread := float64(r.Carrier.Gear.Wheels.Tread)
	if r.Cell.Channel.Exists() && r.besideChannel()-r.Tol.Value("wander") <= edge {
		return fmt.Sprintf("the treads run onto the edge of the low-flow channel: with wander %s of a tread's width of %s do not bear; move the channel or the wheels", r.mm(math.Min(-edge, tread)), r.mm(tread))
	}
	return fmt.Sprintf("the treads run %s beyond the outside of the walls, where there is no slab: gauge %s in a cell %s wide; a narrower gauge", r.mm(-edge), r.mm(r.Carrier.Gauge), r.mm(2*r.Cell.HalfSpan))
}

func (r *route) bearingChecks(*model.Study) []Judged { return []Judged{r.bearingCheck()} }

// bearingCheck holds the worst wheel load, rocking on two diagonal wheels,
// against what the invert bears by then.
func (r *route) bearingCheck() Judged {
	loads, err := r.wheelLoads()
	worst := loads.rocking
	if err != nil {
		return open("roll.bearing", r.subject("wheels"), "kN", r.told(err), r.underway())
	}
	w := r.Carrier.Gear.Wheels
	edge := r.freeEdge()
	if edge < 0 {
		return open("roll.bearing", r.subject("wheels"), "kN", r.offTheSlab(edge), r.underway())
	}
	invert, why := r.invert()
	if why != "" {
		return open("roll.bearing", r.subject("wheels"), "kN", why, r.underway())
	}
	// along the cell roll.support keeps the wheels this far inside the slab's end
	patch := load.Patch{Along: w.Patch, Across: w.Tread, EdgeAlong: units.Length(r.limits.of("roll.support").Value), EdgeAcross: units.Length(edge), Depth: units.Length(r.Cell.Invert)}
	v, err := patch.OnConcrete(worst, invert.strength, load.ACIBasis())
	if err != nil {
		return open("roll.bearing", r.subject("wheels"), "kN", fmt.Sprintf("the invert %s: %v", invert.basis, err), r.underway())
	}
	return r.one("roll.bearing", "wheels", "kN", float64(v.Demand), 0, Limit{Value: float64(v.Capacity), Source: v.Source.String() + "; strength: " + invert.source}, result.Max,
		fmt.Sprintf("rocking on two diagonal wheels one carries %s; with its factor %s on a contact of %s x %s, %s from the nearest free edge across; the invert %s and bears %s",
			r.force(worst), r.force(v.Demand), r.mm(float64(w.Patch)), r.mm(float64(w.Tread)), r.mm(edge), invert.basis, r.force(v.Capacity)))
}

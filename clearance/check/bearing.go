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
	outer := r.bay.Carrier.Gauge/2 + float64(r.bay.Carrier.Gear.Wheels.Tread)/2
	edge := r.bay.Cell.HalfSpan + math.Min(r.bay.Cell.Left, r.bay.Cell.Right) - outer
	if r.bay.Cell.Channel.Exists() {
		edge = math.Min(edge, r.besideChannel()-r.bay.Tol.Value("wander"))
	}
	return edge
}

// offTheSlab says over which edge treads run that do not bear whole.
func (r *route) offTheSlab(edge float64) string {
	tread := float64(r.bay.Carrier.Gear.Wheels.Tread)
	if r.bay.Cell.Channel.Exists() && r.besideChannel()-r.bay.Tol.Value("wander") <= edge {
		return fmt.Sprintf("the treads run onto the edge of the low-flow channel: with wander %s of a tread's width of %s do not bear; move the channel or the wheels", r.bay.mm(math.Min(-edge, tread)), r.bay.mm(tread))
	}
	return fmt.Sprintf("the treads run %s beyond the outside of the walls, where there is no slab: gauge %s in a cell %s wide; a narrower gauge", r.bay.mm(-edge), r.bay.mm(r.bay.Carrier.Gauge), r.bay.mm(2*r.bay.Cell.HalfSpan))
}

func (r *route) bearingChecks(*model.Study) []Judged { return []Judged{r.bearingCheck()} }

// bearingCheck holds the worst wheel load, rocking on two diagonal wheels,
// against what the invert bears by then.
func (r *route) bearingCheck() Judged {
	loads, err := r.wheelLoads()
	worst := loads.rocking.Load
	if err != nil {
		return open("roll.bearing", r.bay.subject("wheels"), "kN", r.bay.told(err), r.bay.underway())
	}
	w := r.bay.Carrier.Gear.Wheels
	edge := r.freeEdge()
	if edge < 0 {
		return open("roll.bearing", r.bay.subject("wheels"), "kN", r.offTheSlab(edge), r.bay.underway())
	}
	invert, why := r.invert()
	if why != "" {
		return open("roll.bearing", r.bay.subject("wheels"), "kN", why, r.bay.underway())
	}
	// along the cell roll.support keeps the wheels this far inside the slab's end
	patch := load.Patch{Along: w.Patch, Across: w.Tread, EdgeAlong: units.Length(r.bay.limits.of("roll.support").Value), EdgeAcross: units.Length(edge), Depth: units.Length(r.bay.Cell.Invert)}
	v, err := patch.OnConcrete(worst, invert.strength, load.ACIBasis())
	if err != nil {
		return open("roll.bearing", r.bay.subject("wheels"), "kN", fmt.Sprintf("the invert %s: %v", invert.basis, err), r.bay.underway())
	}
	demand, bears := r.bay.against("kN", float64(v.Demand), float64(v.Capacity))
	return r.one("roll.bearing", "wheels", "kN", float64(v.Demand), 0, Limit{Value: float64(v.Capacity), Source: v.Source.String() + "; strength: " + invert.source}, result.Max,
		fmt.Sprintf("rocking on two diagonal wheels one carries %s; with its factor %s on a contact of %s x %s, %s from the nearest free edge across; the invert %s and bears %s",
			r.bay.demand(worst), demand, r.bay.mm(float64(w.Patch)), r.bay.mm(float64(w.Tread)), r.bay.mm(edge), invert.basis, bears)).with(r.workedBearing(worst, edge))
}

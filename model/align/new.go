package align

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/diag"
)

// Limits of what is taken for the alignment of a culvert, all judgement: wide enough
// for any, narrow enough that a slipped digit is refused.
const (
	mostElements = 10000
	leastRadius  = 5.0               // m
	mostRadius   = 1e9               // m; flatter is a tangent
	mostTurn     = math.Pi / 3       // of one angle point
	mostGrade    = 0.25              // rise over run
	mostFall     = 0.10              // crossfall
	mostAway     = 1e8               // m, of any coordinate or station
	closing      = 1e-3              // m, by which plan and profile may differ in length
	agreeing     = 0.5e-3            // m, between the start's elevation and the profile's
	mostArc      = 2 * math.Pi * 0.9 // of one curve
)

// Alignment is a line that has been found sound. It does not change and is
// safe for use by many goroutines.
type Alignment struct {
	start     Start
	elements  []Element
	points    []PVI
	crossfall float64
	plan      []piece
	profile   []rise
	length    float64
}

// New is the alignment that starts at start and runs through the plan elements in
// order. Without elements it is one tangent as long as the profile. Without a
// profile it has the start's grade all along; with one, that must reach from
// the start's station to the end of the plan, and its elevation at the start
// must be the start's. The crossfall is positive falling to the right. The
// line is nil if there is any fault; all are returned, their keys those below
// alignment in a job file, such as plan[2].curve.radius.
func New(start Start, elements []Element, profile []PVI, crossfall float64) (*Alignment, diag.Problems) {
	var c checker
	c.start(start, crossfall, len(profile) > 0)
	c.profile(profile)
	if len(elements) == 0 && len(c.faults) == 0 {
		elements = c.straight(start, profile)
	}
	if len(elements) > 0 {
		c.plan(elements)
	}
	if len(c.faults) > 0 {
		return nil, c.faults
	}
	a := &Alignment{start: start, elements: slices.Clone(elements), points: slices.Clone(profile), crossfall: crossfall}
	a.plan = planOf(a.elements)
	last := a.plan[len(a.plan)-1]
	a.length = last.to
	a.profile = profileOf(start, a.points, a.length)
	c.closes(a)
	if len(c.faults) > 0 {
		return nil, c.faults
	}
	return a, nil
}

// checker collects the faults of one line.
type checker struct{ faults diag.Problems }

func (c *checker) fail(path, summary, detail, fix string) {
	c.faults = append(c.faults, diag.Problem{Key: path, Summary: summary, Detail: detail, Fix: fix})
}

// nearest is the fix for a value out of range: the end that is next to it.
func nearest(v, least, most float64, unit string) string {
	if v > most {
		return "write at most " + num(most, unit)
	}
	return "write at least " + num(least, unit)
}

// within asks that least <= v <= most; what is not a number is refused.
func (c *checker) within(path string, v, least, most float64, unit string) bool {
	if v >= least && v <= most {
		return true
	}
	c.fail(path, fmt.Sprintf("%s is not from %s to %s", num(v, unit), num(least, unit), num(most, unit)), "", nearest(v, least, most, unit))
	return false
}

func (c *checker) start(s Start, crossfall float64, profiled bool) {
	c.within("start.station", s.Station, -mostAway, mostAway, "m")
	c.within("start.elevation", s.Elevation, -mostAway, mostAway, "m")
	c.within("start.bearing", s.Bearing, -4*math.Pi, 4*math.Pi, "rad")
	c.within("start.easting", s.Easting, -mostAway, mostAway, "m")
	c.within("start.northing", s.Northing, -mostAway, mostAway, "m")
	c.within("crossfall", crossfall, -mostFall, mostFall, "%")
	if !profiled {
		c.within("grade", s.Grade, -mostGrade, mostGrade, "%")
	}
}

func (c *checker) plan(elements []Element) {
	if len(elements) > mostElements {
		c.fail("plan", fmt.Sprintf("has %d elements", len(elements)), "", fmt.Sprintf("at most %d are read", mostElements))
		return
	}
	length := 0.0
	for i, e := range elements {
		if e.Length == 0 && (i == 0 || i == len(elements)-1) {
			c.fail(fmt.Sprintf("plan[%d].turn", i), "an angle point at the alignment's start or end has nothing to turn", "", "turn the start's bearing, or leave it out")
		}
	}
	for i, e := range elements {
		c.element(fmt.Sprintf("plan[%d]", i), e)
		length += e.Length
	}
	if length == 0 && len(c.faults) == 0 {
		c.fail("plan", "has no length", "", "write for example {tangent: 30 m}")
	}
}

func (c *checker) element(path string, e Element) {
	switch {
	case e.Length == 0:
		c.within(path+".turn", e.Turn, -mostTurn, mostTurn, "deg")
	case e.Radius == 0:
		c.within(path+".tangent", e.Length, 0, mostAway, "m")
	default:
		if !c.within(path+".curve.length", e.Length, 0, mostAway, "m") {
			return
		}
		r := math.Abs(e.Radius)
		if c.within(path+".curve.radius", r, leastRadius, mostRadius, "m") && e.Length/r > mostArc {
			c.fail(path+".curve.length", fmt.Sprintf("%s on a radius of %s turns the alignment by %s", num(e.Length, "m"), num(r, "m"), num(e.Length/r, "deg")), "", "write at most "+num(mostArc*r, "m"))
		}
	}
}

// straight is the plan of a line that is told by its profile alone.
func (c *checker) straight(s Start, profile []PVI) []Element {
	if len(profile) == 0 {
		c.fail("plan", "is not there, and neither is a profile: the alignment has no length", "", "write for example {tangent: 30 m}")
		return nil
	}
	last := profile[len(profile)-1].Station
	if !(last-s.Station >= leastCut) {
		c.fail(fmt.Sprintf("profile[%d].station", len(profile)-1), fmt.Sprintf("the profile ends at %s, the alignment starts at %s (start.station)", num(last, "m"), num(s.Station, "m")), "", "write the stations of both on one count")
		return nil
	}
	return []Element{Tangent(last - s.Station)}
}

// closes asks that plan and profile tell of the same stretch.
func (c *checker) closes(a *Alignment) {
	if len(a.points) == 0 {
		return
	}
	first, last := a.points[0], a.points[len(a.points)-1]
	end := a.start.Station + a.length
	if d := first.Station - a.start.Station; d > closing {
		c.fail("profile[0].station", fmt.Sprintf("the profile begins at %s, %s after the alignment at %s", num(first.Station, "m"), num(d, "m"), num(a.start.Station, "m")), "", "begin it at "+num(a.start.Station, "m"))
		return
	}
	if d := end - last.Station; d > closing {
		c.fail(fmt.Sprintf("profile[%d].station", len(a.points)-1), fmt.Sprintf("the profile ends at %s, %s short of the plan's end at %s", num(last.Station, "m"), num(d, "m"), num(end, "m")),
			fmt.Sprintf("%s + %s of plan = %s", num(a.start.Station, "m"), num(a.length, "m"), num(end, "m")), "end it at "+num(end, "m"))
		return
	}
	if z := a.profile[0].elevation(0); !(math.Abs(z-a.start.Elevation) <= agreeing) {
		c.fail("start.elevation", fmt.Sprintf("%s is not the profile's %s at that station", num(a.start.Elevation, "m"), num(z, "m")), "", "write "+num(z, "m"))
	}
}

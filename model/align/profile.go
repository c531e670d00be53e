package align

import (
	"fmt"
	"math"
	"sort"
)

// rise is a stretch of the profile: a grade, or a parabola of constant change
// of grade. Elevations are those of the ground.
type rise struct {
	from, to float64 // along the alignment
	z, grade float64 // where it starts
	rate     float64 // change of grade per metre
}

func (r rise) elevation(along float64) float64 {
	s := along - r.from
	return r.z + s*(r.grade+s*r.rate/2)
}

func (r rise) gradeAt(along float64) float64 { return r.grade + (along-r.from)*r.rate }

// profile checks the points by themselves: stations going ahead, grades in
// range, curves that fit.
func (c *checker) profile(points []PVI) {
	if len(points) > mostElements {
		c.fail("profile", fmt.Sprintf("has %d points", len(points)), "", fmt.Sprintf("at most %d are read", mostElements))
		return
	}
	if len(points) == 1 {
		c.fail("profile", "has one point: a grade needs two", "", "write the elevation at both ends of the alignment")
	}
	for i, p := range points {
		path := fmt.Sprintf("profile[%d]", i)
		c.within(path+".station", p.Station, -mostAway, mostAway, "m")
		c.within(path+".elevation", p.Elevation, -mostAway, mostAway, "m")
		c.within(path+".curve", p.Curve, 0, mostAway, "m")
		if i > 0 {
			c.follows(path, points[i-1], p)
		}
		if p.Curve > 0 && (i == 0 || i == len(points)-1) {
			c.fail(path+".curve", "a vertical curve needs a grade on both sides", "", "leave it out at the first and the last point")
		}
	}
}

func (c *checker) follows(path string, before, p PVI) {
	run := p.Station - before.Station
	if !(run > 0) {
		c.fail(path+".station", fmt.Sprintf("%s does not lie beyond %s of the point before", num(p.Station, "m"), num(before.Station, "m")), "", "write the points in order of their stations")
		return
	}
	if g := (p.Elevation - before.Elevation) / run; !(math.Abs(g) <= mostGrade) {
		c.fail(path+".elevation", fmt.Sprintf("the grade of %s from the point before is steeper than %s", num(g, "%"), num(mostGrade, "%")), fmt.Sprintf("(%s - %s) / %s", num(p.Elevation, "m"), num(before.Elevation, "m"), num(run, "m")),
			fmt.Sprintf("write an elevation from %s to %s", num(before.Elevation-mostGrade*run, "m"), num(before.Elevation+mostGrade*run, "m")))
	}
	switch need := (before.Curve + p.Curve) / 2; {
	case !(need > run+1e-9):
	case p.Curve == 0:
		c.fail(path+".station", fmt.Sprintf("the vertical curve at the point before reaches beyond this one: its half is %s, the points are %s apart", num(need, "m"), num(run, "m")), "", "write a curve of at most "+num(2*run, "m")+" at the point before")
	case before.Curve == 0:
		c.fail(path+".curve", fmt.Sprintf("this vertical curve reaches back beyond the point before: its half is %s, the points are %s apart", num(need, "m"), num(run, "m")), "", "write at most "+num(2*run, "m"))
	default:
		c.fail(path+".curve", fmt.Sprintf("this vertical curve and the one before overlap: their halves need %s, the points are %s apart", num(need, "m"), num(run, "m")), fmt.Sprintf("%s / 2 + %s / 2 = %s", num(before.Curve, "m"), num(p.Curve, "m"), num(need, "m")),
			fmt.Sprintf("write two curves of %s together at most", num(2*run, "m")))
	}
}

// profileOf places grades and curves along the alignment; the first begins at its
// start and the last ends at its end.
func profileOf(start Start, points []PVI, length float64) []rise {
	if len(points) == 0 {
		return []rise{{to: length, z: start.Elevation, grade: start.Grade}}
	}
	var all []rise
	for i := 0; i+1 < len(points); i++ {
		p, q := points[i], points[i+1]
		run := q.Station - p.Station
		g := (q.Elevation - p.Elevation) / run
		x, half := p.Station-start.Station, p.Curve/2
		if half > 0 {
			before := (p.Elevation - points[i-1].Elevation) / (p.Station - points[i-1].Station)
			all = append(all, rise{from: x - half, to: x + half, z: p.Elevation - before*half, grade: before, rate: (g - before) / p.Curve})
		}
		if run > half+q.Curve/2 {
			all = append(all, rise{from: x + half, to: x + run - q.Curve/2, z: p.Elevation + g*half, grade: g})
		}
	}
	return clipped(all, length)
}

// clipped keeps what lies on the alignment, at least one stretch; a stretch that is
// cut still tells the same elevations.
func clipped(all []rise, length float64) []rise {
	var out []rise
	for _, r := range all {
		if r.to > 0 && r.from < length {
			out = append(out, r.startingAt(math.Max(0, r.from)))
		}
	}
	if len(out) == 0 {
		return out
	}
	out[0] = out[0].startingAt(0)
	out[len(out)-1].to = length
	return out
}

func (r rise) startingAt(along float64) rise {
	return rise{from: along, to: r.to, z: r.elevation(along), grade: r.gradeAt(along), rate: r.rate}
}

// riseAt is the stretch at a distance along: where two meet, the one ahead.
func (a *Alignment) riseAt(along float64) rise {
	i := sort.Search(len(a.profile), func(i int) bool { return a.profile[i].from > along })
	return a.profile[max(0, i-1)]
}

// elevation at a distance along the alignment, on the end grades beyond its ends.
func (a *Alignment) elevation(along float64) float64 {
	inside := math.Max(0, math.Min(a.length, along))
	r := a.riseAt(inside)
	return r.elevation(inside) + r.gradeAt(inside)*(along-inside)
}

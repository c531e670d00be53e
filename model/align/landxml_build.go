package align

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/model/diag"

	"github.com/go-gl/mathgl/mgl64"
)

// How well a file's numbers must agree with each other, all judgement. A stored
// length was seen to be 1.9 mm off its points on 555 m: 3.5 parts per million.
const (
	agreeLength = 5e-3  // m, or
	agreePart   = 20e-6 // of the length, whichever is more
	meeting     = 2e-3  // m, between the end of an element and the start of the next
	tangent     = 1e-3  // rad, beyond which a curve that is not tangent is told
	noTurn      = 1e-9  // rad, below which elements run straight on
)

// laid is an element as the points have it, in metres.
type laid struct {
	at         diag.Place
	curve      bool
	start, end mgl64.Vec2
	in, out    float64 // direction at its ends, anticlockwise from east
	Element
}

// build makes the alignment of the chosen alignment.
func (r *reader) build(a *rawAlignment) *Alignment {
	raw := r.scaled(a)
	if len(raw) == 0 {
		r.failAt(a.at, "the alignment has no <Line> or <Curve>", "export it with its geometry (CoordGeom)")
		return nil
	}
	if len(a.points) == 0 {
		r.failAt(a.at, "the alignment has no profile (ProfAlign with PVI): the elevation of the invert is not known", "export the design profile with it")
	}
	pieces := r.lay(raw, a)
	if r.problems.HasErrors() {
		return nil
	}
	plan := r.join(pieces)
	if r.problems.HasErrors() {
		return nil
	}
	return r.close(a, pieces, plan)
}

// scaled are the elements in metres.
func (r *reader) scaled(a *rawAlignment) []rawElement {
	scale := func(p *mgl64.Vec2) *mgl64.Vec2 {
		if p == nil {
			return nil
		}
		q := p.Mul(r.metres)
		return &q
	}
	a.start = scale(a.start)
	out := make([]rawElement, len(a.elements))
	for i, e := range a.elements {
		e.length *= r.metres
		e.radius *= r.metres
		e.start, e.end, e.centre, e.pi = scale(e.start), scale(e.end), scale(e.centre), scale(e.pi)
		out[i] = e
	}
	return out
}

// lay places every element by its points, with the tangents that a curve with a
// PI only leaves unsaid.
func (r *reader) lay(raw []rawElement, a *rawAlignment) []laid {
	var out []laid
	for i, e := range raw {
		switch {
		case !e.curve && e.start != nil && e.end != nil:
			out = append(out, r.straight(e))
		case !e.curve:
			r.failAt(e.at, "<Line> has no Start or no End", "export the file again; a line has both")
		case e.start != nil && e.end != nil:
			out = append(out, r.arc(e))
		case e.pi != nil:
			out = r.rounded(out, raw, i, a)
		default:
			r.failAt(e.at, "<Curve> has neither Start and End nor a PI", "give it Start, End and Center or radius")
		}
	}
	return out
}

func angleOf(d mgl64.Vec2) float64 { return math.Atan2(d[1], d[0]) }

func straightOf(at diag.Place, from, to mgl64.Vec2) laid {
	d := to.Sub(from)
	return laid{at: at, start: from, end: to, in: angleOf(d), out: angleOf(d), Element: Tangent(d.Len())}
}

func (r *reader) straight(e rawElement) laid {
	l := straightOf(e.at, *e.start, *e.end)
	if !(l.Length > 0) {
		r.failAt(e.at, "<Line> ends where it starts", "take it out")
	}
	r.agree(e.at, "length", e.length, l.Length)
	return l
}

// agree holds a stored number against the points; one that is not stored (NaN)
// agrees.
func (r *reader) agree(at diag.Place, what string, stored, measured float64) {
	off := math.Abs(stored - measured)
	if allowed := math.Max(agreeLength, agreePart*measured); off > allowed {
		r.add(diag.Problem{Place: at, Summary: fmt.Sprintf("%s is stored as %s, the points give %s", what, num(stored, "m"), num(measured, "m")),
			Detail: fmt.Sprintf("they differ by %s, allowed are %s", num(off, "m"), num(allowed, "m")), Fix: "export the file again"})
	}
}

// arc is a curve with Start and End; its centre is given or follows from its
// radius.
func (r *reader) arc(e rawElement) laid {
	chord := e.end.Sub(*e.start)
	c := chord.Len()
	side := -1.0
	if e.left {
		side = 1
	}
	out := laid{at: e.at, curve: true, start: *e.start, end: *e.end}
	var half float64 // of the angle it turns by
	switch {
	case !(c > 0):
		r.failAt(e.at, "<Curve> ends where it starts", "take it out")
		return out
	case e.centre != nil:
		a, b := e.start.Sub(*e.centre), e.end.Sub(*e.centre)
		r.agree(e.at, "the radius at its end", b.Len(), a.Len())
		r.agree(e.at, "radius", e.radius, a.Len())
		turn := side * (angleOf(b) - angleOf(a))
		half = (turn - 2*math.Pi*math.Floor(turn/(2*math.Pi))) / 2
	case e.radius > 0 && c <= 2*e.radius:
		half = math.Asin(c / (2 * e.radius))
		if e.length > math.Pi*e.radius {
			half = math.Pi - half
		}
	default:
		r.failAt(e.at, fmt.Sprintf("<Curve> has no Center, and its radius of %s does not span its chord of %s", num(e.radius, "m"), num(c, "m")), "see whether the points and the radius are of the same unit, and export the file again")
		return out
	}
	radius := c / (2 * math.Sin(half))
	if e.radius > 0 && c <= 2*e.radius && math.Abs(half-math.Pi/2) > 0.1 {
		// it agrees; the round number is the one that was meant
		if radius = e.radius; half < math.Pi/2 {
			half = math.Asin(c / (2 * radius))
		} else {
			half = math.Pi - math.Asin(c/(2*radius))
		}
	}
	out.Element = Arc(side*radius, 2*half*radius)
	out.in, out.out = angleOf(chord)-side*half, angleOf(chord)+side*half
	r.agree(e.at, "length", e.length, out.Length)
	return out
}

// rounded lays a curve that has only a PI and a radius: it rounds the corner
// between the tangent from the point before and that to the point behind. What
// lies between the point before and the curve's beginning is a tangent.
func (r *reader) rounded(out []laid, raw []rawElement, i int, a *rawAlignment) []laid {
	e := raw[i]
	before, corner := pointBefore(out, raw, i, a), true
	behind := pointBehind(raw, i)
	if before == nil || behind == nil {
		r.failAt(e.at, "<Curve> has a PI only and there is no point before or behind it that tells its tangents", "give it Start and End, or a Line on both sides")
		return out
	}
	if !(e.radius > 0) {
		r.failAt(e.at, "<Curve> has a PI only and no radius", "give it a radius, or Start, End and Center")
		return out
	}
	in, ahead := e.pi.Sub(*before), behind.Sub(*e.pi)
	turn := near(angleOf(ahead)-angleOf(in), 0)
	t := e.radius * math.Tan(math.Abs(turn)/2)
	if (turn > 0) != e.left || math.Abs(turn) > math.Pi*0.99 || !(in.Len() > 0) || !(ahead.Len() > 0) {
		corner = false
	}
	if !corner {
		r.failAt(e.at, fmt.Sprintf("<Curve> turns by %s (positive left) between its tangents, which its rot denies", num(turn, "deg")), "see whether rot is the other hand (cw turns right), or give it Start, End and Center")
		return out
	}
	begin := e.pi.Sub(in.Normalize().Mul(t))
	end := e.pi.Add(ahead.Normalize().Mul(t))
	last := *before
	if len(out) > 0 {
		last = out[len(out)-1].end
	}
	gap := begin.Sub(last).Dot(in.Normalize())
	if gap < -meeting || t > ahead.Len()+meeting {
		r.failAt(e.at, fmt.Sprintf("<Curve> needs a tangent of %s on both sides of its PI, there are %s and %s", num(t, "m"), num(t+gap, "m"), num(ahead.Len(), "m")), "a smaller radius fits, or PIs farther apart")
		return out
	}
	if gap > meeting {
		out = append(out, straightOf(e.at, last, begin))
	}
	c := laid{at: e.at, curve: true, start: begin, end: end, in: angleOf(in), out: angleOf(ahead)}
	c.Element = Arc(math.Copysign(e.radius, turn), e.radius*math.Abs(turn))
	r.agree(e.at, "length", e.length, c.Length)
	out = append(out, c)
	if next := i + 1; next < len(raw) && raw[next].start != nil && raw[next].start.Sub(end).Len() > meeting {
		out = append(out, straightOf(e.at, end, *raw[next].start))
	}
	return out
}

// pointBefore is the point on the tangent into element i: the end of what lies
// before, or the PI of a curve that has only that.
func pointBefore(out []laid, raw []rawElement, i int, a *rawAlignment) *mgl64.Vec2 {
	switch {
	case i == 0:
		return a.start
	case raw[i-1].end != nil:
		return raw[i-1].end
	}
	return raw[i-1].pi
}

func pointBehind(raw []rawElement, i int) *mgl64.Vec2 {
	switch {
	case i+1 == len(raw):
		return nil
	case raw[i+1].start != nil:
		// of a line that starts on the PI itself, the end tells the direction
		if !raw[i+1].curve && raw[i].pi.Sub(*raw[i+1].start).Len() < meeting {
			return raw[i+1].end
		}
		return raw[i+1].start
	}
	return raw[i+1].pi
}

// joined are the elements of a plan, each with its place in the file; that of
// an angle point is the one of what follows it.
type joined struct {
	elements []Element
	at       []diag.Place
}

func (j *joined) add(e Element, at diag.Place) {
	j.elements, j.at = append(j.elements, e), append(j.at, at)
}

// join is the plan: the elements, with an angle point wherever the next one
// sets off in another direction.
func (r *reader) join(pieces []laid) joined {
	var out joined
	for i, p := range pieces {
		if i > 0 {
			b := pieces[i-1]
			if gap := p.start.Sub(b.end).Len(); gap > meeting {
				r.failAt(p.at, fmt.Sprintf("the element starts %s from where the one before ends", num(gap, "m")), "export the file again; elements must follow each other")
				continue
			}
			turn := near(p.in-b.out, 0)
			if math.Abs(turn) > noTurn {
				out.add(AnglePoint(turn), p.at)
			}
			if math.Abs(turn) > tangent && (p.curve || b.curve) {
				r.warnAt(p.at, fmt.Sprintf("the alignment turns by %s where a curve meets its neighbour", num(turn, "deg")), "it is taken for an angle point; see whether it is meant")
			}
		}
		out.add(p.Element, p.at)
	}
	return out
}

// close makes the alignment, as long as both plan and profile reach.
func (r *reader) close(a *rawAlignment, pieces []laid, whole joined) *Alignment {
	points := make([]PVI, len(a.points))
	for i, p := range a.points {
		points[i] = PVI{p.Station * r.metres, p.Elevation * r.metres, p.Curve * r.metres}
	}
	start := Start{Station: a.station * r.metres, Bearing: bearingOf(pieces[0].in), Easting: pieces[0].start[0], Northing: pieces[0].start[1]}
	plan, faults := New(start, whole.elements, nil, 0)
	var c checker
	c.profile(points)
	if faults = append(faults, c.faults...); len(faults) > 0 {
		r.faults(a, whole.at, faults)
		return nil
	}
	from := math.Max(0, points[0].Station-start.Station)
	to := math.Min(plan.length, points[len(points)-1].Station-start.Station)
	if !(to-from >= leastCut) {
		r.failAt(a.points[0].at, fmt.Sprintf("the profile from station %s to %s does not lie on the plan from %s to %s", num(points[0].Station, "m"), num(points[len(points)-1].Station, "m"), num(start.Station, "m"), num(plan.Station(plan.length), "m")), "see whether staStart and the stations of the profile count from the same place")
		return nil
	}
	if from > closing || to < plan.length-closing {
		r.warnAt(a.points[0].at, fmt.Sprintf("the profile covers stations %s to %s of the plan's %s to %s", num(plan.Station(from), "m"), num(plan.Station(to), "m"), num(start.Station, "m"), num(plan.Station(plan.length), "m")), "only that part of the alignment is used")
	}
	plan, err := plan.Between(from, to)
	if err != nil {
		r.failAt(a.at, err.Error(), "export the culvert's stretch with its profile")
		return nil
	}
	begin := plan.start
	begin.Elevation, begin.Grade = profileOf(begin, points, plan.length)[0].elevation(0), 0
	line, faults := New(begin, plan.elements, points, 0)
	r.faults(a, nil, faults)
	return line
}

// bearingOf a direction anticlockwise from east: clockwise from north.
func bearingOf(direction float64) float64 {
	b := math.Mod(math.Pi/2-direction, 2*math.Pi)
	if b < 0 {
		b += 2 * math.Pi
	}
	return b
}

// faults reports what New found, at the element or point that it names; what it
// names is a key of a job file, of which the file has only the last part. plan
// are the places of the plan's elements.
func (r *reader) faults(a *rawAlignment, plan []diag.Place, faults diag.Problems) {
	for _, f := range faults {
		at, what := a.at, f.Key
		var i int
		if n, _ := fmt.Sscanf(f.Key, "profile[%d]", &i); n == 1 && i < len(a.points) {
			at = a.points[i].at
		} else if n, _ := fmt.Sscanf(f.Key, "plan[%d]", &i); n == 1 && i < len(plan) {
			at = plan[i]
		}
		if _, key, ok := strings.Cut(f.Key, "]."); ok {
			what = strings.ReplaceAll(key, ".", " ")
		}
		f.Place, f.Key, f.Summary = at, "", what+": "+f.Summary
		r.add(f)
	}
}

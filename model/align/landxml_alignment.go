package align

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"

	"boxwalk/model/diag"

	"github.com/go-gl/mathgl/mgl64"
)

// rawAlignment is one alignment as written, in the file's unit; points are
// {easting, northing}.
type rawAlignment struct {
	at       diag.Place
	name     string
	station  float64 // staStart
	start    *mgl64.Vec2
	elements []rawElement
	profiles int
	points   []rawPVI
	problems diag.Problems
}

// rawElement is a Line or a Curve. What is not given is nil or NaN.
type rawElement struct {
	at                     diag.Place
	curve                  bool
	left                   bool
	length, radius         float64
	start, end, centre, pi *mgl64.Vec2
}

// rawPVI is a point of the profile.
type rawPVI struct {
	at diag.Place
	PVI
}

// alignments reads all alignments but keeps only those that may be meant.
func (r *reader) alignments() {
	r.children(func(e xml.StartElement, at diag.Place) {
		if e.Name.Local != "Alignment" || e.Name.Space != landXML {
			r.pass() // Project notes and features beside the alignments move none
			return
		}
		name := attr(e, "name")
		if len(r.names) < 20 {
			r.names = append(r.names, strconv.Quote(short(name)))
		}
		if (r.want != "" && name != r.want) || len(r.found) > 1 {
			r.pass()
			return
		}
		r.found = append(r.found, r.alignment(e, at))
	})
}

// alignment reads one; its problems stay with it until it is chosen.
func (r *reader) alignment(e xml.StartElement, at diag.Place) *rawAlignment {
	kept, dropped := r.problems, r.dropped
	r.problems, r.dropped = nil, 0
	a := &rawAlignment{at: at, name: attr(e, "name"), station: r.number(e, at, "staStart", 0)}
	r.children(func(e xml.StartElement, at diag.Place) {
		switch e.Name.Local {
		case "CoordGeom":
			r.coordGeom(a)
		case "Profile":
			r.profile(a)
		case "Start":
			a.start = r.point(at)
		case "StaEquation":
			r.failAt(at, "a station equation (StaEquation) is not read: stations must be distances along the alignment", "export the alignment with continuous stations")
			r.pass()
		case "Superelevation", "Cant", "CrossSects":
			r.warnAt(at, fmt.Sprintf("<%s> is not read", e.Name.Local), "the crossfall is that of the job file")
			r.pass()
		case "AlignPIs", "Feature":
			r.pass() // the same points again, and a program's own notes
		default:
			r.unknown(e, at, "Alignment")
		}
	})
	a.problems, r.problems = r.problems, kept
	r.dropped += dropped
	return a
}

// unknown reports an element that may move the alignment and goes past it.
func (r *reader) unknown(e xml.StartElement, at diag.Place, in string) {
	r.failAt(at, fmt.Sprintf("<%s> in %s is not read", short(e.Name.Local), in), "export the alignment with lines and circular curves, and a profile of PVIs and parabolas")
	r.pass()
}

func (r *reader) coordGeom(a *rawAlignment) {
	r.children(func(e xml.StartElement, at diag.Place) {
		if len(a.elements) >= mostElements {
			r.stop(at, fmt.Sprintf("the alignment has more than %d elements", mostElements), "export the culvert's stretch alone")
			return
		}
		switch e.Name.Local {
		case "Line", "Curve":
			if r.own(e) {
				a.elements = append(a.elements, r.element(e, at))
			} else {
				r.pass()
			}
		case "Spiral":
			r.failAt(at, fmt.Sprintf("<Spiral> (%s, length %s) is not read: a pour is straight, so an alignment for culverts has tangents and circular curves only", said(attr(e, "spiType"), "no type"), said(attr(e, "length"), "unknown")),
				"export the culvert's stretch alone, or lay it with tangents and circular curves")
			r.pass()
		case "Feature":
			r.pass()
		default:
			r.unknown(e, at, "CoordGeom")
		}
	})
}

func said(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return short(text)
}

// element reads a Line or a Curve.
func (r *reader) element(e xml.StartElement, at diag.Place) rawElement {
	out := rawElement{at: at, curve: e.Name.Local == "Curve"}
	out.length = r.number(e, at, "length", math.NaN())
	out.radius = r.number(e, at, "radius", math.NaN())
	if out.curve {
		switch rot := attr(e, "rot"); rot {
		case "ccw":
			out.left = true
		case "cw":
		default:
			r.failAt(at, fmt.Sprintf("<Curve> has rot=%q", short(rot)), "cw (to the right) or ccw (to the left) is expected")
		}
		if kind := attr(e, "crvType"); kind != "" && kind != "arc" {
			r.failAt(at, fmt.Sprintf("<Curve> has crvType=%q", short(kind)), "only circular arcs are read")
		}
	}
	r.children(func(e xml.StartElement, at diag.Place) {
		switch e.Name.Local {
		case "Start":
			out.start = r.point(at)
		case "End":
			out.end = r.point(at)
		case "Center":
			out.centre = r.point(at)
		case "PI":
			out.pi = r.point(at)
		case "Feature":
			r.pass()
		default:
			r.unknown(e, at, "Line or Curve")
		}
	})
	return out
}

func (r *reader) profile(a *rawAlignment) {
	r.children(func(e xml.StartElement, at diag.Place) {
		switch e.Name.Local {
		case "ProfAlign":
			if a.profiles++; a.profiles > 1 {
				r.failAt(at, "the alignment has a second ProfAlign", "export the one of the invert alone")
				r.pass()
				return
			}
			r.profAlign(a)
		case "ProfSurf", "Feature":
			r.pass() // the ground as it was, not the design
		default:
			r.unknown(e, at, "Profile")
		}
	})
}

func (r *reader) profAlign(a *rawAlignment) {
	r.children(func(e xml.StartElement, at diag.Place) {
		if len(a.points) >= mostElements {
			r.stop(at, fmt.Sprintf("the profile has more than %d points", mostElements), "export the design profile, not a ground surface, and the culvert's stretch alone")
			return
		}
		switch e.Name.Local {
		case "PVI", "ParaCurve":
			p := rawPVI{at: at}
			if e.Name.Local == "ParaCurve" {
				p.Curve = r.number(e, at, "length", math.NaN())
				if !(p.Curve > 0) {
					r.failAt(at, fmt.Sprintf("<ParaCurve> has length=%q", short(attr(e, "length"))), "a length above zero is expected")
				}
			}
			if v, ok := r.pair(at); ok {
				p.Station, p.Elevation = v[0], v[1]
				a.points = append(a.points, p)
			}
		case "UnsymParaCurve", "CircCurve":
			r.failAt(at, fmt.Sprintf("<%s> is not read: vertical curves are symmetrical parabolas", e.Name.Local), "replace it by a ParaCurve")
			r.pass()
		case "Feature":
			r.pass()
		default:
			r.unknown(e, at, "ProfAlign")
		}
	})
}

// point reads "northing easting [elevation]" into {easting, northing}; nil when
// it is none.
func (r *reader) point(at diag.Place) *mgl64.Vec2 {
	v, ok := r.pair(at)
	if !ok {
		return nil
	}
	return &mgl64.Vec2{v[1], v[0]}
}

// pair reads the first two of two or three numbers.
func (r *reader) pair(at diag.Place) (v [3]float64, ok bool) {
	before := len(r.problems) + r.dropped
	fields := strings.FieldsFunc(r.words(), isWhite)
	if len(r.problems)+r.dropped > before || r.stopped {
		return v, false
	}
	if len(fields) < 2 || len(fields) > 3 {
		r.failAt(at, fmt.Sprintf("has %d numbers; two or three are expected", len(fields)), "write northing, easting and, if wanted, elevation, or station and elevation")
		return v, false
	}
	for i, f := range fields {
		x, ok := double(f)
		if !ok {
			r.failAt(at, fmt.Sprintf("%q is no number within ±%g", short(f), mostAway), "write a plain number, as 8000.125")
			return v, false
		}
		v[i] = x
	}
	return v, true
}

// choose finds the alignment that is meant and takes its problems over; nil
// when there is none to build.
func (r *reader) choose() *rawAlignment {
	if r.stopped {
		for _, a := range r.found {
			r.problems = append(r.problems, a.problems...)
		}
		return nil
	}
	whole := diag.Place{File: r.file}
	switch {
	case len(r.names) == 0:
		r.failAt(whole, "there is no <Alignment> in the file", "export the alignment with the file")
		return nil
	case len(r.found) == 0:
		r.failAt(whole, fmt.Sprintf("there is no alignment named %q in the file", short(r.want)), "it has "+strings.Join(r.names, ", "))
		return nil
	case len(r.found) > 1 && r.want == "":
		r.failAt(r.found[1].at, "the file has several alignments and none is named", "name one of "+strings.Join(r.names, ", "))
		return nil
	case len(r.found) > 1:
		r.failAt(r.found[1].at, fmt.Sprintf("the file has two alignments named %q", short(r.want)), "export the file with the one that is meant")
		return nil
	}
	for _, p := range r.found[0].problems {
		r.add(p)
	}
	if r.metres == 0 && !r.problems.HasErrors() {
		r.failAt(whole, "the file has no <Units> with a linearUnit", "export it with its units, as <Units><Metric linearUnit=\"meter\"/></Units>")
	}
	if r.problems.HasErrors() {
		return nil
	}
	return r.found[0]
}

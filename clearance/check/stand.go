package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// slabEnd is an outer end of the placed invert, aprons included, in the frame of
// the outermost pour in the cell.
type slabEnd struct {
	outlet      bool
	plane       geom.End
	bayFromPour geom.Pose
	along       float64 // of the pour's origin along the cell's centrelines, from that of the bay
}

// slabEnds are both ends of the invert on which a bay's carrier stands and
// rolls. The invert of every pour is placed ahead of the carrier.
func slabEnds(s *model.Study, b *bay) [2]slabEnd {
	pours := s.Culvert.Pours
	var out [2]slabEnd
	for i, p := range [2]culvert.Pour{pours[0], pours[len(pours)-1]} {
		e := slabEnd{outlet: i == 1}
		e.bayFromPour, e.along = s.Stretch(*b.Bay.Bay, p)
		rear, front := b.Cell.Ends(p)
		rear.X -= s.Culvert.InletSlab
		front.X += s.Culvert.OutletSlab
		e.plane = [2]geom.End{rear, front}[i]
		out[i] = e
	}
	return out
}

// name is the end as job files have it.
func (e slabEnd) name() string { return map[bool]string{true: "outlet", false: "inlet"}[e.outlet] }

// inside is how far a point of the invert's top, in the bay's frame, lies inside
// the end, along the cell.
func (e slabEnd) inside(p geom.Vec) float64 {
	q := e.bayFromPour.Inverse().Apply(p)
	in := q[0] - e.plane.At(q[1], 0)
	if e.outlet {
		return -in
	}
	return in
}

// footprint is a rectangle on the invert's top, in the bay's frame.
type footprint struct{ x0, x1, y0, y1 float64 }

func (f footprint) corners() [4]geom.Vec {
	return [4]geom.Vec{{f.x0, f.y0, 0}, {f.x1, f.y0, 0}, {f.x1, f.y1, 0}, {f.x0, f.y1, 0}}
}

// standsIn is how far a footprint lies inside the placed invert: negative is how
// far it hangs over. The words name the edge that is nearest, and the end of the
// culvert that it is; a channel's edge is none. Haunches and walls are no edges:
// what runs into them digs.
func (b *bay) standsIn(f footprint, ends [2]slabEnd) (left float64, edge, end string) {
	left = math.Inf(1)
	nearer := func(v float64, words, at string) {
		if v < left {
			left, edge, end = v, words, at
		}
	}
	for _, e := range ends {
		for _, c := range f.corners() {
			nearer(e.inside(c), "end of the placed invert at the "+e.name(), e.name())
		}
	}
	if c := b.Cell.Channel; c.Exists() {
		nearer(math.Max(f.y0-(c.Offset+c.Width/2), (c.Offset-c.Width/2)-f.y1), "edge of the low-flow channel", "")
	}
	return left, edge, end
}

// standChecks ask that what the carrier stands on stands wholly on the placed
// invert: jack plates when it is raised, the wheels' treads when it is collapsed.
func (b *bay) standChecks(s *model.Study) []Judged {
	ends := slabEnds(s, b)
	out := []Judged{b.standCheck("plates on the invert", "raised", b.plates(), ends)}
	if !b.RollsAway() {
		return append(out, open("setup.rest", b.subject("treads on the invert"), "m", "the collapse does not end on the wheels", b.at("")))
	}
	return append(out, b.standCheck("treads on the invert", b.Steps[len(b.Steps)-1].Name, b.treads(), ends))
}

// bearing is a part and where it bears.
type bearing struct {
	part int
	on   footprint
}

// plates are the jack plates as raised.
func (b *bay) plates() []bearing {
	var out []bearing
	for i, p := range b.Carrier.Parts {
		if p.Role == carrier.JackPlate {
			box := p.Box()
			out = append(out, bearing{i, footprint{box.Min[0], box.Max[0], box.Min[1], box.Max[1]}})
		}
	}
	return out
}

// treads are the contacts of the wheels when collapsed.
func (b *bay) treads() []bearing {
	last := b.Steps[len(b.Steps)-1]
	half := float64(b.Carrier.Gear.Wheels.Patch) / 2
	var out []bearing
	for i, p := range b.Carrier.Parts {
		if p.Role == carrier.Wheel {
			box := measure.BoxAt(b.Parts[i], last.Pose(p.Body))
			x := (box.Min[0] + box.Max[0]) / 2
			out = append(out, bearing{i, footprint{x - half, x + half, box.Min[1], box.Max[1]}})
		}
	}
	return out
}

// overhangLimit: everything has to bear; rounding is forgiven.
var overhangLimit = Limit{Value: -measure.ContactTolerance, Source: "statics: what hangs over does not bear"}

func (b *bay) standCheck(rest, step string, list []bearing, ends [2]slabEnd) Judged {
	var found []candidate
	for _, one := range list {
		left, edge, end := b.standsIn(one.on, ends)
		where := b.at(step)
		where.Part = b.Carrier.Parts[one.part].At()
		text := fmt.Sprintf("%s stands %s inside the %s", b.label(one.part), b.roundedDown(left), edge)
		if left < 0 {
			text = fmt.Sprintf("%s hangs %s over the %s", b.label(one.part), b.deep(left), edge)
		}
		remedy := b.overhangRemedy(b.Carrier.Parts[one.part].Role, -left, end)
		found = append(found, candidate{Value: *result.Exactly(left), where: where, text: text, remedy: remedy})
	}
	return entry("setup.rest", b.subject(rest), found, overhangLimit, result.Min, "nothing stands on the invert")
}

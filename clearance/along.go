package clearance

import (
	"math"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
	"boxwalk/model/units"
)

// alongSpaces is into how many equal lengths an advance is divided.
const alongSpaces = 24

// place is one place on the way: a share of it, and what governs there.
type alongPlace struct {
	share   float64
	governs []string
}

// alongRows are the samples of an advance; none where the carrier cannot roll.
// The entries are those of roll.clear for this bay: where one governs a sample
// is taken too.
func (b *bay) alongRows(s *model.Study, r *rolling, rolled []measure, entries []judged, twin []result.AlongRow) []result.AlongRow {
	if r == nil || r.stop != "" {
		return nil
	}
	way := b.onTheWay(s)
	grade := b.profile(s)
	out := []result.AlongRow{}
	places := b.alongPlaces(r, entries)
	for i, p := range places {
		row := result.AlongRow{Cell: b.Cell.Number, Pour: b.Pour.Number, Rolled: p.share * r.way, Station: b.stationAt(r, p.share),
			Governs: p.governs, Pose: b.rolledTo(r, p.share)}
		if len(twin) == len(places) {
			row.Gaps = twin[i].Gaps
		} else {
			row.Gaps = b.gapsAt(r, rolled, p.share)
		}
		row.Slope = b.slopeAt(grade, row.Rolled)
		row.Pulling, row.Wheels = way.pullingOn(row.Slope), way.linesOn(row.Slope)
		out = append(out, row)
	}
	return out
}

// rolledTo takes the carrier from where it stands collapsed to a share of the way.
func (b *bay) rolledTo(r *rolling, share float64) geom.Pose {
	if !r.rigid {
		return geom.Translation(geom.Vec{share * r.way})
	}
	on, s := r.at(share)
	return on.motion.Pose(sweep.Ground, 0, s)
}

// alongPlaces are the evenly spaced places and those where a zone governs.
func (b *bay) alongPlaces(r *rolling, entries []judged) []alongPlace {
	var out []alongPlace
	for i := range alongSpaces + 1 {
		out = append(out, alongPlace{float64(i) / alongSpaces, []string{}})
	}
	for _, e := range entries {
		if e.ID != "roll.clear" || e.Where.Station == nil {
			continue
		}
		share := min(1, max(0, e.Where.At))
		at := slices.IndexFunc(out, func(p alongPlace) bool { return math.Abs(p.share-share) < 1e-9 })
		if at < 0 {
			at = len(out)
			out = append(out, alongPlace{share: share})
		}
		out[at].governs = append(out[at].governs, e.Where.Zone)
	}
	slices.SortStableFunc(out, func(p, q alongPlace) int {
		switch {
		case p.share < q.share:
			return -1
		case p.share > q.share:
			return 1
		}
		return 0
	})
	return out
}

// standing is a motion stopped at one place.
type standing struct {
	pose  geom.Pose
	doubt geom.Doubt
}

func (s standing) Pose(ref, body int, at float64) geom.Pose {
	if ref == body {
		return geom.Identity()
	}
	return s.pose
}
func (standing) Bound(ref, body int, s0, s1 float64) geom.Bound { return geom.Bound{} }
func (s standing) Doubt(ref, body int, at float64) geom.Doubt   { return s.doubt }

// at is the stretch that holds a share of the way, and how far along it that is.
func (r *rolling) at(share float64) (stretch, float64) {
	for i, s := range r.stretches {
		if share <= s.to || i == len(r.stretches)-1 {
			return s, min(1, max(0, (share-s.from)/(s.to-s.from)))
		}
	}
	panic("an advance without a stretch")
}

// gapsAt is the least gap to each zone at a share of the way: that of the part
// with the least left after its allowance. A part that stays farther than far
// from a zone all the way is not looked at.
func (b *bay) gapsAt(r *rolling, rolled []measure, share float64) []result.AlongGap {
	on, s := r.at(share)
	most := b.mostTilt(r)
	body, pose := motion.Ground, standing{pose: geom.Identity()}
	out := []result.AlongGap{}
	for z, zone := range culvert.Zones {
		best := result.AlongGap{Zone: string(zone), Gap: far}
		left, found := math.Inf(1), false
		fixed := b.tol.Of(zone).RootSumSquare
		for i := range rolled {
			if !(rolled[i].at(z).free.Lower < far) {
				continue
			}
			p := rolled[i].part
			if r.parts[p].Body != body {
				body = r.parts[p].Body
				pose = standing{on.motion.Pose(sweep.Ground, body, s), on.motion.Doubt(sweep.Ground, body, s)}
			}
			box := boxAt(r.parts[p], pose.pose)
			for _, k := range r.zones[z] {
				if box.Gap(r.boxes[k]) >= min(far, left+most) || b.rollsOn(r, p, k) {
					continue
				}
				v := sweep.At(pose, sweep.Ground, r.parts[p], r.obstacles.parts[k:k+1], 0)
				gap, tilt := (v.Lower+v.Upper)/2, b.rollLoss(r, p, zone, v).all()
				if gap < far && gap-tilt < left {
					left, found = gap-tilt, true
					best.Gap, best.Allowance, best.Part = gap, fixed+tilt, b.Carrier.Parts[p].Mark
				}
			}
		}
		if found {
			out = append(out, best)
		}
	}
	return out
}

// rollsOn tells the wheels on the invert, which touch by design.
func (b *bay) rollsOn(r *rolling, part, solid int) bool {
	return b.Carrier.Parts[part].Role == carrier.Wheel && stands(b.Carrier.Parts[part], r.solids[solid])
}

// mostTilt is more than rollLoss can take off any gap: no part is farther from
// the middle between the wheels than the cell is high and wide together.
func (b *bay) mostTilt(r *rolling) float64 {
	var rests float64
	for part := range r.parts {
		rests = math.Max(rests, b.betweenRests(r, part))
	}
	return (math.Abs(b.crossfall)+r.cross)*(b.Cell.Rise+2*b.Cell.HalfSpan+b.aside()) + r.high + rests
}

// boxAt is a box around a part where it stands.
func boxAt(p sweep.Part, pose geom.Pose) geom.Box { return boxOf(p).Turned(pose) }

// knot is a place along the way at which the grade changes.
type knot struct{ at, angle float64 }

// profile is the angle of the invert from each place on, along the way from the
// bay's origin; the first holds from far behind. Where the way holds no joint
// behind the bay, its pour's own rear end is one.
func (b *bay) profile(s *model.Study) []knot {
	joints := b.Ways
	if len(joints) == 0 || joints[0].At > 0 {
		joints = append([]model.Way{{Break: b.Pour.Break}}, joints...)
	}
	angle := math.Atan(s.Culvert.GradeOf(b.Pour))
	for _, w := range joints {
		if w.At <= 0 {
			angle -= w.Break
		}
	}
	out := []knot{{math.Inf(-1), angle}}
	for _, w := range joints {
		angle += w.Break
		out = append(out, knot{w.At, angle})
	}
	return out
}

// slopeAt is the rise over run between the outer wheel lines.
func (b *bay) slopeAt(grade []knot, rolled float64) float64 {
	wheels := b.Carrier.Gear.Wheels.At
	rear := b.Carrier.Rear + float64(wheels[0]) + rolled
	front := b.Carrier.Rear + float64(wheels[len(wheels)-1]) + rolled
	if front <= rear { // one wheel line
		front = rear + 1e-6
	}
	var rise, run float64
	for i, k := range grade {
		end := math.Inf(1)
		if i+1 < len(grade) {
			end = grade[i+1].at
		}
		if l := min(front, end) - max(rear, k.at); l > 0 {
			rise, run = rise+l*math.Sin(k.angle), run+l*math.Cos(k.angle)
		}
	}
	return rise / run
}

// pullingOn is what the lines must have on a slope, the invert off it by its
// tolerance.
func (r *route) pullingOn(slope float64) *result.AlongPull {
	if r.Rolls < 0 { // a fall ahead is a rise on the way back
		slope = -slope
	}
	p, err := r.demands(slope + r.off)
	h, err2 := r.demands(r.worse(slope))
	if err != nil || err2 != nil {
		return nil
	}
	return &result.AlongPull{Start: float64(p.Starting), Hold: float64(h.Hold)}
}

// linesOn is what each wheel carries on a slope, which shifts the weight back by
// its height times the slope.
func (r *route) linesOn(slope float64) []result.AlongLine {
	w := r.wheels()
	w.Along -= units.Length(r.centre[2] * slope)
	rigid, err := w.Rigid()
	soft, err2 := w.Soft()
	if err != nil || err2 != nil {
		return []result.AlongLine{}
	}
	var out []result.AlongLine
	for i, at := range r.Carrier.Gear.Wheels.At {
		out = append(out, result.AlongLine{At: float64(at), RigidLeft: float64(rigid.Left[i]), RigidRight: float64(rigid.Right[i]), SoftLeft: float64(soft.Left[i]), SoftRight: float64(soft.Right[i])})
	}
	return out
}

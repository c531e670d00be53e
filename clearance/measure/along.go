package measure

import (
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// RolledTo takes the carrier from where it stands collapsed to a share of the way.
func (b *Bay) RolledTo(r *Advance, share float64) geom.Pose {
	if !r.rigid {
		return geom.Translation(geom.Vec{share * r.Way})
	}
	on, s := r.at(share)
	return on.Motion.Pose(sweep.Ground, 0, s)
}

// standing is a motion stopped at one place.
type standing struct {
	pose       geom.Pose
	errorBound geom.ErrorBound
}

func (s standing) Pose(ref, body int, at float64) geom.Pose {
	if ref == body {
		return geom.Identity()
	}
	return s.pose
}

func (standing) Bound(ref, body int, s0, s1 float64) geom.Bound { return geom.Bound{} }

func (s standing) ErrorBound(ref, body int, at float64) geom.ErrorBound { return s.errorBound }

// at is the stretch that holds a share of the way, and how far along it that is.
func (r *Advance) at(share float64) (Segment, float64) {
	for i, s := range r.Segments {
		if share <= s.to && s.to > s.From || i == len(r.Segments)-1 {
			return s, s.share(share)
		}
	}
	panic("an advance without a stretch")
}

// share of the stretch that a share of the way is; all of it where it has no length, as
// where the carrier is moved over before it rolls.
func (s Segment) share(ofWay float64) float64 {
	if !(s.to > s.From) {
		return 1
	}
	return min(1, max(0, (ofWay-s.From)/(s.to-s.From)))
}

// GapsAt is the least gap to each zone at a share of the way: that of the part
// with the least left after its allowance. A part that stays farther than far
// from a zone all the way is not looked at.
func (b *Bay) GapsAt(r *Advance, rolled []Gaps, share float64) []result.AlongGap {
	on, s := r.at(share)
	most := b.mostTilt(r)
	body, pose := motion.Ground, standing{pose: geom.Identity()}
	out := []result.AlongGap{}
	for z, zone := range culvert.Zones {
		best := result.AlongGap{Zone: string(zone), Gap: Far}
		left, found := math.Inf(1), false
		fixed := b.Tol.Of(zone).RootSumSquare
		for i := range rolled {
			if !(rolled[i].At(z).MustClear.Lower < Far) {
				continue
			}
			p := rolled[i].Part
			if r.Parts[p].Body != body {
				body = r.Parts[p].Body
				pose = standing{on.Motion.Pose(sweep.Ground, body, s), on.Motion.ErrorBound(sweep.Ground, body, s)}
			}
			box := BoxAt(r.Parts[p], pose.pose)
			for _, k := range r.zones[z] {
				if box.Gap(r.boxes[k]) >= min(Far, left+most) || b.rollsOn(r, p, k) {
					continue
				}
				v := sweep.At(pose, sweep.Ground, r.Parts[p], r.Obstacles.Parts[k:k+1], 0)
				gap, tilt := (v.Lower+v.Upper)/2, b.RollLoss(r, p, zone, v).All()
				if gap < Far && gap-tilt < left {
					left, found = gap-tilt, true
					best.Gap, best.Allowance, best.Part = gap, fixed+tilt, b.Carrier.Parts[p].At()
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
func (b *Bay) rollsOn(r *Advance, part, solid int) bool {
	return b.rolls(part) && stands(b.Carrier.Parts[part], r.Solids[solid])
}

// rolls tells the wheels.
func (b *Bay) rolls(part int) bool { return b.Carrier.Parts[part].Role == carrier.Wheel }

// mostTilt is more than rollLoss can take off any gap: no part is farther from
// the middle between the wheels than the cell is high and wide together.
func (b *Bay) mostTilt(r *Advance) float64 {
	var rests float64
	for part := range r.Parts {
		rests = math.Max(rests, b.betweenRests(r, part))
	}
	return (math.Abs(b.Crossfall)+r.cross)*(b.Cell.Rise+2*b.Cell.HalfSpan+b.aside()) + r.high + rests
}

// BoxAt is a box around a part where it stands.
func BoxAt(p sweep.Part, pose geom.Pose) geom.Box { return boxOf(p).Turned(pose) }

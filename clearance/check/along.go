package check

import (
	"math"
	"slices"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model"
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
func (b *bay) alongRows(s *model.Study, r *measure.Advance, rolled []measure.Gaps, entries []Judged, twin []result.AlongRow) []result.AlongRow {
	if r == nil || r.Stop != nil {
		return nil
	}
	way := b.onTheWay(s)
	out := []result.AlongRow{}
	places := b.alongPlaces(r, entries)
	for i, p := range places {
		row := result.AlongRow{Cell: b.Cell.Number, Pour: b.Pour.Number, Rolled: p.share * r.Way, Station: b.StationAt(r, p.share),
			Governs: p.governs, Pose: b.RolledTo(r, p.share)}
		if len(twin) == len(places) {
			row.Gaps = twin[i].Gaps
		} else {
			row.Gaps = b.GapsAt(r, rolled, p.share)
		}
		row.Slope = b.slopeAt(row.Rolled)
		row.Pulling, row.Wheels = way.pullingOn(row.Slope), way.linesOn(row.Slope)
		out = append(out, row)
	}
	return out
}

// alongPlaces are the evenly spaced places and those where a zone governs.
func (b *bay) alongPlaces(r *measure.Advance, entries []Judged) []alongPlace {
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

// slopeAt is the rise over run between the outer wheel lines.
func (b *bay) slopeAt(rolled float64) float64 {
	wheels := b.Carrier.Gear.Wheels.At
	rear := b.Carrier.Rear + float64(wheels[0]) + rolled
	front := b.Carrier.Rear + float64(wheels[len(wheels)-1]) + rolled
	if front <= rear { // one wheel line
		front = rear + 1e-6
	}
	var rise, run float64
	joints := b.Ground.Joints
	for i, grade := range b.Ground.Grades() {
		from, to := math.Inf(-1), math.Inf(1)
		if i > 0 {
			from = joints[i-1].Along
		}
		if i < len(joints) {
			to = joints[i].Along
		}
		if l := min(front, to) - max(rear, from); l > 0 {
			sin, cos := math.Sincos(math.Atan(grade))
			rise, run = rise+l*sin, run+l*cos
		}
	}
	return rise / run
}

// pullingOn is what the lines must have on a slope, the invert off it by its
// tolerance.
func (r *route) pullingOn(slope float64) *result.AlongPull {
	if r.bay.Rolls < 0 { // a fall ahead is a rise on the way back
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
	for i, at := range r.bay.Carrier.Gear.Wheels.At {
		out = append(out, result.AlongLine{At: float64(at), RigidLeft: float64(rigid.Left[i]), RigidRight: float64(rigid.Right[i]), SoftLeft: float64(soft.Left[i]), SoftRight: float64(soft.Right[i])})
	}
	return out
}

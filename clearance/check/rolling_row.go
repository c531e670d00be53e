package check

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model"
)

// rollHolds stand before the carrier moves.
var rollHolds = []string{
	"Restraint on and taut, wheels chocked, ropes, hooks and anchors looked over; signals agreed, one signaller; seen by (name): ______",
	"Treads and the bands they may wander over swept, way free of people, cables and tools to the next stand and beyond it, seen by (name): ______",
}

const rollCaution = "Nobody between carrier and concrete, on or below the carrier, in its way downhill, or in the snap-back zone of pulling line or restraint."

// rollingRows are the way to the next stand as the crew takes it: one row, or none
// where the collapse does not end on the wheels. Checks are all those of the bay.
func (r *Examined) rollingRows(s *model.Study, checks []Judged) []result.RollingRow {
	b := r.bay
	if !b.RollsAway() {
		return nil
	}
	row := result.RollingRow{Cell: b.Cell.Number, Pour: b.Pour.Number, To: b.Next, Way: b.Rolls, Name: b.RollStep(b.Rolls) + b.whereTo(),
		Hold: append([]string{}, rollHolds...), Caution: rollCaution, Unproved: []string{}}
	if b.Leaves {
		row.To = 0
	}
	for _, c := range checks {
		if c.Verdict != result.Pass && strings.HasPrefix(c.ID, "roll.") {
			row.Unproved = append(row.Unproved, c.ID+", "+c.Subject.Rest())
		}
	}
	row.Say = strings.Join([]string{b.pulledSay(s, checks), b.leastSay(checks), b.arrivalSay()}, " ")
	if !r.brief {
		row.Poses = b.RolledPoses(r.Found.Rolling)
	}
	return []result.RollingRow{row}
}

// whereTo names what the carrier rolls to.
func (b *bay) whereTo() string {
	switch {
	case !b.Leaves:
		return fmt.Sprintf(" to pour %d", b.Next)
	case b.Rolls < 0:
		return ", out over the inlet"
	}
	return ", out over the outlet"
}

// pulledSay is what pulls and what holds back, with the most of each.
func (b *bay) pulledSay(s *model.Study, checks []Judged) string {
	t := s.Job.Travel
	out := fmt.Sprintf("Take the chocks out last, pull with the %s at the %s end%s, and pay the restraint out as it rolls%s.", t.PulledBy, b.pulledEnd(t.End),
		b.upTo(checks, "roll.pull", " (%s to start)"), b.upTo(checks, "roll.hold", " (it holds %s)"))
	switch t.Steering {
	case "offset":
		if t.Offset != 0 {
			side := map[bool]string{true: "left", false: "right"}[t.Offset > 0]
			out = fmt.Sprintf("Move the carrier over by %s to the %s before it rolls, and back at the end. ", b.mm(math.Abs(float64(t.Offset))), side) + out
		}
	case "guide rollers":
		if t.Rollers != nil {
			out = fmt.Sprintf("Keep the guide rollers on the %s wall. ", t.Rollers.Side) + out
		}
	}
	return out
}

// pulledEnd is the end that is pulled on this way, of that on the way ahead.
func (b *bay) pulledEnd(ahead string) string {
	if b.Rolls < 0 {
		return map[string]string{"front": "rear", "rear": "front"}[ahead]
	}
	return ahead
}

// upTo words the most that any entry of a check asks for; nothing where none has a
// value.
func (b *bay) upTo(checks []Judged, id, words string) string {
	most := math.Inf(-1)
	for _, c := range checks {
		if c.ID == id && c.Value != nil && c.Unit == "kN" {
			most = math.Max(most, c.Value.Upper)
		}
	}
	if math.IsInf(most, 0) || math.IsNaN(most) {
		return ""
	}
	m := b.shown("kN")
	return fmt.Sprintf(words, "up to "+m.With(m.Up(most)))
}

// leastSay is the least gap on the way that is proved, what is left of it when the
// tolerances are used up, and where that is.
func (b *bay) leastSay(checks []Judged) string {
	var best *Judged
	left := math.Inf(1)
	for i := range checks {
		c := &checks[i]
		if c.ID == "roll.clear" && c.Value != nil && c.Value.Lower-c.Allowance < left {
			best, left = c, c.Value.Lower-c.Allowance
		}
	}
	if best == nil {
		return ""
	}
	out := fmt.Sprintf("Tightest: %s at %s to the %s", b.roundedDown(best.Value.Lower), best.Where.Part, best.Subject.Zone.Words())
	if at := best.Where.Station; at != nil {
		out += fmt.Sprintf(", when the rear end of the form is %s from the inlet along the alignment", b.Distance(*at))
	}
	return fmt.Sprintf("%s. Measure there before going on; with all tolerances used up %s are left: stop where it is less.", out, b.roundedDown(left))
}

// arrivalSay is how the carrier is left at the end of the way.
func (b *bay) arrivalSay() string {
	if b.Leaves {
		return "Chock the wheels and keep the restraint on where it stops; what carries it beyond the slab is not checked."
	}
	return fmt.Sprintf("At the stand for pour %d chock the wheels and keep the restraint on until the jack plates carry.", b.Next)
}

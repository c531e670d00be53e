package clearance

import (
	"fmt"

	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// rolling is the advance from this pour to the next, or out over the end.
type rolling struct {
	path *motion.Path
	way  float64
	obstacles
	boxes []geom.Box // of each part over the whole way
}

// rolls prepares the advance; nil when the collapse does not end on wheels.
func (b *bay) rolls() *rolling {
	if len(b.Steps) == 0 {
		return nil
	}
	last := b.Steps[len(b.Steps)-1]
	if last.Stop != "" || !last.Carried {
		return nil
	}
	r := &rolling{way: b.Advance}
	if r.way <= 0 {
		// after the last pour the carrier leaves over the end
		r.way = float64(b.Carrier.Gear.Form.Length)
	}
	path, err := b.Carrier.Rolling(last, r.way)
	if err != nil {
		return nil
	}
	r.path = path
	r.obstacles = obstaclesOf(append(append([]culvert.Solid{}, b.Concrete...), b.Ahead...))
	r.boxes = b.sweptBoxes(path)
	return r
}

// roll measures one part over the advance, zone by zone.
func (b *bay) roll(r *rolling, part int) measure {
	return b.against(r.path, &r.obstacles, part, r.boxes[part], func(solid int) bool {
		return stands(b.Carrier.Parts[part], r.solids[solid]) && b.Carrier.Parts[part].Role == carrier.Wheel
	})
}

// rollChecks are the clearances over the whole advance, zone by zone, with the
// tolerance allowance taken off.
func (b *bay) rollChecks(r *rolling, list []measure) []Entry {
	if r == nil {
		return []Entry{open("roll.clear", b.subject("advance"), "m", "the collapse does not end on the wheels, so the carrier cannot roll", b.at("roll ahead"))}
	}
	step := fmt.Sprintf("roll ahead %.3f m", r.way)
	var out []Entry
	for z, zone := range culvert.Zones {
		limit, a := b.limits.of("roll.clear"), b.tol.Of(zone)
		var found []candidate
		anything := false
		for i := range list {
			m := &list[i]
			anything = anything || m.any[z]
			if v := m.free[z]; m.any[z] && v.Lower < far {
				part := m.part
				tilt := b.tilt(r.path, part, zone, v)
				tell := func() (Where, string) {
					w := b.where(step, part, string(zone), v)
					station := b.Cell.LineFromBay(b.Pour).Apply(geom.Vec{b.Carrier.Rear + v.At*r.way})[0]
					w.Station = &station
					return w, fmt.Sprintf("%s passes the %s at %s; %s", b.label(part), zone.Words(), b.said(bracketOf(v)), b.takenOff(a, tilt))
				}
				c := candidate{value: bracketOf(v), allowance: a.RootSumSquare + tilt, worst: a.WorstCase + tilt, tell: tell}
				found = append(found, c)
			}
		}
		if anything {
			out = append(out, entry("roll.clear", b.subject(zone.Words()), found, limit, Min, fmt.Sprintf("every part passes the %s more than %s away", zone.Words(), b.mm(far))))
		}
	}
	return out
}

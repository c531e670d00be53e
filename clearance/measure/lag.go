package measure

import (
	"math"
	"sync"

	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// A crew never turns adjusters in perfect step. Where a step moves one
// adjuster of a part's own side, the step's path already holds every place the
// part can take: whichever bent is ahead, each cross-section stands at some
// reading between from and to. Where it moves several, they may differ by lag,
// each in its own units; measured against the one that moves the part most,
// the others take off lag times how far the part moves per unit.

// Lag is what comes off a part's gap to concrete.
func (b *Bay) Lag(s carrier.Step, part int) float64 {
	return b.lagOf(s, b.Turned(s, b.Carrier.Parts[part].Side), []int{part})
}

// LagBetween is what comes off the gap between two parts of the carrier.
func (b *Bay) LagBetween(s carrier.Step, p, q int) float64 {
	sides := b.Turned(s, b.Carrier.Parts[p].Side)
	if b.Carrier.Parts[p].Side != b.Carrier.Parts[q].Side {
		sides = b.Turned(s, culvert.Both)
	}
	return b.lagOf(s, sides, []int{p, q})
}

// Turned lists the adjusters, jacks apart, that a step turns on a side; Both
// means either side.
func (b *Bay) Turned(s carrier.Step, side culvert.Side) []int {
	var out []int
	for _, m := range s.Moves {
		a := b.Carrier.Adjusters[m.Adjuster]
		if m.Moves() && !a.Follows() && !a.Jack() && (side == culvert.Both || a.Side == culvert.Both || a.Side == side) {
			out = append(out, m.Adjuster)
		}
	}
	return out
}

func (b *Bay) lagOf(s carrier.Step, adjusters, parts []int) float64 {
	if len(adjusters) < 2 {
		return 0
	}
	var sum, most float64
	for _, k := range adjusters {
		var v float64
		for _, p := range parts {
			v += b.sway(s, p, k)
		}
		sum += v
		most = math.Max(most, v)
	}
	return sum - most
}

// swayAt are the places of a step where sway is measured. The rate of a part
// by an adjuster changes by a few per cent over a step; the bound on curvature
// around each place covers what lies between.
var swayAt = [5]float64{0, 0.25, 0.5, 0.75, 1}

// nudges are the paths on which one adjuster alone differs by the lag, at each
// place of swayAt.
type nudges struct {
	paths [len(swayAt)]*motion.Path
	stuck bool // an adjuster cannot differ that much somewhere

	mu   sync.Mutex
	sway map[swayKey]float64 // by part, of those asked for
	over map[boxKey]float64
}

// swayKey is a part as it stands on a bay's carrier: bays that go through the same
// motion differ in where along the cell their parts lie.
type swayKey struct {
	carrier *carrier.Carrier
	part    int
}

// sway is how far a part moves when one adjuster differs by the lag.
func (b *Bay) sway(s carrier.Step, part, adjuster int) float64 {
	n := b.nudges.of(b, s, adjuster)
	if n.stuck {
		return math.Inf(1)
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	key := swayKey{b.Carrier, part}
	most, ok := n.sway[key]
	if ok {
		return most
	}
	for _, path := range n.paths {
		if path.Moves(motion.Ground, b.Carrier.Parts[part].Body) {
			most = math.Max(most, Swing(path, b.Carrier.Parts[part]))
		}
	}
	if n.sway == nil {
		n.sway = map[swayKey]float64{}
	}
	n.sway[key] = most
	return most
}

// knownNudges are the nudges of every step and adjuster that were asked for, of all bays
// that go through the same motions.
type knownNudges struct {
	mu    sync.Mutex
	known map[nudgeKey]*nudges
}

// of a step and adjuster, made once, by whichever bay asks first: all make the same.
func (d *knownNudges) of(b *Bay, s carrier.Step, adjuster int) *nudges {
	d.mu.Lock()
	defer d.mu.Unlock()
	key := nudgeKey{s.Path, adjuster}
	if n, ok := d.known[key]; ok {
		return n
	}
	n := &nudges{}
	for i, at := range swayAt {
		path, err := b.Carrier.Nudge(s, at, adjuster, b.Tol.Value("lag"))
		n.paths[i], n.stuck = path, n.stuck || err != nil
	}
	if d.known == nil {
		d.known = map[nudgeKey]*nudges{}
	}
	d.known[key] = n
	return n
}

type nudgeKey struct {
	path     *motion.Path
	adjuster int
}

// Swing is how far any vertex of a part gets from its middle place on a path
// that goes as far to either side of it.
func Swing(path *motion.Path, p carrier.Part) float64 {
	at := func(s float64) geom.Pose { return path.Pose(motion.Ground, p.Body, s) }
	from, mid, to := at(0), at(0.5), at(1)
	bound := path.Bound(motion.Ground, p.Body, 0, 1)
	var most float64
	for _, v := range p.Vertices {
		m := mid.Apply(v)
		d := math.Max(from.Apply(v).Sub(m).Len(), to.Apply(v).Sub(m).Len())
		most = math.Max(most, d+bound.Curvature(v)/32)
	}
	return most
}

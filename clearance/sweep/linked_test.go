package sweep

import (
	"math"
	"testing"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// Bodies of a carrier whose wall panels hang on sliding roof halves and are
// drawn in by braces from the frame: per side a half, a wall, and the two ends
// of its brace, which point along it.
const (
	frameBody = iota
	halfBody  // of the left side; the right side's follow by sideBodies
	wallBody
	braceAtFrame
	braceAtWall
	sideBodies = braceAtWall
)

const (
	bays      = 10
	bayLength = 0.6
)

// rig is the carrier under construction. y is to the left, z up; as raised.
type rig struct {
	mechanism motion.Mechanism
	solids    []sceneSolid
	bodies    []int // of each solid
}

func (r *rig) add(body int, kind string, s *geom.Solid) {
	r.solids = append(r.solids, sceneSolid{id: kind, kind: kind, shape: s})
	r.bodies = append(r.bodies, body)
}

// side is +1 for the left, -1 for the right.
func (r *rig) box(body int, kind string, side, x0, x1, y0, y1, z0, z1 float64) {
	if side < 0 {
		y0, y1 = -y1, -y0
	}
	r.add(body, kind, geom.Block(geom.Box{Min: geom.Vec{x0, y0, z0}, Max: geom.Vec{x1, y1, z1}}))
}

func at(side, y, z float64) geom.Vec { return geom.Vec{0, side * y, z} }

func newRig(sides int) *rig {
	r := &rig{}
	r.mechanism.Bodies = []motion.Body{{Name: "frame", Parent: Ground,
		Joint: motion.Joint{Kind: motion.Prismatic, Axis: geom.Vec{0, 0, 1}, Link: motion.None}}}
	for i := range sides {
		r.side(i)
	}
	for bay := range bays {
		x := (float64(bay) + 0.5) * bayLength
		r.box(frameBody, "header", 1, x-0.06, x+0.06, -0.62, 0.62, 1.96, 2.06)
	}
	return r
}

// side adds the joints and links of one side and its parts.
func (r *rig) side(i int) {
	m, side := &r.mechanism, 1-2*float64(i)
	first, turnbuckle := frameBody+i*sideBodies, len(m.Links)
	low := turnbuckle + 1
	half, wall := halfBody+i*sideBodies, wallBody+i*sideBodies
	along := geom.Vec{1, 0, 0}
	m.Bodies = append(m.Bodies,
		motion.Body{Name: "half", Parent: frameBody, Joint: motion.Joint{Kind: motion.Prismatic, Axis: geom.Vec{0, -side, 0}, Link: turnbuckle}},
		motion.Body{Name: "wall", Parent: half, Joint: motion.Joint{Kind: motion.Revolute, Axis: along.Mul(-side), Pin: at(side, 1.340, 2.250), Link: low}},
		motion.Body{Name: "brace at frame", Parent: frameBody, Joint: motion.Joint{Kind: motion.Aim, Axis: along, Pin: at(side, 0.560, 0.470), Link: low}},
		motion.Body{Name: "brace at wall", Parent: wall, Joint: motion.Joint{Kind: motion.Aim, Axis: along, Pin: at(side, 1.290, 0.500), Link: low}},
	)
	m.Links = append(m.Links,
		motion.Link{Name: "turnbuckle", A: frameBody, B: half, PinA: at(side, 0.600, 2.140), PinB: at(side, 1.300, 2.140)},
		motion.Link{Name: "low brace", A: frameBody, B: wall, PinA: at(side, 0.560, 0.470), PinB: at(side, 1.290, 0.500)},
	)
	r.parts(first, side)
}

func (r *rig) parts(first int, side float64) {
	half, wall := first+halfBody, first+wallBody
	const length = bays * bayLength
	r.box(frameBody, "sill", side, 0, length, 0.38, 0.52, 0.10, 0.20)
	r.box(half, "roof waler", side, 0, length, 0.70, 0.80, 2.18, 2.28)
	r.box(wall, "waler", side, 0, length, 1.31, 1.40, 0.90, 1.00)
	r.box(wall, "waler", side, 0, length, 1.31, 1.40, 1.70, 1.80)
	for bay := range bays {
		x0 := float64(bay) * bayLength
		x := x0 + bayLength/2
		r.box(frameBody, "post", side, x-0.05, x+0.05, 0.40, 0.50, 0.20, 1.96)
		r.box(frameBody, "jack", side, x-0.2, x-0.1, 1.08, 1.16, 0.12, 0.40)
		r.box(half, "roof panel", side, x0+0.0005, x0+bayLength-0.0005, 0.15, 1.30, 2.38, 2.40)
		r.box(half, "rib", side, x-0.2, x-0.12, 0.17, 1.28, 2.28, 2.38)
		r.box(half, "rib", side, x+0.12, x+0.2, 0.17, 1.28, 2.28, 2.38)
		r.box(wall, "panel", side, x0+0.0005, x0+bayLength-0.0005, 1.48, 1.50, 0.20, 2.20)
		for k := range 3 {
			xr := x0 + 0.1 + 0.2*float64(k)
			r.box(wall, "rib", side, xr-0.03, xr+0.03, 1.40, 1.48, 0.20, 2.20)
		}
		r.brace(first, side, x)
	}
}

// brace is the two ends of a telescopic brace of 50 mm square.
func (r *rig) brace(first int, side, x float64) {
	from, to := at(side, 0.560, 0.470), at(side, 1.290, 0.500)
	along := to.Sub(from).Normalize()
	bar := func(body int, kind string, pin geom.Vec, d float64) {
		a, b := pin.Add(along.Mul(0.04*d)), pin.Add(along.Mul(0.34*d))
		s := geom.Bar(0, geom.Point2{a[1], a[2]}, geom.Point2{b[1], b[2]}, 0.05)
		r.add(body, kind, s.Moved(geom.Translation(geom.Vec{x, 0, 0})))
	}
	bar(first+braceAtFrame, "brace", from, 1)
	bar(first+braceAtWall, "brace", to, -1)
}

// rigStep is the same on every side: frame height, turnbuckle and low brace
// from one reading to the other.
type rigStep struct {
	name                     string
	height, turnbuckle, low2 [2]float64
}

// rigSteps: feet in, ease down to break the bond, arms in under locked braces.
func rigSteps() []rigStep {
	raised := math.Hypot(1.290-0.560, 0.500-0.470)
	return []rigStep{
		{"wall bottoms in", [2]float64{0, 0}, [2]float64{0.7, 0.7}, [2]float64{raised, 0.590}},
		{"ease down to break the bond", [2]float64{0, -0.075}, [2]float64{0.7, 0.7}, [2]float64{0.590, 0.590}},
		{"header arms in", [2]float64{-0.075, -0.075}, [2]float64{0.7, 0.580}, [2]float64{0.590, 0.590}},
	}
}

func (r *rig) path(s rigStep) *motion.Path {
	drives := make([]motion.Drive, len(r.mechanism.Bodies))
	drives[frameBody] = motion.Drive{From: s.height[0], To: s.height[1]}
	for first := frameBody; first+wallBody < len(drives); first += sideBodies {
		drives[first+halfBody] = motion.Drive{From: s.turnbuckle[0], To: s.turnbuckle[1]}
		drives[first+wallBody] = motion.Drive{From: s.low2[0], To: s.low2[1]}
	}
	p, err := motion.NewPath(&r.mechanism, drives)
	if err != nil {
		panic(err)
	}
	return p
}

// job of the rig, against concrete too if there is any. Pairs of bodies that
// share a joint are exempt.
func (r *rig) job() *job {
	j := &job{count: len(r.solids)}
	sets := map[int][]Member{}
	for i, x := range r.solids {
		sets[r.bodies[i]] = append(sets[r.bodies[i]], Member{Part{r.bodies[i], gap.New(x.shape)}, i})
	}
	trees := map[int][]*Tree{}
	for body, set := range sets {
		trees[body] = TreesOf(set)
	}
	for _, s := range rigSteps() {
		p := r.path(s)
		st := step{name: s.name, m: p, mates: make([][]bool, j.count), starting: true}
		for a := range r.mechanism.Bodies {
			st.meet = append(st.meet, r.meetings(p, a, trees, func(b int) bool { return b < a })...)
			st.table = append(st.table, r.meetings(p, a, trees, func(b int) bool { return b != a })...)
		}
		if len(st.meet) > 0 {
			j.steps = append(j.steps, st)
		}
	}
	j.findContacts()
	return j
}

// meetings of body a with others, the frames they have in common in order.
func (r *rig) meetings(p *motion.Path, a int, trees map[int][]*Tree, with func(b int) bool) []meeting {
	var out []meeting
	for ref := Ground; ref < a; ref++ {
		for b := Ground; b < len(r.mechanism.Bodies); b++ {
			if with(b) && !r.joined(a, b) && r.common(a, b) == ref && trees[b] != nil && moves(p, ref, a, b) {
				out = append(out, meeting{ref: ref, parts: trees[a], others: trees[b]})
			}
		}
	}
	for b := range r.mechanism.Bodies {
		if a != b && with(b) && !r.joined(a, b) && r.common(a, b) == a && moves(p, a, a, b) {
			out = append(out, meeting{ref: a, parts: trees[a], others: trees[b]})
		}
	}
	return out
}

func (r *rig) common(a, b int) int {
	if a == Ground || b == Ground {
		return Ground
	}
	return r.mechanism.Common(a, b)
}

func (r *rig) joined(a, b int) bool {
	if a == Ground || b == Ground {
		return false
	}
	bodies := r.mechanism.Bodies
	brace := func(x int) bool { return bodies[x].Joint.Kind == motion.Aim }
	pinned := func(x, y int) bool { return brace(x) && bodies[x].Parent == y }
	same := (a-1)/sideBodies == (b-1)/sideBodies
	return pinned(a, b) || pinned(b, a) || brace(a) && brace(b) && same
}

// moves tells whether a moves against b.
func moves(p *motion.Path, ref, a, b int) bool {
	for _, body := range [2]int{a, b} {
		if body != ref && body != Ground && p.Pose(ref, body, 0) != p.Pose(ref, body, 1) {
			return true
		}
	}
	return false
}

// selfJob is all pairs of one carrier with two sides, most of them with both
// parts moving.
func selfJob() *job { return newRig(2).job() }

// linkedJob is one side against itself and the concrete it has cast: braces run
// from the frame to a wall panel that hangs on a moving roof half.
func linkedJob() *job {
	r := newRig(1)
	const length = bays * bayLength
	concrete := func(kind string, section ...geom.Point2) {
		r.add(Ground, kind, geom.Prism(section, -0.1, length+2))
	}
	r.box(Ground, "wall", 1, -0.1, length+2, 1.5, 1.9, 0.2, 2.4)
	r.box(Ground, "kicker", 1, -0.1, length+2, 1.5, 1.9, 0, 0.2)
	r.box(Ground, "roof", 1, -0.1, length+2, -1.9, 1.9, 2.4, 2.8)
	r.box(Ground, "invert", 1, -0.1, length+2, -1.9, 1.9, -0.4, 0)
	concrete("haunch", geom.Point2{1.5, 0}, geom.Point2{1.5, 0.15}, geom.Point2{1.35, 0})
	for k := range 2 * bays {
		x := (float64(k) + 0.5) * bayLength
		r.box(Ground, "plate", 1, x-0.1, x+0.1, -0.1, 0.1, 2.37, 2.4)
	}
	return r.job()
}

// selfMinima and linkedMinima are in millimetres, per step. By construction: the
// halves' panels, 300 mm apart, come 2 x 120 mm together; the ribs of a wall
// panel stand 20 mm off the concrete before it moves; the sill, 100 mm up, goes
// down 75 mm. The others are this engine's own, recorded; the test below samples
// all of them.
var (
	selfMinima   = []float64{74.0395, 60}
	linkedMinima = []float64{20, 4.567, 4.567}
)

func holdSelf(tb testing.TB, j *job)   { holdSteps(tb, "self", j, selfMinima) }
func holdLinked(tb testing.TB, j *job) { holdSteps(tb, "linked", j, linkedMinima) }

func holdSteps(tb testing.TB, name string, j *job, mm []float64) {
	tb.Helper()
	for k := range j.steps {
		st := &j.steps[k]
		holdBracket(tb, name+" "+st.name, j.least(st, Options{Epsilon: DefaultEpsilon}), mm[k])
		contact := j.leastContact(st, Options{Epsilon: DefaultEpsilon})
		if st.touching > 0 {
			holdBracket(tb, name+" "+st.name+" in contact", contact, 0)
		}
	}
}

func TestBothMovingAndLinkedScenesHaveTheirMinima(t *testing.T) {
	holdSelf(t, selfJob())
	holdLinked(t, linkedJob())
}

// sampledLeast is the least gap of the free pairs over n+1 evenly spaced poses.
func (j *job) sampledLeast(st *step, n int) float64 {
	least := math.Inf(1)
	for i := range n + 1 {
		s := float64(i) / float64(n)
		for k := range st.meet {
			x := &st.meet[k]
			j.contest.Set(st.m, x.ref, x.parts, s, s)
			list := j.contest.Against(x.others, Terms{Skip: st.free, Best: least, Given: true}).List
			for _, c := range list {
				least = math.Min(least, At(st.m, x.ref, c.A, []Part{c.B}, s).Upper)
			}
		}
	}
	return least
}

func TestNoSampleOfAWholeJobIsBelowItsCertifiedMinimum(t *testing.T) {
	for name, j := range map[string]*job{"pindle-beck": sceneJob(t, "pindle-beck"), "self": selfJob(), "linked": linkedJob()} {
		for k := range j.steps {
			st := &j.steps[k]
			b := j.least(st, Options{Epsilon: 1e-5})
			got := j.sampledLeast(st, 64)
			if got < b.Lower || b.Upper-b.Lower > 1e-5 {
				t.Errorf("%s %s: sampled %.9g, certified [%.9g, %.9g]", name, st.name, got, b.Lower, b.Upper)
			}
		}
	}
}

package sweep

import (
	"math"
	"sort"

	"boxwalk/clearance/gap"
)

// DragOptions of a travel in contact; a field that is not positive takes its
// default.
type DragOptions struct {
	// Band is the distance up to which the solids count as in contact:
	// DefaultBand.
	Band float64
	// Opening is how far a contact must open along the face's normal for each
	// metre of travel along the face, so as not to drag: DefaultOpening.
	Opening float64
	// Epsilon is the widest bracket wanted, in metres: DefaultEpsilon.
	Epsilon float64
}

// Defaults (judgement): a form face within half a millimetre of the concrete
// that cast against it is still held by the paste between them; a face that
// leaves steeper than 1:25 lifts off rather than rubs.
const (
	DefaultBand    = 5e-4
	DefaultOpening = 1.0 / 25
)

// Travel is how far one solid slides on another while in contact, in metres:
// a certified bracket. Face: the points that may drag form, at some time, a
// patch at least 20 mm wide across; else only edges and corners drag.
type Travel struct {
	Lower, Upper float64
	Face         bool
}

// faceBreadth is the least width across a contact that makes it a face rather
// than an edge (judgement: about the thickness of a facing sheet).
const faceBreadth = 0.02

// dragBudget is the number of intervals after which the bracket stays wide;
// negligible is a travel that is rounding, whatever its sign.
const (
	dragBudget = 1 << 11
	negligible = 1e-9
)

// Drag brackets how far solid a slides on solid b over [s0, s1] while they are
// in contact. b must not move in ref (take the body of b for ref); if it does, or the motion gives numbers
// that are not finite, nothing is certified: Upper is +Inf.
//
// Over a small interval the pair drags unless it is certified that either the
// signed distance stays above Band, or every point of a's surface that can come
// within Band of the contact face (and of its outline) opens: moves along
// the face's outward normal by at least Opening times its motion along the
// face. The contact face is the face of b whose plane is farthest from a; while
// the interval leaves that undecided, all that can be it must pass. A contact
// that no face carries (edge across edge, or a dig deeper than Band) always
// drags.
//
// Upper sums the longest path along the face of the points that may drag, over
// all intervals not certified free. Lower sums, over all intervals, the longest
// straight travel of a point that is certified to stay within Band of the face
// and not to open.
func Drag(m Motion, ref int, a, b Part, s0, s1 float64, o DragOptions) Travel {
	if !(s0 <= s1) {
		return Travel{Upper: math.Inf(1), Face: true}
	}
	w := pool.Get().(*work)
	defer w.release()
	w.one[0] = b
	w.reset(m, ref, a, w.one[:])
	d := dragSearch{work: w, o: o.filled()}
	if !w.t.load(&w.cache, a, b, s0, s1) || !w.t.b.still {
		return Travel{Upper: math.Inf(1), Face: true}
	}
	d.search(s0, s1)
	if w.lost {
		return Travel{Upper: math.Inf(1), Face: true}
	}
	return d.sum()
}

func (o DragOptions) filled() DragOptions {
	if !(o.Band > 0) {
		o.Band = DefaultBand
	}
	if !(o.Opening > 0) {
		o.Opening = DefaultOpening
	}
	if !(o.Epsilon > 0) {
		o.Epsilon = DefaultEpsilon
	}
	return o
}

// span is the drag over one interval; face as in Travel. spare is how much of
// upper - lower cutting it further may save.
type span struct {
	s0, s1, lower, upper, spare float64
	face                        bool
}

type dragSearch struct {
	*work
	o     DragOptions
	whole float64 // width of the interval asked for
	spans []span
	clip  clipper
}

// digPieces is into how many intervals a dig is cut before its ends are taken for
// what is between them (judgement: a part that leaves the concrete in a step and
// comes back is seen).
const digPieces = 16

// search fills spans.
func (d *dragSearch) search(s0, s1 float64) {
	d.whole = s1 - s0
	d.spans = append(d.spans[:0], d.measure(s0, s1))
	d.refine(d.whole * narrowest)
}

// refine splits the span with the most to spare until there is little left.
func (d *dragSearch) refine(narrow float64) {
	for len(d.spans) < dragBudget && !d.lost {
		worst, total := -1, 0.0
		for i, x := range d.spans {
			total += x.spare
			if x.s1-x.s0 > narrow && (worst < 0 || x.spare > d.spans[worst].spare) {
				worst = i
			}
		}
		if total <= d.o.Epsilon || worst < 0 {
			return
		}
		x := d.spans[worst]
		middle := x.s0 + (x.s1-x.s0)/2
		d.spans[worst] = d.measure(x.s0, middle)
		d.spans = append(d.spans, d.measure(middle, x.s1))
	}
}

func (d *dragSearch) sum() Travel {
	sort.Slice(d.spans, func(i, j int) bool { return d.spans[i].s0 < d.spans[j].s0 })
	var t Travel
	for _, x := range d.spans {
		t.Lower += x.lower
		t.Upper += x.upper
		t.Face = t.Face || x.face && x.upper > negligible
	}
	return t
}

// outward is the normal of face i of b in ref.
func (d *dragSearch) outward(i int) gap.XYZ {
	n, _, _ := d.t.b.part.Solid.Face(i)
	return gap.Turn(&d.t.b.p0.R, n)
}

// measure brackets the drag over one interval.
func (d *dragSearch) measure(s0, s1 float64) span {
	x := span{s0: s0, s1: s1}
	t := &d.t
	if !t.load(&d.cache, d.part, d.against[0], s0, s1) {
		d.lost = true
		return x
	}
	least := d.nearestFace()
	if least > d.o.Band {
		return x
	}
	apart, drags := d.apart()
	if apart {
		return x
	}
	if least < -d.o.Band {
		path, chord := d.longest()
		x.upper, x.face, x.spare = path, d.deepest(least), path
		if drags && s1-s0 <= d.whole/digPieces && d.uncarried() { // all the way: of the path only its bends can be saved
			x.spare = path - chord
		}
		return x
	}
	for i := range t.b.part.Solid.Faces() {
		if d.highest(i) < least {
			continue
		}
		d.clip.faceOf(t, i)
		x.upper = math.Max(x.upper, d.most())
		x.lower = math.Max(x.lower, d.least())
		x.face = x.face || breadth(d.clip.rubs, d.clip.n) >= faceBreadth
	}
	x.spare = x.upper - x.lower
	return x
}

// nearestFace is the largest certified separation along a face normal of b.
func (d *dragSearch) nearestFace() float64 {
	least := math.Inf(-1)
	for i := range d.t.b.part.Solid.Faces() {
		least = math.Max(least, d.t.plane(d.outward(i).Mul(-1)))
	}
	return least
}

// apart tells whether the exact normals at the two ends certify sd > Band, and near
// whether the solids are within Band at both.
func (d *dragSearch) apart() (apart, near bool) {
	near = true
	for _, s := range [2]float64{d.t.s0, d.t.s1} {
		if n := d.exact(&node{}, s); d.t.plane(n) > d.o.Band {
			return true, false
		}
		near = near && d.seen <= d.o.Band
	}
	return false, near
}

// uncarried tells whether at both ends a is more than Band behind every face of b,
// so that none of them carries the contact.
func (d *dragSearch) uncarried() bool {
	t := &d.t
	best := [2]float64{math.Inf(-1), math.Inf(-1)}
	for i := range t.b.part.Solid.Faces() {
		n := d.outward(i)
		_, offset, _ := t.b.part.Solid.Face(i)
		t.a.project(n)
		low := spread(t.a.f).low
		for end := range best {
			best[end] = math.Max(best[end], low[end]-offset-n.Dot(gap.FromVec(t.b.p0.T)))
		}
	}
	return best[0] < -d.o.Band && best[1] < -d.o.Band
}

// highest is an upper bound on the distance of a from the plane of face i over
// the interval: that of the vertex whose own upper bound is least.
func (d *dragSearch) highest(i int) float64 {
	t := &d.t
	n := d.outward(i)
	_, offset, _ := t.b.part.Solid.Face(i)
	dd := (t.s1 - t.s0) * (t.s1 - t.s0)
	least := math.Inf(1)
	t.a.project(n)
	for j, f := range t.a.f {
		least = math.Min(least, -dip(-f[0], -f[1], t.a.curvature(j)*dd))
	}
	return least - offset - n.Dot(gap.FromVec(t.b.p0.T)) + t.e
}

// longest is the longest path of any vertex, in whatever direction, and the longest
// chord of one.
func (d *dragSearch) longest() (path, chord float64) {
	t := &d.t
	for _, v := range t.a.part.Solid.Vertices() {
		g := glideOf(t, v, gap.XYZ{}, 1)
		path, chord = math.Max(path, g.path), math.Max(chord, g.chord)
	}
	return path, chord
}

// deepest tells whether what no face carries may be a face that digs in: some
// face of b, as near as any, has a wide patch of a over it.
func (d *dragSearch) deepest(least float64) bool {
	for i := range d.t.b.part.Solid.Faces() {
		if d.highest(i) >= least {
			d.clip.faceOf(&d.t, i)
			if breadth(d.clip.run(&d.t, d.o.Band, d.o.Band), d.clip.n) >= faceBreadth {
				return true
			}
		}
	}
	return false
}

// most bounds the drag from above: the longest path along the face of a point
// of the patch that is not certified to open. Opening is judged by a function
// miss of the point that is convex, as is its path; a point of the patch is a
// mixture of its corners, so the longest path with miss > 0 is that of a corner
// or of a mixture of two at which miss is zero. Those points go to clip.rubs;
// their hull holds all that may drag.
func (d *dragSearch) most() float64 {
	points := d.clip.run(&d.t, d.o.Band+d.t.e, d.o.Band+d.t.e)
	gs := d.clip.glides(&d.t, points, d.o.Opening)
	d.clip.rubs = d.clip.rubs[:0]
	most := 0.0
	for i, g := range gs {
		if g.miss <= 0 {
			continue
		}
		most = math.Max(most, g.path)
		d.clip.rubs = append(d.clip.rubs, points[i])
		for j, h := range gs {
			if h.miss < 0 {
				share := g.miss / (g.miss - h.miss)
				most = math.Max(most, g.path+share*(h.path-g.path))
				d.clip.rubs = append(d.clip.rubs, points[i].Add(points[j].Sub(points[i]).Mul(share)))
			}
		}
	}
	return most
}

// least bounds the drag from below: the longest straight travel along the face
// of a point that stays over the face, within Band of it, and does not open.
func (d *dragSearch) least() float64 {
	t := &d.t
	least := 0.0
	for _, g := range d.clip.glides(t, d.clip.inner(t, d.o.Band-t.e), d.o.Opening) {
		if g.rubs {
			least = math.Max(least, g.chord)
		}
	}
	return least
}

package lineart

import "github.com/fogleman/ln/ln"

const (
	// speck is the length in millimetres under which a visible piece is left
	// out, and the distance up to which lines coincide. It is a tenth of a thin
	// line's width at scale 1:1 and nothing at any other.
	speck = 0.01
	// stub is the length in millimetres under which what is seen of a partly
	// hidden line is left out: where a line lies in the back of a solid that
	// hides it, Tie lets it show that far past the solid's rim (Tie over the sine
	// of the solid's angle there; this is enough for 20 degrees).
	stub = 3 * Tie
	// aside is how far beside a line its group is looked for, in millimetres.
	aside = 2 * speck
)

// item draws the edges of item i.
func (d *drawer) item(i int) {
	it := &d.its[i]
	for _, e := range it.edges {
		kind, ok := it.kindOf(e)
		a, b := it.verts[e.from], it.verts[e.to]
		if !ok || d.view.onNear(a, b) {
			continue
		}
		pa, pb := d.view.project(a), d.view.project(b)
		length := pb.sub(pa).length()
		if length <= speck {
			continue
		}
		d.pieces = d.seams.pieces(d.pieces[:0], i, e, kind)
		if len(d.pieces) == 0 {
			continue
		}
		near := d.grid.near(pa, pb, aside)
		d.hide(i, near, a, b, stub/length)
		for _, p := range d.pieces {
			d.piece(i, near, a, b, p)
		}
	}
}

// hide sets d.hidden to the stretches of the shown line a-b that other items
// hide, joined over gaps of slack.
func (d *drawer) hide(i int, near []int32, a, b ln.Vector, slack float64) {
	d.hidden = d.hidden[:0]
	d.strip.set(a, b)
	r := rectOf(d.view.project(a), d.view.project(b)).grow(speck)
	for _, k := range near {
		o := &d.its[k]
		if int(k) == i || o.ghost || !o.rect.meets(r) {
			continue
		}
		if h, ok := d.strip.hiddenBy(o.Convex); ok {
			from, to := d.view.shown(a, b, h.from), d.view.shown(a, b, h.to)
			d.hidden = append(d.hidden, span{from, to})
		}
	}
	d.hidden = union(d.hidden, slack)
}

// piece draws what is seen of one piece of an edge.
func (d *drawer) piece(i int, near []int32, a, b ln.Vector, p piece) {
	pa, pb := d.view.project(a), d.view.project(b)
	slack := speck / pb.sub(pa).length()
	from, to := d.view.shown(a, b, p.from), d.view.shown(a, b, p.to)
	d.seen = rest(d.seen[:0], from, to, d.hidden, slack*stub/speck)
	if p.kind == Inner || p.kind == CutRim {
		d.emit(i, pa, pb, d.seen, p.kind)
		return
	}
	if len(d.seen) == 0 {
		return
	}
	d.besides(i, near, pa, pb, slack)
	for _, s := range d.seen {
		d.emit(i, pa, pb, within(d.same, s), Silhouette)
		d.emit(i, pa, pb, rest(nil, s.from, s.to, d.same, slack), Outline)
	}
}

// besides sets d.same to the stretches of a contour a-b of item i beside which
// the picture shows another item of its group, in whatever depth.
func (d *drawer) besides(i int, near []int32, a, b point, slack float64) {
	d.same = d.same[:0]
	it := &d.its[i]
	out := outward(a, b, middle(it.hull))
	a, b = point{a.x + out.x, a.y + out.y}, point{b.x + out.x, b.y + out.y}
	r := rectOf(a, b)
	for _, k := range near {
		o := &d.its[k]
		if int(k) == i || o.group != it.group || !o.rect.meets(r) {
			continue
		}
		if s, ok := covered(a, b, o.hull); ok {
			d.same = append(d.same, s)
		}
	}
	d.same = union(d.same, slack)
}

// outward is the vector of length aside square to a-b that leads away from a
// point inside.
func outward(a, b, inside point) point {
	d := b.sub(a)
	k := aside / d.length()
	if d.cross(inside.sub(a)) < 0 {
		k = -k
	}
	return point{d.y * k, -d.x * k}
}

// within is the part of the joined spans inside s.
func within(joined []span, s span) []span {
	var out []span
	for _, j := range joined {
		if part := (span{max(j.from, s.from), min(j.to, s.to)}); part.from < part.to {
			out = append(out, part)
		}
	}
	return out
}

// emit keeps stretches of the shown line a-b.
func (d *drawer) emit(i int, a, b point, spans []span, kind Kind) {
	owner := d.its[i].owner
	for _, s := range spans {
		d.out = append(d.out, newLine(a, b, s, d.its[owner].weight(kind), owner))
	}
}

// weight orders coinciding lines: real before ghost, heavy before light, first
// ID before later ones. Less wins.
func (it *item) weight(kind Kind) weight {
	return weight{ghost: it.ghost, kind: kind, rank: it.rank}
}

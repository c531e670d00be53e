package lineart

import (
	"cmp"
	"math"
	"slices"

	"boxwalk/model/geom"
)

// weight ranks lines that coincide.
type weight struct {
	ghost bool
	kind  Kind
	rank  int
}

func (w weight) before(o weight) bool {
	switch {
	case w.ghost != o.ghost:
		return o.ghost
	case w.kind != o.kind:
		return w.kind > o.kind
	}
	return w.rank < o.rank
}

// line is a stretch of a straight line of the picture. The line runs at angle
// in [0, pi) with direction u, at distance off to the left of the origin; the
// stretch goes along it.
type line struct {
	span
	angle, off float64
	u          point
	weight     weight
	item       int
}

// sameAngle is how far in radians the angles of coinciding lines may differ:
// well over rounding (1e-16 of 100 m on an edge of 1 mm: 1e-11).
const sameAngle = 1e-8

// newLine is the stretch s of a-b. Its angle comes from a-b in full, so that
// short stretches do not lose it.
func newLine(a, b point, s span, w weight, item int) line {
	d := b.sub(a)
	k := 1 / d.length()
	u := point{d.x * k, d.y * k}
	if u.y < -sameAngle/2 || (u.y < sameAngle/2 && u.x < 0) {
		u = point{-u.x, -u.y}
	}
	p, q := u.dot(a.toward(b, s.from)), u.dot(a.toward(b, s.to))
	return line{
		span: span{min(p, q), max(p, q)}, angle: math.Atan2(u.y, u.x), off: u.cross(a),
		u: u, weight: w, item: item,
	}
}

// merge makes one of lines that coincide: of each stretch the line of least
// weight stays.
func merge(lines []line) []line {
	slices.SortFunc(lines, func(a, b line) int { return cmp.Compare(a.angle, b.angle) })
	var out []line
	for _, parallel := range runs(lines, func(a, b line) bool { return b.angle-a.angle > sameAngle }) {
		slices.SortFunc(parallel, func(a, b line) int { return cmp.Compare(a.off, b.off) })
		for _, on := range runs(parallel, func(a, b line) bool { return b.off-a.off > speck }) {
			out = append(out, resolve(on)...)
		}
	}
	return out
}

// runs splits sorted lines where apart holds between neighbours.
func runs(lines []line, apart func(a, b line) bool) [][]line {
	var out [][]line
	start := 0
	for i := 1; i <= len(lines); i++ {
		if i == len(lines) || apart(lines[i-1], lines[i]) {
			out = append(out, lines[start:i])
			start = i
		}
	}
	return out
}

// resolve settles lines on one and the same straight line.
func resolve(on []line) []line {
	if len(on) == 1 {
		return on
	}
	slices.SortFunc(on, compareLines)
	var out []line
	var taken []span
	for _, l := range on {
		left := rest(nil, l.from, l.to, taken, speck)
		taken = union(append(taken, l.span), 0)
		for _, s := range left {
			l.span = s
			out = append(out, l)
		}
	}
	return join(out)
}

// compareLines puts the line that wins first; among equals the one that starts
// first.
func compareLines(a, b line) int {
	switch {
	case a.weight.before(b.weight):
		return -1
	case b.weight.before(a.weight):
		return 1
	}
	return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to), cmp.Compare(a.off, b.off))
}

// join makes one of stretches of one item and kind that follow each other.
func join(on []line) []line {
	slices.SortStableFunc(on, func(a, b line) int { return cmp.Compare(a.from, b.from) })
	out := on[:0]
	for _, l := range on {
		if n := len(out); n > 0 && out[n-1].weight == l.weight && l.from <= out[n-1].to+speck {
			out[n-1].to = max(out[n-1].to, l.to)
			continue
		}
		out = append(out, l)
	}
	return out
}

// paths are the lines as results, in a fixed order: by places to a speck, so that
// the last bits of a coordinate do not decide between lines that begin together.
func paths(lines []line, its []item) []Path {
	out := make([]Path, len(lines))
	for i, l := range lines {
		out[i] = Path{From: l.at(l.from), To: l.at(l.to), Object: its[l.item].object, Kind: l.weight.kind}
	}
	place := func(x, y float64) int { return cmp.Compare(math.Round(x/speck), math.Round(y/speck)) }
	slices.SortStableFunc(out, func(a, b Path) int {
		return cmp.Or(
			cmp.Compare(a.Object, b.Object), cmp.Compare(a.Kind, b.Kind),
			place(a.From[0], b.From[0]), place(a.From[1], b.From[1]),
			place(a.To[0], b.To[0]), place(a.To[1], b.To[1]),
		)
	})
	return out
}

// at is the point of the picture at place t along the line.
func (l line) at(t float64) geom.Point2 {
	return geom.Point2{l.u.x*t - l.u.y*l.off, l.u.y*t + l.u.x*l.off}
}

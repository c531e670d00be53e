package lineart

import (
	"cmp"
	"slices"
)

// span is a stretch [from, to] of a line.
type span struct{ from, to float64 }

// union sorts spans and joins those that overlap or leave a gap of at most
// slack. It works in place.
func union(spans []span, slack float64) []span {
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	out := spans[:0]
	for _, s := range spans {
		if n := len(out); n > 0 && s.from <= out[n-1].to+slack {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

// rest appends to dst what joined spans leave of [from, to], without pieces of
// at most slack beside a span.
func rest(dst []span, from, to float64, joined []span, slack float64) []span {
	begin := from
	for _, s := range joined {
		if s.to <= from {
			continue
		}
		if s.from >= to {
			break
		}
		if s.from > from+slack {
			dst = append(dst, span{from, min(s.from, to)})
		}
		from = max(from, s.to)
		if from >= to {
			return dst
		}
	}
	if from == begin || to > from+slack {
		dst = append(dst, span{from, to})
	}
	return dst
}

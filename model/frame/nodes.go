package frame

import "slices"

// element is a length between two nodes: constant stiffness, straight load.
type element struct{ from, to, ei float64 }

// nodes are all places where something begins, ends or acts, in order; places
// within near of the one before are that one.
func (b Beam) nodes(cases []Loading) []float64 {
	all, at := []float64{0}, 0.0
	for _, s := range b.Stretches {
		at += float64(s.Length)
		all = append(all, at)
	}
	end := at
	for _, s := range b.Supports {
		all = append(all, float64(s.At))
	}
	for _, l := range b.Links {
		all = append(all, float64(l.At))
	}
	for _, c := range cases {
		for _, p := range c.Points {
			all = append(all, float64(p.At))
		}
		for _, q := range c.Lines {
			all = append(all, float64(q.From), float64(q.To))
		}
	}
	slices.Sort(all)
	out := []float64{0}
	for _, x := range all {
		if x > out[len(out)-1]+near && x < end-near {
			out = append(out, x)
		}
	}
	return append(out, end)
}

// nodeAt is the node that a place on the beam counts as.
func nodeAt(nodes []float64, x float64) int {
	i, exact := slices.BinarySearch(nodes, x)
	if !exact && i > 0 && (i == len(nodes) || x-nodes[i-1] <= nodes[i]-x) {
		i--
	}
	return i
}

// elements between neighbouring nodes.
func (b Beam) elements(nodes []float64) []element {
	out := make([]element, len(nodes)-1)
	stretch, end := 0, float64(b.Stretches[0].Length)
	for i := range out {
		middle := (nodes[i] + nodes[i+1]) / 2
		for middle > end && stretch+1 < len(b.Stretches) {
			stretch++
			end += float64(b.Stretches[stretch].Length)
		}
		out[i] = element{nodes[i], nodes[i+1], b.Stretches[stretch].EI}
	}
	return out
}

// loads are the values of the line loads at the two ends of each element.
func (l Loading) loads(nodes []float64) [][2]float64 {
	out := make([][2]float64, len(nodes)-1)
	for _, q := range l.Lines {
		from, to := float64(q.From), float64(q.To)
		at := func(x float64) float64 {
			f := min(max((x-from)/(to-from), 0), 1)
			return float64(q.Start)*(1-f) + float64(q.End)*f
		}
		for i := nodeAt(nodes, from); i < nodeAt(nodes, to); i++ {
			out[i][0] += at(nodes[i])
			out[i][1] += at(nodes[i+1])
		}
	}
	return out
}

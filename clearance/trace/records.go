package trace

import (
	"bytes"
	"encoding/json"
	"strconv"

	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"
)

// records are lines of a proof.
type records struct{ bytes.Buffer }

// add writes a line of words.
func (r *records) add(words ...string) {
	for i, w := range words {
		if i > 0 {
			r.WriteByte(' ')
		}
		r.WriteString(w)
	}
	r.WriteByte('\n')
}

// named writes a line of words with a name at its end, as a JSON string.
func (r *records) named(name string, words ...string) {
	quoted, err := json.Marshal(name)
	if err != nil {
		panic("trace: a name that is no text: " + err.Error())
	}
	r.add(append(words, string(quoted))...)
}

func whole(v int) string { return strconv.Itoa(v) }

// decimal is the shortest text that reads as the same number.
func decimal(v float64) string { return strconv.FormatFloat(v+0, 'g', -1, 64) }

func vector(v geom.Vec) string { return decimal(v[0]) + "," + decimal(v[1]) + "," + decimal(v[2]) }

func vectors(vs []geom.Vec) []string {
	var out []string
	for _, v := range vs {
		out = append(out, vector(v))
	}
	return out
}

// weights writes a point by its vertices.
func weights(list []sweep.Share) string {
	var out []byte
	for i, w := range list {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(strconv.AppendInt(out, int64(w.Vertex), 10), ':')
		out = append(out, decimal(w.Portion)...)
	}
	return string(out)
}

func (r *records) number(kind string, v float64) { r.add(kind, decimal(v)) }

func (r *records) plane(n geom.Vec) { r.add("P", vector(n)) }

func (r *records) swing(n0, n1 geom.Vec) { r.add("W", vector(n0), vector(n1)) }

// ids writes a split: the members of in, a part of the sorted set.
func (r *records) ids(kind string, in, set []int) { r.add(kind, list(in, set)) }

// list names members of a sorted set by runs that hold no others of the set.
func list(in, set []int) string {
	var out []byte
	k := 0
	for i := 0; i < len(in); {
		for set[k] != in[i] {
			k++
		}
		from := in[i]
		to := from
		for i < len(in) && k < len(set) && set[k] == in[i] {
			to = in[i]
			i, k = i+1, k+1
		}
		if len(out) > 0 {
			out = append(out, ',')
		}
		out = strconv.AppendInt(out, int64(from), 10)
		if to != from {
			out = append(append(out, '-'), strconv.Itoa(to)...)
		}
	}
	return string(out)
}

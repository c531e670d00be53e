package sweep

import (
	"slices"

	"boxwalk/clearance/gap"
)

// newJob puts a scene into trees: one for each body and set and, apart, for the
// kinds that may touch.
func newJob(s *scene) *job {
	j := &job{count: len(s.solids)}
	kinds := map[string]int32{}
	for _, x := range s.solids {
		if _, ok := kinds[x.kind]; !ok {
			kinds[x.kind] = int32(len(kinds))
		}
		j.kinds = append(j.kinds, kinds[x.kind])
	}
	own := map[string]bool{}
	for e := range s.excluded {
		own[e[0]] = true
		j.apart = append(j.apart, [2]int32{kinds[e[0]], kinds[e[1]]})
	}
	trees := make([][]*boxTree, s.groups)
	for g := range trees {
		trees[g] = s.trees(g, j.kinds, own)
	}
	for k := range s.pieces {
		p := &s.pieces[k]
		st := step{name: p.name, m: p, skip: make([][]int32, j.count), starting: p.phase == "collapse"}
		for g := 1; g < s.groups; g++ {
			for _, a := range trees[g] {
				for _, b := range trees[0] {
					if p.moves[g].moves {
						st.meet = append(st.meet, meeting{a, b, Ground, &b.frame})
					}
				}
			}
		}
		j.steps = append(j.steps, st)
	}
	return j
}

func (s *scene) trees(g int, kinds []int32, own map[string]bool) []*boxTree {
	var order []string
	sets := map[string][]boxedPart{}
	for i, part := range s.parts[g] {
		n := s.index[g][i]
		x := &s.solids[n]
		key := x.set()
		if own[x.kind] {
			key += " " + x.kind
		}
		if sets[key] == nil {
			order = append(order, key)
		}
		sets[key] = append(sets[key], boxedPart{part: part, shape: x.shape, number: n, kind: kinds[n]})
	}
	var out []*boxTree
	for _, key := range order {
		out = append(out, newBoxTree(sets[key][0].part.Body, sets[key]))
	}
	return out
}

// setUp prepares everything from solids with faces.
func (s *scene) setUp() *job {
	for g := range s.parts {
		for i := range s.parts[g] {
			s.parts[g][i].Solid = gap.New(s.solids[s.index[g][i]].shape)
		}
	}
	return newJob(s)
}

// touching is the distance up to which two parts touch.
const touching = 1e-6

// findContacts fills skip and mates of each step with the pairs that touch when
// it begins.
func (j *job) findContacts() {
	for k := range j.steps {
		st := &j.steps[k]
		st.mates = st.mates[:0]
		for i := range st.skip {
			st.skip[i] = st.skip[i][:0]
		}
		if !st.starting {
			continue
		}
		for m := range st.meet {
			x := &st.meet[m]
			j.set(st, x, 0, 0)
			for i := range x.a.nodes {
				if x.a.nodes[i].left < 0 {
					j.touches(st, m, int32(i))
				}
			}
		}
	}
}

func (j *job) touches(st *step, m int, i int32) {
	x := &st.meet[m]
	j.list, j.names = j.list[:0], j.names[:0]
	j.reach = touching * touching
	j.near(st, i, 0)
	a := x.a.nodes[i].right
	number := x.a.numbers[a]
	found := 0
	for k := range j.list {
		b := At(st.m, x.ref, x.a.parts[a], j.list[k:k+1], 0)
		if b.Upper <= touching {
			j.list[found] = j.list[k]
			found++
			st.skip[number] = append(st.skip[number], int32(j.names[k]))
		}
	}
	if found > 0 {
		st.mates = append(st.mates, mate{m, x.a.parts[a], slices.Clone(j.list[:found])})
	}
}

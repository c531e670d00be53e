package sweep

import "boxwalk/clearance/gap"

// newJob puts a scene into trees: one for each body.
func newJob(s *scene) *job {
	j := &job{count: len(s.solids)}
	var moving [][]*Tree // by group
	for g := range s.parts {
		moving = append(moving, s.treesOf(g))
	}
	exempt := s.exempt()
	for k := range s.pieces {
		p := &s.pieces[k]
		st := step{name: p.name, m: p, mates: make([][]bool, j.count), exempt: exempt, starting: p.phase == "collapse"}
		x := meeting{ref: Ground, others: moving[0]}
		for g := 1; g < s.groups; g++ {
			if p.moves[g].moves {
				x.parts = append(x.parts, moving[g]...)
			}
		}
		st.meet = []meeting{x}
		j.steps = append(j.steps, st)
	}
	return j
}

// treesOf a group: those of its body.
func (s *scene) treesOf(g int) []*Tree {
	var list []Member
	for i, part := range s.parts[g] {
		list = append(list, Member{part, s.index[g][i]})
	}
	return TreesOf(list)
}

// exempt tells the kinds that may touch.
func (s *scene) exempt() func(a, b int) bool {
	kinds := map[string]int{}
	of := make([]int, len(s.solids))
	for i, x := range s.solids {
		if _, ok := kinds[x.kind]; !ok {
			kinds[x.kind] = len(kinds)
		}
		of[i] = kinds[x.kind]
	}
	may := make([]bool, len(kinds)*len(kinds))
	for e := range s.excluded {
		may[kinds[e[0]]*len(kinds)+kinds[e[1]]] = true
	}
	return func(a, b int) bool { return may[of[a]*len(kinds)+of[b]] }
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

package sweep

import (
	"math"
	"testing"
)

// task is one part in one piece with what it may meet: the pairs in contact at
// the start apart.
type task struct {
	piece       *piece
	at          int
	part        Part
	free, mates []Part
}

func (s *scene) tasks() []task {
	var out []task
	for k := range s.pieces {
		p := &s.pieces[k]
		for group := 1; group < s.groups; group++ {
			if !p.moves[group].moves {
				continue
			}
			for i, part := range s.parts[group] {
				out = append(out, s.task(k, part, s.index[group][i]))
			}
		}
	}
	return out
}

func (s *scene) task(k int, part Part, number int) task {
	t := task{piece: &s.pieces[k], at: k, part: part}
	for j, b := range s.parts[0] {
		other := s.index[0][j]
		switch {
		case s.excluded[[2]string{s.solids[number].kind, s.solids[other].kind}]:
		case s.mates[k][[2]int{number, other}]:
			t.mates = append(t.mates, b)
		default:
			t.free = append(t.free, b)
		}
	}
	return t
}

func TestASceneHasTheMinimaOfAnotherEngineWithoutBoxes(t *testing.T) {
	s := readScene(t, "pindle-beck")
	least := make([]float64, len(s.pieces))
	for i := range least {
		least[i] = math.Inf(1)
	}
	for _, x := range s.tasks() {
		b := Least(x.piece, Ground, x.part, x.free, 0, 1, Options{Epsilon: 1e-5})
		if b.Upper-b.Lower > 1e-5 {
			t.Errorf("%s: [%g, %g]", x.piece.name, b.Lower, b.Upper)
		}
		least[x.at] = math.Min(least[x.at], b.Upper)
		m := Least(x.piece, Ground, x.part, x.mates, 0, 1, Options{Epsilon: 1e-5})
		if len(x.mates) > 0 && !(m.Lower > -2e-5 && m.Upper < 1e-5) {
			t.Errorf("%s: contact [%g, %g]", x.piece.name, m.Lower, m.Upper)
		}
	}
	for i, mm := range fclMinima("pindle-beck") {
		if got := 1000 * least[i]; math.Abs(got-mm) > 0.011 {
			t.Errorf("%s: %.4f mm, want %g", s.pieces[i].name, got, mm)
		}
	}
}

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

// oneMinima are the least gaps of the free pairs of `one` per piece, in
// millimetres, by best-first search with FCL and by an earlier engine.
var oneMinima = []float64{20, 14.142, 14.142, 2.123, 2.123, 40, 36.6, 40}

func TestCarrierInItsCellHasTheMinimaOfTwoOtherEngines(t *testing.T) {
	s := readScene(t, "one")
	least := make([]Bracket, len(s.pieces))
	for i := range least {
		least[i] = unknown()
	}
	for _, x := range s.tasks() {
		b := Least(x.piece, Ground, x.part, x.free, 0, 1, Options{Epsilon: 1e-5})
		if b.Upper-b.Lower > 1e-5 {
			t.Errorf("%s: [%g, %g]", x.piece.name, b.Lower, b.Upper)
		}
		if b.Upper < least[x.at].Upper {
			least[x.at] = b
		}
		m := Least(x.piece, Ground, x.part, x.mates, 0, 1, Options{Epsilon: 1e-5})
		if len(x.mates) > 0 && !(m.Lower > -1e-5 && m.Upper < 1e-5) {
			t.Errorf("%s: contact [%g, %g]", x.piece.name, m.Lower, m.Upper)
		}
	}
	for i, b := range least {
		if got := 1000 * b.Upper; math.Abs(got-oneMinima[i]) > 0.06 || oneMinima[i] != 36.6 && math.Abs(got-oneMinima[i]) > 0.011 {
			t.Errorf("%s: %.4f mm, want %g", s.pieces[i].name, got, oneMinima[i])
		}
	}
}

package sweep

import (
	"bufio"
	"compress/gzip"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// scene is a carrier of 270 convex parts in one cell of 77 concrete solids: it
// folds in five pieces of motion and rolls 12 m round an angle point in three.
type scene struct {
	parts    [][]Part // by group; group 0 is the concrete
	index    [][]int  // number of each part in the file
	kinds    []string // by number
	pieces   []piece
	mates    []map[[2]int]bool // per piece, pairs in contact at its start
	excluded map[[2]string]bool
}

// piece moves some groups: x -> c + s d + R(s angle)(x - c) on top of where
// the group stood at its start. It is a Motion whose bodies are the groups.
type piece struct {
	name  string
	start []geom.Pose
	moves map[int]move
}

type move struct {
	d, axis, c geom.Vec
	angle      float64
}

func (m move) at(s float64) geom.Pose {
	return geom.Translation(m.d.Mul(s)).Mul(geom.Rotation(m.c, m.axis, m.angle*s))
}

func (p *piece) Pose(_, body int, s float64) geom.Pose {
	if body == Ground {
		return geom.Identity()
	}
	m, ok := p.moves[body]
	if !ok {
		return p.start[body]
	}
	return m.at(s).Mul(p.start[body])
}

// Bound: the point that stands at c moves in a straight line.
func (p *piece) Bound(_, body int, _, _ float64) geom.Bound {
	m, ok := p.moves[body]
	if !ok || m.angle == 0 {
		return geom.Bound{}
	}
	bodyFromStart := p.start[body].Inverse()
	return geom.Bound{C: bodyFromStart.Apply(m.c), Axis: bodyFromStart.Turn(m.axis), Omega: math.Abs(m.angle)}
}

func (p *piece) Depth(_, body int) int {
	if body == Ground {
		return 0
	}
	return 2
}

type sceneReader struct {
	testing.TB
	in io.Reader
}

func openScene(tb testing.TB, name string) sceneReader {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "clearance", name))
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { f.Close() })
	z, err := gzip.NewReader(f)
	if err != nil {
		tb.Fatal(err)
	}
	return sceneReader{tb, bufio.NewReader(z)}
}

func (r sceneReader) scan(to ...any) {
	r.Helper()
	if _, err := fmt.Fscan(r.in, to...); err != nil {
		r.Fatal(err)
	}
}

func (r sceneReader) count() (n int) {
	var word string
	r.scan(&word, &n)
	return n
}

func (r sceneReader) vec() (v geom.Vec) {
	r.scan(&v[0], &v[1], &v[2])
	return v
}

func (r sceneReader) solid(vertices, faces int) *gap.Solid {
	s := &geom.Solid{}
	for range vertices {
		s.Vertices = append(s.Vertices, r.vec())
	}
	for range faces {
		var n int
		r.scan(&n)
		loop := make([]int, n)
		for i := range loop {
			r.scan(&loop[i])
		}
		s.Faces = append(s.Faces, loop)
	}
	return gap.New(s)
}

func readScene(tb testing.TB) *scene {
	tb.Helper()
	r := openScene(tb, "one.txt.gz")
	s := &scene{parts: make([][]Part, 5), index: make([][]int, 5), excluded: map[[2]string]bool{}}
	for i := range r.count() {
		var id, kind string
		var group, vertices, faces int
		r.scan(&id, &group, &kind, &vertices, &faces)
		body := group
		if group == 0 {
			body = Ground
		}
		s.parts[group] = append(s.parts[group], Part{body, r.solid(vertices, faces)})
		s.index[group] = append(s.index[group], i)
		s.kinds = append(s.kinds, kind)
	}
	for range r.count() {
		var group string
		r.scan(&group)
	}
	now := []geom.Pose{geom.Identity(), geom.Identity(), geom.Identity(), geom.Identity(), geom.Identity()}
	for range r.count() {
		s.pieces = append(s.pieces, r.piece(now))
	}
	for range r.count() {
		var a, b string
		r.scan(&a, &b)
		s.excluded[[2]string{a, b}] = true
	}
	s.readMates(tb)
	return s
}

// piece reads one and moves now to its end.
func (r sceneReader) piece(now []geom.Pose) piece {
	p := piece{start: append([]geom.Pose(nil), now...), moves: map[int]move{}}
	var phase string
	var moves int
	r.scan(&p.name, &phase, &moves)
	for range moves {
		var group int
		r.scan(&group)
		m := move{d: r.vec(), axis: r.vec(), c: r.vec()}
		r.scan(&m.angle)
		p.moves[group] = m
		now[group] = m.at(1).Mul(now[group])
	}
	return p
}

func (s *scene) readMates(tb testing.TB) {
	r := openScene(tb, "one.mates.gz")
	for range s.pieces {
		mates := map[[2]int]bool{}
		var n int
		r.scan(&n)
		for range n {
			var a, b int
			r.scan(&a, &b)
			mates[[2]int{a, b}] = true
		}
		s.mates = append(s.mates, mates)
	}
}

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
		for group := 1; group < len(s.parts); group++ {
			if _, ok := p.moves[group]; !ok {
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
		case s.excluded[[2]string{s.kinds[number], s.kinds[other]}]:
		case s.mates[k][[2]int{number, other}]:
			t.mates = append(t.mates, b)
		default:
			t.free = append(t.free, b)
		}
	}
	return t
}

func TestCarrierInItsCellHasTheMinimaOfTwoOtherEngines(t *testing.T) {
	// Millimetres, by best-first search with FCL and by an earlier engine.
	want := []float64{20, 14.142, 14.142, 2.123, 2.123, 40, 36.6, 40}
	s := readScene(t)
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
		if got := 1000 * b.Upper; math.Abs(got-want[i]) > 0.06 || want[i] != 36.6 && math.Abs(got-want[i]) > 0.011 {
			t.Errorf("%s: %.4f mm, want %g", s.pieces[i].name, got, want[i])
		}
	}
}

func BenchmarkEveryPartInEveryPiece(b *testing.B) {
	tasks := readScene(b).tasks()
	for _, epsilon := range []float64{1e-3, 1e-4, 1e-6} {
		for _, cap := range []float64{0.3, 0} {
			b.Run(fmt.Sprintf("epsilon=%g/cap=%g", epsilon, cap), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					for i := range tasks {
						x := &tasks[i]
						Least(x.piece, Ground, x.part, x.free, 0, 1, Options{Epsilon: epsilon, Cap: cap})
						Least(x.piece, Ground, x.part, x.mates, 0, 1, Options{Epsilon: epsilon, Cap: cap})
					}
				}
			})
		}
	}
}

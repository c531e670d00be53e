package sweep

import (
	"bufio"
	"bytes"
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

// scene is a carrier in its cell, written from a job of testdata (measure/scenes_test.go):
// `quarry-lane` is a bay of the demo, whose carrier rolls round a bend, `four-cells` one that rolls straight on, `pindle-beck` a small cell, and in `arms-first` the header arms dig in.
type scene struct {
	solids   []sceneSolid
	groups   int      // group 0 is the concrete
	parts    [][]Part // by group
	index    [][]int  // number of each part in the file
	pieces   []piece
	mates    []map[[2]int]bool // per piece, pairs in contact at its start
	excluded map[[2]string]bool
}

type sceneSolid struct {
	id, kind string
	group    int
	shape    *geom.Solid
}

// piece moves some groups: x -> c + s d + R(s angle)(x - c) on top of where
// the group stood at its start. It is a Motion whose bodies are the groups.
type piece struct {
	name, phase string
	start, end  []geom.Pose
	moves       []move
}

type move struct {
	moves      bool
	d, axis, c geom.Vec
	angle      float64
	bound      geom.Bound
	errorBound geom.ErrorBound // of its poses throughout
}

func (m *move) at(s float64) geom.Pose {
	if m.angle == 0 {
		return geom.Translation(m.d.Mul(s))
	}
	return geom.Translation(m.d.Mul(s)).Mul(geom.Rotation(m.c, m.axis, m.angle*s))
}

func (p *piece) Pose(_, body int, s float64) geom.Pose {
	if body == Ground {
		return geom.Identity()
	}
	m := &p.moves[body]
	switch {
	case s == 0 || !m.moves:
		return p.start[body]
	case s == 1:
		return p.end[body]
	}
	return m.at(s).Mul(p.start[body])
}

// Bound: the point that stands at c moves in a straight line.
func (p *piece) Bound(_, body int, _, _ float64) geom.Bound {
	if body == Ground {
		return geom.Bound{}
	}
	return p.moves[body].bound
}

func (p *piece) ErrorBound(_, body int, s float64) geom.ErrorBound {
	if body == Ground {
		return geom.ErrorBound{}
	}
	return p.moves[body].errorBound
}

// errorFrom bounds how far poses of a move are off that start at some pose: the
// farthest of a straight way is its end.
func (m *move) errorFrom(start geom.Pose) geom.ErrorBound {
	turned := geom.RotationErrorBound(m.c, 2*0x1p-53*math.Abs(m.angle))
	turned.Shift += geom.TranslationErrorBound(m.d, 1, 0).Shift
	end := m.at(1)
	end.T = geom.Vec{m.d.Len() + 2*m.c.Len()}
	return turned.Chained(end, start, geom.ErrorBound{})
}

type sceneReader struct {
	testing.TB
	in io.Reader
}

func unzipped(tb testing.TB, name string) []byte {
	tb.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "clearance", name+".gz"))
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		tb.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		tb.Fatal(err)
	}
	return text
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

func (r sceneReader) solid(vertices, faces int) *geom.Solid {
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
	return s
}

func readScene(tb testing.TB, name string) *scene {
	tb.Helper()
	r := sceneReader{tb, bufio.NewReader(bytes.NewReader(unzipped(tb, name+".txt")))}
	s := &scene{excluded: map[[2]string]bool{}}
	for range r.count() {
		var x sceneSolid
		var vertices, faces int
		r.scan(&x.id, &x.group, &x.kind, &vertices, &faces)
		x.shape = r.solid(vertices, faces)
		s.solids = append(s.solids, x)
	}
	s.groups = r.count()
	now := make([]geom.Pose, s.groups)
	for i := range now {
		var group string
		r.scan(&group)
		now[i] = geom.Identity()
	}
	for range r.count() {
		s.pieces = append(s.pieces, r.piece(now))
	}
	for range r.count() {
		var a, b string
		r.scan(&a, &b)
		s.excluded[[2]string{a, b}] = true
	}
	s.prepare()
	s.readMates(tb, name)
	return s
}

// prepare makes the parts.
func (s *scene) prepare() {
	s.parts, s.index = make([][]Part, s.groups), make([][]int, s.groups)
	for i, x := range s.solids {
		body := x.group
		if body == 0 {
			body = Ground
		}
		s.parts[x.group] = append(s.parts[x.group], Part{body, gap.New(x.shape)})
		s.index[x.group] = append(s.index[x.group], i)
	}
}

// piece reads one and moves now to its end.
func (r sceneReader) piece(now []geom.Pose) piece {
	p := piece{start: append([]geom.Pose(nil), now...), moves: make([]move, len(now))}
	var moves int
	r.scan(&p.name, &p.phase, &moves)
	for range moves {
		var group int
		r.scan(&group)
		m := move{moves: true, d: r.vec(), axis: r.vec(), c: r.vec()}
		r.scan(&m.angle)
		if m.angle != 0 {
			bodyFromStart := now[group].Inverse()
			m.bound = geom.Bound{C: bodyFromStart.Apply(m.c), Axis: bodyFromStart.Turn(m.axis), Omega: math.Abs(m.angle)}
		}
		m.errorBound = m.errorFrom(now[group])
		p.moves[group] = m
		now[group] = m.at(1).Mul(now[group])
	}
	p.end = append([]geom.Pose(nil), now...)
	return p
}

func (s *scene) readMates(tb testing.TB, name string) {
	r := sceneReader{tb, bytes.NewReader(unzipped(tb, name+".mates"))}
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

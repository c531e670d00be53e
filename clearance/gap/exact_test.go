package gap

import (
	"bufio"
	"compress/gzip"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"boxwalk/model/geom"
)

// exactPair is a pair of solids in one frame with its signed distance from
// exact rational arithmetic (polytope distance when apart, Minkowski hull when
// overlapping; CGAL 5.5), rounded to float64.
type exactPair struct {
	kind string
	a, b *geom.Solid
	want float64
}

// opened is a gzip-compressed file of testdata/clearance.
func opened(tb testing.TB, name string) io.Reader {
	tb.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "clearance", name))
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { f.Close() })
	z, err := gzip.NewReader(f)
	if err != nil {
		tb.Fatal(err)
	}
	return bufio.NewReader(z)
}

// exactPairs reads "pair KIND" and, for each of two solids, the numbers of
// vertices and faces, the vertices, and the faces as "count i j k...".
func exactPairs(tb testing.TB) []exactPair {
	tb.Helper()
	in, answers := opened(tb, "pairs.txt.gz"), opened(tb, "pairs.exact.txt.gz")
	var out []exactPair
	for {
		var p exactPair
		var kind string
		if _, err := fmt.Fscan(answers, &kind, &p.want); err == io.EOF {
			break
		}
		var word string
		scan(tb, in, &word, &p.kind)
		if word != "pair" || p.kind != kind {
			tb.Fatalf("pair %d: %q %q against answer %q", len(out), word, p.kind, kind)
		}
		p.a, p.b = readSolid(tb, in), readSolid(tb, in)
		out = append(out, p)
	}
	if len(out) != 2900 {
		tb.Fatalf("%d pairs, want 2900", len(out))
	}
	return out
}

func scan(tb testing.TB, in io.Reader, to ...any) {
	tb.Helper()
	if _, err := fmt.Fscan(in, to...); err != nil {
		tb.Fatal(err)
	}
}

func readSolid(tb testing.TB, in io.Reader) *geom.Solid {
	var vertices, faces int
	scan(tb, in, &vertices, &faces)
	s := &geom.Solid{Vertices: make([]geom.Vec, vertices), Faces: make([][]int, faces)}
	for i := range s.Vertices {
		v := &s.Vertices[i]
		scan(tb, in, &v[0], &v[1], &v[2])
	}
	for i := range s.Faces {
		var n int
		scan(tb, in, &n)
		s.Faces[i] = make([]int, n)
		for k := range s.Faces[i] {
			scan(tb, in, &s.Faces[i][k])
		}
	}
	return s
}

func TestGapAgreesWithExactRationalArithmeticInBothOrders(t *testing.T) {
	worst := map[string]float64{}
	for i, p := range exactPairs(t) {
		a, b := New(p.a), New(p.b)
		for _, r := range []Result{
			gapOf(a, b, geom.Identity(), geom.Identity()),
			gapOf(b, a, geom.Identity(), geom.Identity()),
		} {
			off := math.Abs(r.Distance - p.want)
			worst[p.kind] = math.Max(worst[p.kind], off)
			if off > 1e-12+32*0x1p-53*(a.Reach()+b.Reach()) {
				t.Errorf("%s pair %d: %.17g, exact %.17g", p.kind, i, r.Distance, p.want)
			}
			if off > r.Slack {
				t.Errorf("%s pair %d: off by %g, slack says %g", p.kind, i, off, r.Slack)
			}
			if r.Slack > 1e-11 {
				t.Errorf("%s pair %d: slack %g", p.kind, i, r.Slack)
			}
		}
	}
	t.Logf("worst error in m: %v", worst)
}

func BenchmarkBetween(b *testing.B) {
	pairs := exactPairs(b)
	type ready struct{ a, b *Solid }
	byKind := map[string][]ready{}
	for _, p := range pairs {
		byKind[p.kind] = append(byKind[p.kind], ready{New(p.a), New(p.b)})
	}
	id := geom.Identity()
	for _, kind := range []string{"far", "parallel", "kink", "collapse", "sliver", "plate", "contact0", "nearly", "penetrate"} {
		set := byKind[kind]
		b.Run(kind, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				p := &set[i%len(set)]
				Between(p.a, p.b, &id, &id)
			}
		})
	}
}

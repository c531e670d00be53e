package lineart

import (
	"fmt"
	"math"
	"testing"

	"boxwalk/export/scene"

	"pgregory.net/rapid"
)

const cells = 3 // of a lattice, each way

// filled tells which cells of a lattice are solid.
type filled [cells][cells][cells]bool

func drawFilled(t *rapid.T) filled {
	var f filled
	for k, b := range rapid.SliceOfN(rapid.Bool(), cells*cells*cells, cells*cells*cells).Draw(t, "filled") {
		f[k/cells/cells][k/cells%cells][k%cells] = b
	}
	return f
}

// single is one object a cell.
func (f filled) single() scene.Scene {
	var s scene.Scene
	for x := range cells {
		for y := range cells {
			for z := range cells {
				if f[x][y][z] {
					s.Objects = append(s.Objects, cell(x, y, z, 1, 0))
				}
			}
		}
	}
	return s
}

// rows is one object for each run of cells along x (axis 0) or z (axis 2).
func (f filled) rows(axis int) scene.Scene {
	var s scene.Scene
	for i := range cells {
		for j := range cells {
			for k := 0; k < cells; k++ {
				n := 0
				for k+n < cells && f.along(axis, i, j, k+n) {
					n++
				}
				if n == 0 {
					continue
				}
				if axis == 0 {
					s.Objects = append(s.Objects, cell(k, i, j, n, 0))
				} else {
					s.Objects = append(s.Objects, cell(i, j, k, n, 2))
				}
				k += n
			}
		}
	}
	return s
}

func (f filled) along(axis, i, j, k int) bool {
	if axis == 0 {
		return f[k][i][j]
	}
	return f[i][j][k]
}

// cell is n cells in a row along an axis, 100 x 90 x 70 mm each so that no
// more lines coincide in an isometric view than must.
func cell(x, y, z, n, axis int) scene.Object {
	to := [3]int{x + 1, y + 1, z + 1}
	to[axis] += n - 1
	o := block(fmt.Sprint(x, y, z), 100*float64(x), 90*float64(y), 70*float64(z),
		100*float64(to[0]), 90*float64(to[1]), 70*float64(to[2]))
	o.Group, o.Whole = "lattice", "lattice"
	return o
}

func TestHowAWholeIsCutIntoPiecesDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, c := drawFilled(t), cameraOf(t)
		var want [Outline + 1]float64
		for i, s := range []scene.Scene{f.single(), f.rows(0), f.rows(2)} {
			ps, err := Draw(s, c)
			if err != nil {
				t.Fatal(err)
			}
			for k := Inner; k <= Outline; k++ {
				l := total(ps, kind(k))
				if i == 0 {
					want[k] = l
				}
				if math.Abs(l-want[k]) > 0.5*float64(len(ps)+1) {
					t.Fatalf("cut %d: %v mm of %v, want %v", i, l, k, want[k])
				}
			}
		}
	})
}

// loose lists paths with an end that meets no other path.
func loose(ps []Path) []Path {
	var out []Path
	for i, p := range ps {
		for _, end := range []p2{p.From, p.To} {
			met := false
			for j, q := range ps {
				met = met || i != j && distance(end, q) < 2*stub
			}
			if !met {
				out = append(out, p)
			}
		}
	}
	return out
}

func distance(p p2, q Path) float64 {
	d := q.To.Sub(q.From)
	t := math.Min(1, math.Max(0, p.Sub(q.From).Dot(d)/d.Dot(d)))
	return p.Sub(q.From.Add(d.Mul(t))).Len()
}

func TestEveryLineEndsAtAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, c := drawFilled(t).single(), cameraOf(t)
		for i := range s.Objects {
			s.Objects[i].Whole = rapid.SampledFrom([]string{"", "one", "two"}).Draw(t, "whole")
		}
		ps, err := Draw(s, c)
		if err != nil {
			t.Fatal(err)
		}
		if l := loose(ps); len(l) > 0 {
			t.Fatalf("loose ends: %v", l)
		}
	})
	for _, c := range []scene.Camera{corner, fromAhead, fromAbove, fromRight} {
		if l := loose(draw(t, yard(40, 2), c)); len(l) > 0 {
			t.Errorf("loose ends: %v", l)
		}
	}
}

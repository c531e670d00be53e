package geom

import (
	"math"
	"math/rand"
	"testing"
)

// An arrowhead: the corner (1, 1) turns in, and one cut from it will do.
func TestAnArrowheadIsCutInTwo(t *testing.T) {
	pieces := ConvexPieces([]Point2{{0, 0}, {4, 0}, {1, 1}, {0, 4}})
	if len(pieces) != 2 || math.Abs(Area(pieces[0])+Area(pieces[1])-4) > 1e-12 {
		t.Errorf("%v", pieces)
	}
}

func TestAConvexOutlineIsLeftAsItIsAndOneThatCrossesHasNoPieces(t *testing.T) {
	square := []Point2{{0, 0}, {1, 0}, {1, 1}, {0, 1}}
	if pieces := ConvexPieces(square); len(pieces) != 1 || len(pieces[0]) != 4 {
		t.Errorf("%v", pieces)
	}
	for _, crossing := range [][]Point2{{{0, 0}, {1, 1}, {1, 0}, {0, 1.5}}, {{0, 0}, {2, 0}, {1, 0}, {1, 1}}, {{0, 0}, {4, 0}, {4, 4}, {2, -1}, {0, 4}}} {
		if pieces := ConvexPieces(crossing); pieces != nil {
			t.Errorf("%v is cut into %v", crossing, pieces)
		}
	}
}

// Stars with up to 11 corners at random distances from their middle: what is cut
// is convex and covers as much as the whole.
func TestPiecesAreConvexAndCoverTheWhole(t *testing.T) {
	r := rand.New(rand.NewSource(17))
	cut := 0
	for range 3000 {
		n := 4 + r.Intn(8)
		star := make([]Point2, n)
		for i := range star {
			a, d := 2*math.Pi*float64(i)/float64(n), 0.1+r.Float64()
			star[i] = Point2{5 + d*math.Cos(a), 3 + d*math.Sin(a)}
		}
		pieces, sum := ConvexPieces(star), 0.0
		for _, p := range pieces {
			if sum += Area(p); !convex(p) {
				t.Fatalf("%v of %v is not convex", p, star)
			}
			if err := Prism(p, 0, 1).Check(); err != nil {
				t.Fatalf("%v of %v: %v", p, star, err)
			}
		}
		if math.Abs(sum-Area(star)) > 1e-9 || len(pieces) > n-2 {
			t.Fatalf("%d pieces of %v cover %g of %g", len(pieces), star, sum, Area(star))
		}
		cut += min(1, len(pieces)-1)
	}
	if cut < 1000 {
		t.Errorf("only %d were cut", cut)
	}
}

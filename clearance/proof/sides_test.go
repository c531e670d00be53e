package proof

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// A seam among other pairs of two sets is held to its own number: the half that runs
// 10 mm into the other has a second part far behind.
func TestSeamAmongOtherPairsIsHeldToItsNumber(t *testing.T) {
	const leaf = "S 0,2\nN\nP 0,1,0\nN"
	for _, c := range []struct {
		seam string
		held bool
	}{{"-0.01", true}, {"0", false}} {
		text := jamming("some", lines("self 0 1", "need strip.self -0.5", "touch strip.self.seams 0", leaf,
			"self 0 2", "need strip.self -0.5", "touch strip.self.seams "+c.seam, leaf, tail(2)))
		text = swap(t, text, "seam 0 1", "part 2 0 "+box(0, -3, 0, 1, -2, 1)+" \"B\"\nseam 0 1")
		if c.held {
			accepted(t, text)
		} else {
			refused(t, text, "P", "are asked")
		}
	}
}

// A plane holds two sets if and only if each pair that is not exempt keeps what is
// asked of it: boxes of two bodies that slide apart or together along y, some of them
// pinned, some asked more or less than others.
func TestPlaneHoldsTwoSetsAsItHoldsTheirPairs(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	taken := 0
	for range 400 {
		s := drawSets(r)
		_, err := Verify(strings.NewReader(s.write()))
		if s.keeps() != (err == nil) {
			t.Fatalf("keeps %v, and %v:\n%s", s.keeps(), err, s.write())
		}
		if err == nil {
			taken++
		}
	}
	if taken < 100 || taken > 300 {
		t.Errorf("%d of 400 hold: too few of one kind were drawn", taken)
	}
}

// sets are parts of a body below the plane y = 0 and of one above, by how far they lie
// off it; the upper body slides by s.
type sets struct {
	below, above []float64
	slide, lower float64
	um           map[int]int     // what is asked more, by part
	pinned       map[[2]int]bool // by part
}

func drawSets(r *rand.Rand) sets {
	s := sets{slide: 0.02 * (r.Float64() - 0.5), um: map[int]int{}, pinned: map[[2]int]bool{}}
	for range 2 + r.IntN(4) {
		s.below = append(s.below, 0.1*r.Float64())
	}
	for range 2 + r.IntN(4) {
		s.above = append(s.above, 0.1*r.Float64())
	}
	for i := range s.below {
		if r.IntN(3) == 0 {
			s.um[i] = r.IntN(40000) - 20000
		}
		for k := range s.above {
			if r.IntN(8) == 0 {
				s.pinned[[2]int{i, len(s.below) + k}] = true
			}
		}
	}
	s.lower = 0.06 * r.Float64()
	return s
}

// keeps tells by the definition whether every pair keeps what is asked.
func (s sets) keeps() bool {
	for i, a := range s.below {
		for k, b := range s.above {
			gap := a + b + math.Min(0, s.slide)
			if gap < s.lower+1e-6*float64(s.um[i]) && !s.pinned[[2]int{i, len(s.below) + k}] {
				return false
			}
		}
	}
	return true
}

func (s sets) write() string {
	var parts, pinned, less strings.Builder
	for i, a := range s.below {
		fmt.Fprintf(&parts, "part %d 0 %s \"A\"\n", i, box(0, -a-1, 0, 1, -a, 1))
		if um := s.um[i]; um != 0 {
			fmt.Fprintf(&less, "less %d %d\n", um, i)
		}
		for k := range s.above {
			if p := [2]int{i, len(s.below) + k}; s.pinned[p] {
				fmt.Fprintf(&pinned, "pinned %d %d\n", p[0], p[1])
			}
		}
	}
	for k, b := range s.above {
		fmt.Fprintf(&parts, "part %d 1 %s \"B\"\n", len(s.below)+k, box(0, b, 0, 1, b+1, 1))
	}
	split := "S 0-" + itoa(len(s.below)-1)
	return lines(head("some"), "body 0 -1 fixed \"a\"\nbody 1 0 slide 0,1,0 0,0,0 - \"b\"", parts.String(), pinned.String(),
		`step 1 strip "1"`, "drive 1 0 "+num(s.slide), "self 0 1", "need strip.self "+num(s.lower), less.String(), split, "N", "P 0,1,0", "N", tail(1))
}

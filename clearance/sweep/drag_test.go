package sweep

import (
	"math"
	"testing"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// wall is 10 m long with its face x = 0 looking against x, 3 m high.
func wall() Part { return ground(block(0, 0.3, -5, 5, 0, 3)) }

// panel is in contact with wall over 2 m by 3 m.
func panel() Part { return Part{0, block(-0.1, 0, -1, 1, 0, 3)} }

func checkDrag(t *testing.T, got Travel, want, within float64, face bool) {
	t.Helper()
	if got.Lower > want+1e-12 || got.Upper < want-1e-12 || got.Upper-got.Lower > within || got.Face != face {
		t.Errorf("%+v, want %g within %g, face %v", got, want, within, face)
	}
}

func TestAPanelThatSlidesAlongAFaceDragsAllItsWay(t *testing.T) {
	got := Drag(slide(geom.Vec{0, 0.12, 0}), Ground, panel(), wall(), 0, 1, DragOptions{})
	checkDrag(t, got, 0.12, 1e-9, true)
}

func TestAPanelThatHingesOffItsTopEdgeDoesNotDrag(t *testing.T) {
	got := Drag(hinge(geom.Vec{0, 0, 3}, alongY, 0.17), Ground, panel(), wall(), 0, 1, DragOptions{})
	checkDrag(t, got, 0, 1e-9, false)
}

func TestAPanelThatLeavesOneInTwentyDoesNotDrag(t *testing.T) {
	got := Drag(slide(geom.Vec{-0.005, 0, -0.1}), Ground, panel(), wall(), 0, 1, DragOptions{})
	checkDrag(t, got, 0, 1e-9, false)
}

func TestAPanelThatLeavesOneInFiftyDragsUntilItIsOutOfTheBand(t *testing.T) {
	got := Drag(slide(geom.Vec{-0.005, 0, -0.25}), Ground, panel(), wall(), 0, 1, DragOptions{})
	checkDrag(t, got, 50*DefaultBand, DefaultEpsilon, true)
}

func TestAWidePanelDragsOnANarrowFaceUnderItsMiddle(t *testing.T) {
	narrow := ground(block(0, 0.3, -0.05, 0.05, -1, 4))
	got := Drag(slide(geom.Vec{0, 0.12, 0}), Ground, panel(), narrow, 0, 1, DragOptions{})
	checkDrag(t, got, 0.12, 1e-9, true)
}

func TestAPanelDragsUntilItLeavesTheEndOfTheFace(t *testing.T) {
	got := Drag(slide(geom.Vec{0, 8, 0}), Ground, panel(), wall(), 0, 1, DragOptions{})
	checkDrag(t, got, 6, DefaultBand+DefaultEpsilon, true)
}

func TestAnEdgeThatRubsIsNotAFace(t *testing.T) {
	roof := Part{0, block(-1, 0, -1, 1, 2, 2.005)}
	got := Drag(slide(geom.Vec{0, 0, -0.05}), Ground, roof, wall(), 0, 1, DragOptions{})
	checkDrag(t, got, 0.05, 1e-9, false)
}

func TestAPanelFlushWithTheEndOfTheConcreteLiftsWithoutDrag(t *testing.T) {
	flush := ground(block(0, 0.3, -1, 1, 0, 3))
	got := Drag(slide(geom.Vec{-0.05, 0, 0}), Ground, panel(), flush, 0, 1, DragOptions{})
	checkDrag(t, got, 0, 1e-9, false)
}

func TestAHingeBehindTheFaceDragsItsTopEdgeWhileItIsNear(t *testing.T) {
	// The pin is 60 mm inside and level with the panel's top: the top edge
	// moves straight down at first.
	got := Drag(hinge(geom.Vec{-0.06, 0, 3}, alongY, 0.05), Ground, panel(), wall(), 0, 1, DragOptions{})
	// It opens as the tangent of the angle, so until 1 in 25.
	checkDrag(t, got, 0.06*math.Sin(math.Atan(DefaultOpening)), DefaultEpsilon, false)
}

func TestEdgeAcrossEdgeAlwaysDrags(t *testing.T) {
	// Two square bars set on their corners, crossing at right angles.
	turned := geom.Rotation(geom.Vec{}, alongY, math.Pi/4)
	low := geom.Block(geom.Box{Min: geom.Vec{-0.1, -1, -0.1}, Max: geom.Vec{0.1, 1, 0.1}}).Moved(turned)
	across := geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, math.Pi/2)
	high := low.Moved(across).Moved(geom.Translation(geom.Vec{0, 0, 0.2 * math.Sqrt2}))
	got := Drag(slide(geom.Vec{0, 0.05, 0}), Ground, Part{0, solidOf(high)}, ground(solidOf(low)), 0, 1, DragOptions{})
	if got.Upper < 0.05 {
		t.Errorf("%+v", got)
	}
}

func TestDragOnAMovingFaceIsNotCertified(t *testing.T) {
	m := tree{{parent: Ground, dir: alongX, drive: drive{q1: 1}}, {parent: Ground, dir: alongX, drive: drive{q1: 0.5}}}
	got := Drag(m, Ground, panel(), Part{1, wall().Solid}, 0, 1, DragOptions{})
	if !math.IsInf(got.Upper, 1) {
		t.Errorf("%+v", got)
	}
}

// vertexDrag adds up, pose by pose, the travel of the vertex that travels
// farthest while it is within the band of the wall's face x = 0 and its outline
// and does not open. It may add one step too much.
func vertexDrag(m Motion, a Part, steps int) float64 {
	sum := 0.0
	for i := range steps {
		p0, p1 := m.Pose(Ground, 0, float64(i)/float64(steps)), m.Pose(Ground, 0, float64(i+1)/float64(steps))
		most := 0.0
		for _, v := range a.Solid.Vertices() {
			at, to := p0.Apply(v.Vec()), p1.Apply(v.Vec())
			step := to.Sub(at)
			along := math.Hypot(step[1], step[2])
			near := at[0] > -DefaultBand && at[0] < DefaultBand
			if near && math.Abs(at[1]) < 5 && at[2] > 0 && at[2] < 3 && -step[0] < DefaultOpening*along {
				most = math.Max(most, along)
			}
		}
		sum += most
	}
	return sum
}

func TestCertifiedDragIsNeverLessThanTheSampledOne(t *testing.T) {
	r := newDice(4)
	dragged := 0
	for k := range 200 {
		pin := geom.Vec{-0.1 * r.Float64(), 0, 3 + 0.2*r.Float64()}
		m := tree{
			{parent: Ground, hinge: true, pin: pin, dir: alongY, drive: drive{q1: 0.02 * r.Float64()}},
		}
		if k%2 == 0 {
			m = slide(geom.Vec{-0.002 * r.Float64(), 0.1 * r.NormFloat64(), 0.05 * r.NormFloat64()})
		}
		a := Part{0, block(-0.1, 0, -1, 1, 0.1, 3)}
		got := Drag(m, Ground, a, wall(), 0, 1, DragOptions{})
		sampled := vertexDrag(m, a, 500)
		if got.Upper < sampled-0.4/500 || got.Lower > got.Upper {
			t.Errorf("motion %d: %+v, sampled %g", k, got, sampled)
		}
		if got.Upper-got.Lower > DefaultBand+DefaultEpsilon {
			t.Errorf("motion %d: %+v is wide", k, got)
		}
		if sampled > 1e-3 {
			dragged++
		}
	}
	if dragged < 50 {
		t.Errorf("only %d of the motions drag", dragged)
	}
}

func TestAPanelThatComesInOneInFiftyDragsFromTheBandOn(t *testing.T) {
	m := tree{
		{parent: Ground, dir: geom.Vec{-0.005, 0, -0.25}, drive: drive{q0: 1, q1: -1}},
	}
	checkDrag(t, Drag(m, Ground, panel(), wall(), 0, 1, DragOptions{}), 50*DefaultBand, DefaultEpsilon, true)
}

// A panel 2 mm inside the wall, where no face carries it: it drags all its way, and
// nothing is certified from below. Cutting the way up finely would save nothing.
func TestADigIsBracketedInFewIntervals(t *testing.T) {
	for name, m := range map[string]tree{"slide": slide(geom.Vec{0, 0.12, 0}), "hinge": hinge(geom.Vec{0.001, 0, 1.5}, alongX, 0.08)} {
		w := new(work)
		w.one[0] = wall()
		inside := Part{0, block(-0.1, 0.002, -1, 1, 0, 3)}
		w.reset(m, Ground, inside, w.one[:])
		d := dragSearch{work: w, o: DragOptions{}.filled()}
		d.search(0, 1)
		farthest := 0.12
		if name == "hinge" {
			farthest = 0.08 * math.Hypot(1, 1.5) // the path of a corner
		}
		if got := d.sum(); got.Lower != 0 || got.Upper < farthest || got.Upper > farthest+DefaultEpsilon {
			t.Errorf("%s: %+v, want up to %g", name, got, farthest)
		}
		if len(d.spans) > 64 {
			t.Errorf("%s: %d intervals", name, len(d.spans))
		}
	}
}

// A block slides out of a leaf of concrete, half a metre on, and back to where it
// dug in at first: 0.15 m each way are in the leaf, less the band within which the
// leaf's end carries it, square to the way.
func TestAPartThatComesBackToItsDigDoesNotDragWhereItWasFree(t *testing.T) {
	m := tree{{parent: Ground, dir: alongY, drive: drive{q1: 2, q2: -4}}}
	part := Part{0, block(-0.1, 0.002, -0.1, 0, 0, 3)}
	leaf := ground(block(0, 0.3, -0.05, 0.05, 0, 3))
	if got := Drag(m, Ground, part, leaf, 0, 1, DragOptions{}); got.Upper < 0.3-2*DefaultBand || got.Upper > 0.3 {
		t.Errorf("%+v, want 0.299 m", got)
	}
}

func TestAPanelDragsFromWhereItComesOntoTheFace(t *testing.T) {
	m := tree{{parent: Ground, dir: alongY, drive: drive{q0: 8, q1: -8}}}
	checkDrag(t, Drag(m, Ground, panel(), wall(), 0, 1, DragOptions{}), 6, DefaultBand+DefaultEpsilon, true)
}

func TestNoPointBetweenTheCornersOfAPatchDragsFartherThanTheBound(t *testing.T) {
	r := newDice(31)
	inside, mixed := 0, 0
	for range 300 {
		axis := geom.Vec{r.NormFloat64() / 3, r.NormFloat64(), r.NormFloat64()}.Normalize()
		m := hinge(geom.Vec{0.02 * r.NormFloat64(), r.NormFloat64(), 3 * r.Float64()}, axis, 1e-3*r.NormFloat64())
		w := new(work)
		w.one[0] = wall()
		w.reset(m, Ground, panel(), w.one[:])
		d := dragSearch{work: w, o: DragOptions{}.filled()}
		if !w.t.load(&w.cache, w.part, w.one[0], 0, 1) {
			t.Fatal("not finite")
		}
		for i := range w.t.b.part.Solid.Faces() {
			if d.outward(i).X > -0.5 {
				continue
			}
			d.clip.faceOf(&w.t, i)
			bound := d.most()
			corners := append([]gap.XYZ(nil), d.clip.points...)
			if len(corners) == 0 {
				continue
			}
			largest := 0.0
			for _, g := range d.clip.glides(&w.t, corners, d.o.Opening) {
				if g.miss > 0 {
					largest = math.Max(largest, g.path)
				}
			}
			for range 200 {
				p, q, s := corners[r.Intn(len(corners))], corners[r.Intn(len(corners))], r.Float64()
				g := glideOf(&w.t, bodyPoint(&w.t.a, p.Add(q.Sub(p).Mul(s))), d.clip.n, d.o.Opening)
				if g.miss <= 0 {
					continue
				}
				inside++
				if g.path > bound+1e-12 {
					t.Fatalf("a point travels %g, the bound is %g", g.path, bound)
				}
				if g.path > largest+1e-9 {
					mixed++
				}
			}
		}
	}
	if inside < 1000 || mixed < 10 {
		t.Errorf("%d points may drag, %d farther than any corner that may", inside, mixed)
	}
}

package model_test

import (
	"math"
	"testing"

	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/culvert"
)

// placeOf is the set-out of one place of a job.
func placeOf(t *testing.T, s *model.Study, cell, pour int, what string, bent int, side culvert.Side) model.SetPoint {
	t.Helper()
	for i := range s.Bays {
		b := &s.Bays[i]
		if b.Cell.Number != cell || b.Pour.Number != pour {
			continue
		}
		for _, p := range s.SetOut(b) {
			if p.What == what && p.Bent == bent && p.Side == side {
				return p
			}
		}
	}
	t.Fatalf("cell %d pour %d has no %s %d", cell, pour, what, bent)
	return model.SetPoint{}
}

// near holds numbers of a place to a tenth of a millimetre.
func near(t *testing.T, what string, got map[string]float64, want map[string]float64) {
	t.Helper()
	for k, w := range want {
		if math.Abs(got[k]-w) > 1e-4 {
			t.Errorf("%s: %s is %.5f, by hand %.5f", what, k, got[k], w)
		}
	}
}

func numbersOf(p model.SetPoint) map[string]float64 {
	return map[string]float64{"along": p.Along, "ahead": p.Ahead, "station": p.Station, "offset": p.Offset,
		"E": p.Easting, "N": p.Northing, "invert": p.Invert, "soffit": p.Soffit}
}

const degree = math.Pi / 180

// Grindlemoor: one tangent that bears 74 degrees from E 5000, N 8000, level 182.400,
// and falls 1.5 %: a metre along it is cos = 1/hypot(1, 0.015) = 0.9998875 m in plan
// and falls 0.0149983 m. Ahead is (sin 74, cos 74) = (0.961262, 0.275637) in E and N,
// left is (-0.275637, 0.961262).
func TestSkewedEndsOnOneGradeAreSetOutAsByHand(t *testing.T) {
	s := worked.Job(t, "skew-30")
	cos, fall := 1/math.Hypot(1, 0.015), 0.015/math.Hypot(1, 0.015)
	ground := func(x, y float64) (e, n float64) {
		return 5000 + x*cos*math.Sin(74*degree) - y*math.Cos(74*degree), 8000 + x*cos*math.Cos(74*degree) + y*math.Sin(74*degree)
	}
	rise := 2.4 * math.Hypot(1, 0.015) // 2.4 m square to the grade, measured plumb
	for _, c := range []struct {
		pour       int
		what       string
		bent       int
		side       culvert.Side
		x, y       float64 // from the inlet along the grade, left of the line
		along, off float64 // from the pour's rear end, and of a corner from its end
	}{
		// the inlet's left corner lies 1.5 tan 30 = 0.8660 m ahead
		{1, model.RearEnd, 0, culvert.Left, 1.5 * math.Tan(30*degree), 1.5, 1.5 * math.Tan(30*degree), 1.5 * math.Tan(30*degree)},
		// the first joint is square, and half its 20 mm lie either side of 7 m
		{1, model.FrontEnd, 0, culvert.Right, 6.990, -1.5, 6.990, 0},
		{2, model.RearEnd, 0, culvert.Both, 7.010, 0, 0, 0},
		// the form begins at the rearmost corner, its first bent 0.45 m ahead
		{1, model.FormRear, 0, culvert.Both, -1.5 * math.Tan(30*degree), 0, -1.5 * math.Tan(30*degree), 0},
		{1, model.AtBent, 1, culvert.Both, 0.45 - 1.5*math.Tan(30*degree), 0, 0.45 - 1.5*math.Tan(30*degree), 0},
		{3, model.FrontEnd, 0, culvert.Right, 23 - 1.5*math.Tan(30*degree), -1.5, 6.990 - 1.5*math.Tan(30*degree), -1.5 * math.Tan(30*degree)},
	} {
		e, n := ground(c.x, c.y)
		near(t, c.what, numbersOf(placeOf(t, s, 1, c.pour, c.what, c.bent, c.side)), map[string]float64{
			"along": c.along, "ahead": c.off, "station": c.x * cos, "offset": c.y, "E": e, "N": n,
			"invert": 182.4 - c.x*fall, "soffit": 182.4 - c.x*fall + rise})
	}
}

// Thimblewick: level, bears north from nothing, turns 3.4 degrees left after 4.8 m.
// The joint is 100 mm wide: its faces stand 50 mm either side, turned by half of it.
func TestABendIsSetOutAsByHand(t *testing.T) {
	s := worked.Job(t, "thimblewick")
	sin, cos := math.Sin(3.4*degree), math.Cos(3.4*degree)
	near(t, "end", numbersOf(placeOf(t, s, 1, 2, model.FrontEnd, 0, culvert.Both)), map[string]float64{
		"along": 4.75, "station": 9.6, "offset": 0, "E": -4.8 * sin, "N": 4.8 + 4.8*cos, "invert": 0, "soffit": 2.4})
	// 1.5 m left of it
	near(t, "left end", numbersOf(placeOf(t, s, 1, 2, model.FrontEnd, 0, culvert.Left)), map[string]float64{
		"station": 9.6, "offset": 1.5, "E": -4.8*sin - 1.5*cos, "N": 4.8 + 4.8*cos - 1.5*sin})
	// the face of pour 2 at the joint, 1.5 m right: 50 mm ahead, and 1.5 tan 1.7 = 44.5 mm
	// back on the right, which is the outside of the bend
	near(t, "joint", numbersOf(placeOf(t, s, 1, 2, model.RearEnd, 0, culvert.Right)), map[string]float64{
		"ahead": -1.5 * math.Tan(1.7*degree), "E": -(0.05-1.5*math.Tan(1.7*degree))*sin + 1.5*cos, "N": 4.8 + (0.05-1.5*math.Tan(1.7*degree))*cos + 1.5*sin})
}

// Orchard Creek: level, bears north from nothing, 300 m radius to the right, so that
// the centre is at E 300, N 0. A pour of 4.83 m along the curve turns by 0.0161; its
// chord is 600 sin 0.00805 long and bears half of that.
func TestAChordOfACurveIsSetOutAsByHand(t *testing.T) {
	s := worked.Job(t, "orchard-creek")
	half := 4.83 / 300 / 2
	x := 600*math.Sin(half) - 0.05 // the joint is 100 mm wide
	e, n := x*math.Sin(half), x*math.Cos(half)
	toCentre := math.Hypot(300-e, n)
	near(t, "front", numbersOf(placeOf(t, s, 1, 1, model.FrontEnd, 0, culvert.Both)), map[string]float64{
		"along": x, "E": e, "N": n, "station": 300 * math.Atan2(n, 300-e), "offset": toCentre - 300, "invert": 0, "soffit": 2.4})
	// the middle of pour 2's chord stands its mid-ordinate, 300 (1 - cos 0.00805) = 9.7 mm,
	// right of the curve; its rear end is 50 mm ahead of where the chord begins
	p := placeOf(t, s, 1, 2, model.RearEnd, 0, culvert.Both)
	turned := 3 * half
	near(t, "rear", numbersOf(p), map[string]float64{
		"E": 300 - 300*math.Cos(2*half) + 0.05*math.Sin(turned), "N": 300*math.Sin(2*half) + 0.05*math.Cos(turned)})
}

// Quarry Lane: two cells, centrelines 1.6 m either side, a vertical curve of 6 m
// about 0+026 from -1.5 % to -3 %, which lies 0.015 x 6 / 8 = 11.25 mm below the
// grades' meeting. Pour 4 is a chord from there, level 182.010 - 0.01125 =
// 181.99875, to 181.785 at 0+033.5: 0.21375 m in 7.5 m, 2.85 %.
func TestAVerticalCurveIsSetOutAsByHand(t *testing.T) {
	s := worked.Job(t, "quarry-lane")
	const g = 0.0285
	long := 7.5 * math.Hypot(1, g)
	skew := 1.6 * math.Tan(20*degree) // cell 1 lies left, where the outlet is farther ahead
	plan := 7.5 + skew/math.Hypot(1, g)
	p := placeOf(t, s, 1, 4, model.FrontEnd, 0, culvert.Both)
	// 17.15 m on a bearing of 74 degrees, then on one of 73.6
	east := 5000 + 17.15*math.Sin(74*degree) + (8.85+plan)*math.Sin(73.6*degree) - 1.6*math.Cos(73.6*degree)
	north := 8000 + 17.15*math.Cos(74*degree) + (8.85+plan)*math.Cos(73.6*degree) + 1.6*math.Sin(73.6*degree)
	near(t, "outlet of cell 1", numbersOf(p), map[string]float64{
		"along": long - 0.015 + skew, "station": 26 + plan, "offset": 1.6, "E": east, "N": north,
		"invert": 181.99875 - g*plan, "soffit": 181.99875 - g*plan + 2.4*math.Hypot(1, g)})
	// a jack stands half the gauge off the centreline, level with its bent
	b, j := placeOf(t, s, 2, 4, model.AtBent, 3, culvert.Both), placeOf(t, s, 2, 4, model.AtJack, 3, culvert.Left)
	if b.Invert != j.Invert || math.Abs(j.Offset-b.Offset-s.Bays[7].Carrier.Gauge/2) > 1e-9 || b.Offset > 0 {
		t.Errorf("bent %+v, jack %+v", b, j)
	}
}

func TestCrossfallIsInTheLevels(t *testing.T) {
	// 2 % down to the right: 1.5 m left stands 30 mm above the centreline
	s := worked.Job(t, "thimblewick", [2]string{"alignment:\n", "alignment:\n  crossfall: 2 %\n"})
	left, right := placeOf(t, s, 1, 1, model.RearEnd, 0, culvert.Left), placeOf(t, s, 1, 1, model.RearEnd, 0, culvert.Right)
	near(t, "corners", map[string]float64{"left": left.Invert, "right": right.Invert, "soffit": left.Soffit}, map[string]float64{"left": 0.03, "right": -0.03, "soffit": 2.43})
}

package motion

import (
	"math"
	"testing"

	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

// at is the glide of a way with its rear guide at t, and s there.
func (w RideWay) at(t float64) (*Glide, float64) {
	for _, x := range w.Stretches {
		d, ok := x.(*Glide)
		if ok && t >= math.Min(d.from, d.to) && t <= math.Max(d.from, d.to) && d.from != d.to {
			return d, (t - d.from) / (d.to - d.from)
		}
	}
	return nil, 0
}

func TestBodyOnTwoWheelLinesHasOneRest(t *testing.T) {
	track := mustTrack(t, 0, TrackJoint{At: 20, Grade: -0.025})
	list, most, err := mustRide(t, track, twoLines(), 1.35, 30).Between(0.004)
	if err != nil || len(list) != 0 || most != 0 {
		t.Errorf("%d stretches, hanging %g m, %v", len(list), most, err)
	}
}

func TestLineAheadHangsAsFarAsTheCrestBreaks(t *testing.T) {
	const g = 0.025
	for _, back := range []bool{false, true} {
		from, to := 1.35, 30.0
		if back {
			from, to = to, from
		}
		r := mustRide(t, mustTrack(t, 0, TrackJoint{At: 20, Grade: -g}), threeLines(0.05), from, to)
		list, most, err := r.Between(0.004)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "most", most, 3.3*g, 0.05e-3)
		// a level from 2 mm on every 4 mm, each before and behind the middle line's passing
		if levels := math.Ceil((3.3*g - 0.002) / 0.004); len(list) < int(levels) || len(list) > 3*int(levels) {
			t.Errorf("%d stretches for %g levels", len(list), levels)
		}
	}
	// in a sag all three lines cannot be on either side: there is one rest
	r := mustRide(t, mustTrack(t, 0, TrackJoint{At: 20, Grade: g}), threeLines(0.05), 1.35, 30)
	if list, most, err := r.Between(0.004); err != nil || len(list) != 0 || most > 1e-9 {
		t.Errorf("in a sag %d stretches, hanging %g m, %v", len(list), most, err)
	}
}

// However the body stands between its rests, each of its points is no farther
// from where it is in a stretch or a rest than Within says.
func TestEveryPoseBetweenTwoRestsIsNearOneThatIsSwept(t *testing.T) {
	const every = 0.004
	drawn, looked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		drawn++
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		steep := rapid.SampledFrom([]float64{0.05, 0.1}).Draw(t, "steep")
		g0, g1, g2 := num("g0", 0, steep), num("g1", -0.02, 0), num("g2", -steep, -0.02)
		track, err := NewTrack(g0, []TrackJoint{{At: 12, Grade: g1, Turn: num("turn", -0.01, 0.01)}, {At: 12 + num("length", 0.2, 9), Grade: g2, Step: rapid.SampledFrom([]float64{0, 0.003, -0.003}).Draw(t, "step")}})
		if err != nil {
			t.Fatal(err)
		}
		c := twoLines()
		middle := num("middle line", 0.4, 6.2)
		c.Wheels = []float64{c.Rear, c.Rear + middle, c.Front}
		c.Centre, c.Uncertain = c.Rear+middle, 0.1
		r, err := NewRide(track, c, 1.35, 24, geom.Identity())
		if err != nil {
			t.Fatal(err)
		}
		list, _, err := r.Between(every)
		if err != nil {
			return // too near each other; told
		}
		at := c.Rear + 12 - c.Wheels[1] + num("past the first break", -1.5, 4)
		behind, s0 := r.Ways[0].at(at)
		ahead, s1 := r.Ways[1].at(at)
		if behind.on.same(ahead.on) {
			return
		}
		looked++
		share, on := num("share", 0, 1), ahead.on
		for range 3 { // on the planes and straight that it really stands on
			on.hang = share * math.Max(0, behind.hang(at, on))
			d := ahead.g.glide(on, at, at)
			p, e := d.g.course[on.rear].point(at), d.ahead(0)
			under := func(i int) int { return spanUnder(d.g.planes, p.Add(flat(e).Mul(d.g.lever(i)))) }
			on.lowOn, on.highOn, on.front = under(on.low), under(on.high), spanUnder(d.g.course, p.Add(flat(e).Mul(c.base())))
		}
		stands := ahead.g.glide(on, at, at).Pose(Ground, 0, 0)
		points := []geom.Vec{{0, 0, 0}, {9.3, 1, 2.4}, {9.3, -1, 0.1}, {4.65, 0, 2.4}}
		near := math.Inf(1)
		try := func(x Stretch, s float64) {
			p, worst := x.Pose(Ground, 0, s), 0.0
			for _, v := range points {
				worst = math.Max(worst, p.Apply(v).Sub(stands.Apply(v)).Len()/r.Within(every, math.Hypot(v[0]-c.Wheels[1], v[2])))
			}
			near = math.Min(near, worst)
		}
		try(behind, s0)
		try(ahead, s1)
		for _, x := range list {
			d := x.(*Glide)
			if at >= d.from-2*nudge && at <= d.to+2*nudge && d.to > d.from {
				try(d, math.Max(0, math.Min(1, (at-d.from)/(d.to-d.from))))
			}
		}
		if !(near <= 1+1e-6) {
			t.Fatalf("a pose between is %.3f times as far as stated from any that is swept", near)
		}
	})
	if 2*looked < drawn { // of all that is drawn some five in six have two rests
		t.Errorf("only %d poses of %d were between two rests", looked, drawn)
	}
}

func TestWheelLinesTooNearEachOtherAreToldWhereTheGradeBreaks(t *testing.T) {
	c := twoLines()
	c.Wheels = []float64{1.35, 7.9, 7.95}
	c.Centre, c.Uncertain = 7.85, 0.06
	r := mustRide(t, mustTrack(t, 0.1, TrackJoint{At: 12, Grade: -0.1}), c, 1.35, 24)
	if _, most, err := r.Between(0.002); err == nil {
		t.Errorf("hanging %g m and bounded by %g", most, r.Within(0.002, 5))
	}
	if _, _, err := mustRide(t, mustTrack(t, 0.1), c, 1.35, 24).Between(0.002); err != nil {
		t.Errorf("on one grade: %v", err)
	}
}

func TestBodyIsNotMovedOverWhereItStandsOverACrest(t *testing.T) {
	track := mustTrack(t, 0, TrackJoint{At: 12, Grade: -0.05})
	for _, c := range []struct {
		from, to, beside float64
		told             bool
	}{{1.35, 24, 0.01, false}, {8.7, 24, 0.01, true}, {1.35, 8.7, 0.01, true}, {24, 8.7, 0.01, true}, {8.7, 24, 0, false}} {
		body := threeLines(0.1)
		body.Beside = c.beside
		if _, _, err := mustRide(t, track, body, c.from, c.to).Between(0.002); (err != nil) != c.told {
			t.Errorf("from %g to %g, %g m beside: %v", c.from, c.to, c.beside, err)
		}
	}
}

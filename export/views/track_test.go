package views

import (
	"math"
	"strings"
	"sync"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/job"
)

// bentJob is the job with a turn and grade breaks with its result, worked out
// once.
var bentJob = sync.OnceValues(func() (*model.Study, *result.Result) {
	s := load(nil, "../../testdata/jobs/bend-at-joint/job.yaml")
	return s, check.Run(s, check.Options{Version: "test"})
})

// suffixed are the values of the dimensions with a suffix, mm.
func suffixed(s *sheet.Sheet, suffix string) []float64 {
	var out []float64
	for _, d := range dimensions(s) {
		if d.Suffix == suffix {
			out = append(out, d.Value())
		}
	}
	return out
}

func near(list []float64, want, within float64) bool {
	return len(list) > 0 && math.Abs(list[0]-want) <= within
}

func TestTreadToToeIsDimensionedAsTheCheckSays(t *testing.T) {
	s, r := checked()
	sh := named(t, justSheets(t, s, r), "wheel-track-section")
	o := &drafter{study: s, result: r}
	e := o.entryOf(&s.Bays[0], "roll.track", "outer edge of the treads")
	if e == nil || e.Value == nil {
		t.Fatal("no roll.track")
	}
	if got := suffixed(sh, " to toe"); !near(got, 1000*e.Value.Lower, 1e-6) {
		t.Errorf("dimensioned %v, the check has %.3f mm", got, 1000*e.Value.Lower)
	}
	if got := suffixed(sh, " gauge"); !near(got, 1000*s.Bays[0].Carrier.Gauge, 1e-6) {
		t.Errorf("gauge %v", got)
	}
}

func TestTheTrackOfABentBarrelIsDrawnInTrueLength(t *testing.T) {
	s, r := bentJob()
	sh := named(t, justSheets(t, s, r), "wheel-track")
	wheels := s.Gear.Wheels.At
	if got := suffixed(sh, " wheelbase"); !near(got, 1000*float64(wheels[len(wheels)-1]-wheels[0]), 1e-6) {
		t.Errorf("wheelbase %v", got)
	}
	var rolled float64
	for _, a := range r.Along {
		if a.Cell == 1 && a.Pour == 1 {
			rolled = max(rolled, a.Rolled)
		}
	}
	if got := suffixed(sh, " advance"); !near(got, 1000*rolled, 1e-3) {
		t.Errorf("advance %v, the carrier rolls %.3f mm", got, 1000*rolled)
	}
}

func TestTheChannelBesideATreadIsDimensioned(t *testing.T) {
	s := load(t, onePour)
	for i := range s.Bays {
		s.Bays[i].Cell.Channel.Width, s.Bays[i].Cell.Channel.Depth, s.Bays[i].Cell.Channel.Offset = 0.4, 0.1, 0.1
	}
	o := &drafter{study: s, result: &result.Result{}}
	p := o.trackSheets()[0]
	sh, err := o.fit(p)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Bays[0].Carrier
	want := c.Gauge/2 - float64(s.Gear.Wheels.Tread)/2 - 0.3
	if got := suffixed(sh, " to channel"); !near(got, 1000*want, 1e-6) {
		t.Errorf("to channel %v, want %.1f", got, 1000*want)
	}
}

func TestLongBarrelsTakeSeveralTrackSheetsThatShareAStand(t *testing.T) {
	s, r := bentJob()
	o := &drafter{study: s, result: r}
	runs := o.trackRuns(o.cells()[0])
	if len(runs) != 1 || len(runs[0]) != 3 {
		t.Fatalf("%d sheets", len(runs))
	}
	longer := &drafter{study: &model.Study{Job: s.Job, Gear: s.Gear, Culvert: s.Culvert, Bays: append(append([]model.Bay{}, s.Bays...), s.Bays...)}, result: r}
	runs = longer.trackRuns(longer.cells()[0])
	if len(runs) < 2 || runs[0].last().Bay != runs[1][0].Bay {
		t.Errorf("%d sheets, the second does not begin where the first ends", len(runs))
	}
}

func TestRollingIsPicturedAtStartWhereItGovernsAndAtTheEnd(t *testing.T) {
	s, r := bentJob()
	o := &drafter{study: s, result: r}
	shots := o.rollingShots(last(&s.Bays[0]))
	if len(shots) != 3 {
		t.Fatalf("%d pictures", len(shots))
	}
	e := o.entryOf(&s.Bays[0], "roll.clear", "")
	for i, want := range []float64{0, e.Where.At, 1} {
		var way float64
		for _, a := range o.alongOf(1) {
			if a.Pour == 1 {
				way = max(way, a.Rolled)
			}
		}
		if got := shots[i].rolled.T[0]; math.Abs(got-want*way) > 0.02*way {
			t.Errorf("%s: rolled %.3f m of %.3f, want %.3f", shots[i].name, got, way, want*way)
		}
	}
	if heading := math.Atan2(shots[2].rolled.R.At(1, 0), shots[2].rolled.R.At(0, 0)); math.Abs(heading-math.Pi/180) > 1e-6 {
		t.Errorf("arrives turned by %.6f deg, want 1", heading*180/math.Pi)
	}
	if !strings.Contains(shots[1].title, o.bareDown(e.Value.Lower)) {
		t.Errorf("%q does not tell the clearance", shots[1].title)
	}
}

func TestBarrelCastFromTheOutletIsDrawnFromTheInlet(t *testing.T) {
	s, _ := bentJob()
	back := *s.Job
	back.Culvert.Order = job.Order{List: []job.Casting{{Pour: 3}, {Pour: 2}, {Pour: 1}}}
	b, problems := model.Build(&back, s.Gear)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	begin := func(s *model.Study) []float64 {
		o := &drafter{study: s, result: &result.Result{}}
		var out []float64
		for _, p := range o.trackRuns(o.cells()[0])[0] {
			out = append(out, p.from)
		}
		return out
	}
	ahead, got := begin(s), begin(b)
	if len(got) != 3 || !near(got[1:], ahead[1], 1e-9) || !near(got[2:], ahead[2], 1e-9) || !near(ahead[1:], 9, 0.05) {
		t.Errorf("pours begin at %v cast from the outlet, at %v from the inlet; they are 9 m long", got, ahead)
	}
}

func TestTheWheelTrackIsDrawnWithoutSamples(t *testing.T) {
	s, _ := checked()
	o := &drafter{study: s, result: &result.Result{}}
	for _, p := range o.trackSheets() {
		if _, err := o.fit(p); err != nil {
			t.Errorf("%s: %v", p.name, err)
		}
	}
}

package allow

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

func TestAllowancesAreTheWorkedSums(t *testing.T) {
	// tracks 6 out of level on a gauge of 1800: 8 at a rise of 2400
	tol := Of(&job.Job{Travel: job.Travel{Wander: 0.015}}).In(worked(0.150, 0.150), 1.8)
	// worst case and root-sum-square in millimetres, worked by hand
	for zone, want := range map[culvert.Zone][2]float64{
		culvert.Wall:         {42, 20.4},
		culvert.Kicker:       {84.2, 34.5}, // the reference has 84 with 7 for plumb
		culvert.Roof:         {19, 9.1},
		culvert.Hanger:       {38, 21.1},
		culvert.HaunchBottom: {70 / math.Sqrt2, 22.65},
		culvert.Invert:       {11, 7},
	} {
		a := tol.Of(zone)
		if math.Abs(a.WorstCase*1000-want[0]) > 0.05 || math.Abs(a.RootSumSquare*1000-want[1]) > 0.05 {
			t.Errorf("%s: %.2f worst, %.2f root-sum-square; want %v", zone, a.WorstCase*1000, a.RootSumSquare*1000, want)
		}
	}
}

// worked is the worked cell's section with a bottom haunch of its own.
func worked(run, rise float64) culvert.Section {
	return culvert.Section{HalfSpan: 1.5, Rise: 2.4, Left: 0.25, Right: 0.25, Top: culvert.Haunch{Run: 0.2, Rise: 0.2}, Bottom: culvert.Haunch{Run: run, Rise: rise}}
}

func TestSteepHaunchIsMetMoreSidewaysThanAFlatOne(t *testing.T) {
	// sideways 3, 3, 15, 10, 3, 25: squares 977, sum 59; up and down 6, 2, 3:
	// squares 49, sum 11. Of 150 x 250, l^2 = 85000: sideways 250^2 = 0.7353 of
	// it, down 0.2647: sqrt(718.4 + 13.0) = 27.04; of 150 x 300 0.8 and 0.2:
	// sqrt(781.6 + 9.8) = 28.13; of 300 x 150 the other way: sqrt(195.4 + 39.2)
	for size, want := range map[[2]float64][2]float64{
		{150, 250}: {(59*250 + 11*150) / math.Hypot(150, 250), 27.04},
		{150, 300}: {(59*2 + 11) / math.Sqrt(5), 28.13},
		{300, 150}: {(59 + 11*2) / math.Sqrt(5), 15.32},
	} {
		a := Of(&job.Job{Travel: job.Travel{Wander: 0.015}}).In(worked(size[0]/1e3, size[1]/1e3), 1.8).Of(culvert.HaunchBottom)
		if math.Abs(a.WorstCase*1000-want[0]) > 0.01 || math.Abs(a.RootSumSquare*1000-want[1]) > 0.01 {
			t.Errorf("%v: %.2f worst, %.2f root-sum-square; want %v", size, a.WorstCase*1000, a.RootSumSquare*1000, want)
		}
	}
}

func TestTracksOutOfLevelMoveATallCarrierOnANarrowGaugeMore(t *testing.T) {
	tol := Of(&job.Job{Travel: job.Travel{Wander: 0.015}})
	low, tall := worked(0.15, 0.15), worked(0.15, 0.15)
	tall.Rise = 3.6
	// 6 x 2400 / 1800 = 8; 6 x 3600 / 1200 = 18: 10 more
	by := tol.In(tall, 1.2).Of(culvert.Wall).WorstCase - tol.In(low, 1.8).Of(culvert.Wall).WorstCase
	if math.Abs(by-0.010) > 1e-9 {
		t.Errorf("%.2f mm more, want 10", by*1e3)
	}
}

func TestPlumbGrowsWithTheWall(t *testing.T) {
	// lesser of 0.3 % and 25: 2400 x 0.003 = 7.2; 1200 x 0.003 = 3.6; 4270 x
	// 0.003 = 12.81; 10000 x 0.003 = 30
	tol := Of(&job.Job{})
	for rise, want := range map[float64]float64{2.4: 7.2, 1.2: 3.6, 4.27: 12.81, 10: 25} {
		s := worked(0.15, 0.15)
		s.Rise = rise
		if got := 1e3 * tol.In(s, 1.8).Value("plumb"); math.Abs(got-want) > 1e-9 {
			t.Errorf("%.2f mm on %g m, want %.2f", got, rise, want)
		}
	}
	none := units.Length(0)
	if e := Of(&job.Job{Tolerance: job.Tolerance{Plumb: &none}}).entries["plumb"]; e.Value != 0 || e.Source != "the job" {
		t.Errorf("none in the job is %+v", e)
	}
	given := units.Length(0.007)
	set := Of(&job.Job{Tolerance: job.Tolerance{Plumb: &given}})
	s := worked(0.15, 0.15)
	s.Rise = 6
	if got := set.In(s, 1.8).Value("plumb"); got != 0.007 {
		t.Errorf("the job's 7 mm are %.2f mm", 1e3*got)
	}
}

func TestThicknessToleranceGrowsWithTheThickerWall(t *testing.T) {
	// + 3/8 in to 12 in, + 1/2 in to 36 in, + 1 in beyond: 10, 13, 25 mm
	tol := Of(&job.Job{})
	for walls, want := range map[[2]float64]float64{{0.25, 0.2}: 10, {0.3048, 0.2}: 10, {0.2, 0.305}: 13, {0.35, 0.3}: 13, {0.9144, 0.2}: 13, {0.2, 0.92}: 25} {
		s := worked(0.15, 0.15)
		s.Left, s.Right = walls[0], walls[1]
		if got := 1e3 * tol.In(s, 1.8).Value("thickness"); math.Abs(got-want) > 1e-9 {
			t.Errorf("%.1f mm on walls of %v, want %.1f", got, walls, want)
		}
	}
}

func TestAGrowingToleranceStatesItsFormulaAndItsSource(t *testing.T) {
	j := &job.Job{Culvert: job.Culvert{Cells: job.Cells{Count: 2}, Span: 3, Rise: 4.27, OuterWall: 0.25, InnerWall: 0.35}}
	entries := map[string]Entry{}
	for _, e := range Of(j).All() {
		entries[e.Key] = e
	}
	for key, want := range map[string]struct {
		mm    float64
		words []string
	}{
		"plumb":     {12.81, []string{"0.3 %", "4270 mm", "25 mm", "from memory"}},
		"thickness": {13, []string{"350 mm", "+1/2 in", "12 to 36 in", "toward the carrier", "from memory"}},
	} {
		e := entries[key]
		if math.Abs(1e3*e.Value-want.mm) > 1e-9 {
			t.Errorf("%s is %.2f mm, want %.2f", key, 1e3*e.Value, want.mm)
		}
		for _, w := range want.words {
			if said := e.Words + "; " + e.Source; !strings.Contains(said, w) {
				t.Errorf("%s does not say %q: %s", key, w, said)
			}
		}
	}
	// without a section: the most that plumb can be, and walls up to 12 in
	none := Of(&job.Job{})
	if none.Value("plumb") != 0.025 || none.Value("thickness") != 0.010 {
		t.Errorf("plumb %g, thickness %g", none.Value("plumb"), none.Value("thickness"))
	}
}

func TestEveryEntryHasASourceAndTheJobReplacesIt(t *testing.T) {
	for _, e := range Of(&job.Job{}).All() {
		if e.Source == "" || e.Words == "" {
			t.Errorf("%s has no source or words", e.Key)
		}
	}
	v := job.Tolerance{}
	set := Of(&job.Job{Tolerance: v, Travel: job.Travel{Wander: 0.02}})
	if set.Value("wander") != 0.02 || set.All()[2].Source != "the job" {
		t.Error("the job's wander does not count")
	}
}

// Whoever writes an impossible tolerance is shown one that works: it is the default,
// never a looser one.
func TestTheToleranceThatAMessageProposesIsTheDefault(t *testing.T) {
	defaults := Of(&job.Job{Travel: job.Travel{Wander: 0.015}})
	fields := reflect.TypeFor[job.Tolerance]()
	for i := range fields.NumField() {
		key, example := fields.Field(i).Tag.Get("yaml"), fields.Field(i).Tag.Get("example")
		v, err := units.Parse(units.KindLength, example, units.Metric)
		if err != nil {
			t.Errorf("%s: %q: %v", key, example, err)
			continue
		}
		grows := key == "plumb" || key == "thickness" // with the section, to 25 mm
		if !grows && v != defaults.Value(key) || v > 0.025 {
			t.Errorf("%s: %s is proposed, the default is %g m", key, example, defaults.Value(key))
		}
	}
}

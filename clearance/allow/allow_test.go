package allow

import (
	"math"
	"testing"

	"boxwalk/model/culvert"
	"boxwalk/model/job"
)

func TestAllowancesAreTheWorkedSums(t *testing.T) {
	tol := Of(&job.Job{Travel: job.Travel{Wander: 0.015}})
	// worst case and root-sum-square in millimetres, worked by hand
	for zone, want := range map[culvert.Zone][2]float64{
		culvert.Wall:         {42, 20.4},
		culvert.Kicker:       {84, 34.5},
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

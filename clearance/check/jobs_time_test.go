package check

import (
	"math"
	"testing"

	"boxwalk/clearance/result"
)

// Small jobs of the test data that fail one of the checks of time, stability and lifting.

func TestMarchBeckFreesItsRoofBeforeItIsStrong(t *testing.T) {
	// 24 h at 20 degC and, the lower of two readings counting, 24 h at 10 degC are worth
	// 24 + 24 exp(-5000 (1/283.15 - 1/293.15)) = 37.1403 h (ASTM C1074) = 1.54751 d; the
	// curve gives 30 x 0.5 x 1.34751 / (1 + 0.5 x 1.34751) = 12.08 of 15 MPa
	days := (24 + 24*math.Exp(-5000*(1/283.15-1/293.15))) / 24
	k := 0.5 * (days - 0.2)
	r := checkFile(t, "march-beck")
	failsBy(t, r, "time.roof")
	e := ofGoverning(t, r, "time.roof")
	valueIs(t, e, result.Fail, 30*k/(1+k), 1e-9)
	says(t, e, "12.0 MPa", "worth 1.54 days", "15.0 MPa")
	// three days of 20 degC give 17.5
	warm := checkFile(t, "march-beck", [2]string{"roof-temperatures.csv", "20 degC"}, [2]string{"walls_age: 2 d, roof_age: 2 d", "walls_age: 3 d, roof_age: 3 d"})
	for _, e := range warm.Checks {
		if e.ID == "time.roof" && e.Subject.What == strengthAtRelease {
			valueIs(t, e, result.Pass, 17.5, 1e-9)
		}
	}
	if warm.Verdict != result.Pass {
		t.Error(warm.Verdict)
	}
}

// ofGoverning is the entry that governs a check.
func ofGoverning(t *testing.T, r *result.Result, id string) result.Entry {
	t.Helper()
	for _, e := range r.Governing() {
		if e.ID == id {
			return e
		}
	}
	t.Fatalf("no %s", id)
	return result.Entry{}
}

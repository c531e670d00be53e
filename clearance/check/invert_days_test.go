package check

import "testing"

// Up to 3 days only tests tell: an age that is a second short of them does not read 3.00.
func TestAnAgeShortOfTheNeedNeverReadsAsTheNeed(t *testing.T) {
	for days, want := range map[float64]string{3 - 1.0/86400: "2.99", 2.996: "2.99", 3: "3.00", 2.8612: "2.86"} {
		if got := daysWorth(days); got != want {
			t.Errorf("%v days read %s, want %s", days, got, want)
		}
	}
}

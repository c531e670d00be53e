package table

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

func TestAFractionOfAnInchBehindFeetKeepsItsNaught(t *testing.T) {
	const inch = 0.0254
	for v, want := range map[float64]string{48.8125 * inch: `4'-0 13/16"`, 48 * inch: `4'-0"`, 49.5 * inch: `4'-1 1/2"`, 0.5 * inch: `1/2"`, -12.5 * inch: `-1'-0 1/2"`} {
		if got := feetInches(v); got != want {
			t.Errorf("%v m: %s, want %s", v, got, want)
		}
	}
}

func TestThePartsSheetAddsUpToTheModel(t *testing.T) {
	for _, name := range []string{"one-pour", "quarry-lane", "four-cells", "heron-creek"} {
		s := study(t, name)
		list := PartList(s)
		perKg := 1.0
		if jobSystem(s) == units.Imperial {
			perKg = units.Shown("kg", units.Imperial).Times
		}
		want := map[int]float64{}
		for _, b := range s.Bays {
			for _, p := range b.Carrier.Parts {
				want[b.Pour.Number] += perKg * p.Mass.High
			}
		}
		grand := 0
		for _, row := range list.Rows[len(list.Rows)-list.Sums:] {
			if !strings.HasPrefix(row[1], "GRAND TOTAL") {
				continue
			}
			grand++
			_, pours, _ := strings.Cut(row[2], ", pour")
			pour, err := strconv.Atoi(strings.FieldsFunc(pours, func(r rune) bool { return r < '0' || r > '9' })[0])
			got, err2 := strconv.ParseFloat(row[7], 64)
			if err != nil || err2 != nil || math.Abs(got-want[pour]) > 0.051 {
				t.Errorf("%s, %q: %v, want %.2f", name, row, got, want[pour])
			}
		}
		if grand == 0 {
			t.Errorf("%s: no grand total", name)
		}
		pieces := 0
		for _, p := range s.Bays[0].Carrier.Parts {
			if p.Piece == 0 {
				pieces++
			}
		}
		if counts := partsListed(t, list); counts != pieces && len(s.Bays) == 1 {
			t.Errorf("%s: %d parts listed, the carrier has %d", name, counts, pieces)
		}
	}
}

// partsListed is the sum of the column of counts, without the sums.
func partsListed(t *testing.T, list List) (sum int) {
	t.Helper()
	for _, row := range list.Rows[:len(list.Rows)-list.Sums] {
		n, err := strconv.Atoi(row[5])
		if err != nil {
			t.Fatal(err)
		}
		sum += n
	}
	return sum
}

func TestPartsOfARoleStandTogetherOnTheSheet(t *testing.T) {
	list := PartList(study(t, "quarry-lane"))
	var seen []string
	for _, row := range list.Rows[:len(list.Rows)-list.Sums] {
		role, _, _ := strings.Cut(row[1], ",")
		if n := len(seen); n == 0 || seen[n-1] != role {
			if slices.Contains(seen, role) {
				t.Errorf("%s comes again after %s", role, seen[n-1])
			}
			seen = append(seen, role)
		}
	}
}

func TestTheSettingsSheetSharesRowsAndLettersTheJobsUnits(t *testing.T) {
	r := &result.Result{}
	for pour := 1; pour <= 3; pour++ {
		r.Settings = append(r.Settings, result.Setting{Cell: 1, Pour: pour, Bent: 1, Adjuster: "jack left", Raised: 0.3048, Collapsed: 0.15, Unit: "m"},
			result.Setting{Cell: 1, Pour: pour, Bent: 2, Adjuster: "jack left", Raised: 0.3048, Collapsed: 0.15, Unit: "m"})
	}
	for system, want := range map[units.System][]string{
		units.Metric:   {"cell 1, pours 1-3", "1-2", "jack left", "304.8", "150.0", "mm"},
		units.Imperial: {"cell 1, pours 1-3", "1-2", "jack left", `1'-0"`, `5 7/8"`, "ft-in"},
	} {
		if got := SettingList(r, system).Rows; len(got) != 1 || !slices.Equal(got[0], want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

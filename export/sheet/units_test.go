package sheet

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestMillimetresAreRoundedToTheDecimalsAsked(t *testing.T) {
	for _, c := range []struct {
		decimals int
		mm       float64
		want     string
	}{
		{0, 3048, "3048"}, {0, 86.5, "87"}, {0, 0.4, "0"}, {0, -0.2, "0"}, {0, -12.5, "-13"},
		{1, 3048, "3048"}, {1, 86.25, "86.3"}, {1, 0.04, "0"}, {1, 100.0, "100"}, {2, 86.278, "86.28"}, {9, 1.5, "1.5"}, {-1, 12, "12"},
	} {
		if got := (Units{Decimals: c.decimals}).Format(c.mm); got != c.want {
			t.Errorf("%v mm at %d decimals: %q, want %q", c.mm, c.decimals, got, c.want)
		}
	}
}

func TestFeetAndInchesGoToTheSixteenth(t *testing.T) {
	for _, c := range []struct {
		inches float64
		want   string
	}{
		{126.5, `10'-6 1/2"`}, {120, `10'-0"`}, {6.5, `6 1/2"`}, {0.375, `3/8"`}, {0, `0"`},
		{11.99, `1'-0"`}, {143.97, `12'-0"`}, {12.0625, `1'-0 1/16"`}, {-18.25, `-1'-6 1/4"`}, {0.01, `0"`}, {-0.01, `0"`},
	} {
		if got := (Units{Imperial: true}).Format(c.inches * inch); got != c.want {
			t.Errorf("%v in: %q, want %q", c.inches, got, c.want)
		}
	}
}

func TestWhatIsNotANumberIsNeverLetteredAsALength(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, u := range []Units{{}, {Imperial: true}, {Decimals: 3}} {
			if got := u.Format(v); got != "?" {
				t.Errorf("%v: %q", v, got)
			}
		}
	}
}

func TestALetteredLengthReadsBackWithinHalfAStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := Units{Imperial: rapid.Bool().Draw(t, "imperial"), Decimals: rapid.IntRange(0, 4).Draw(t, "decimals")}
		mm := rapid.Float64Range(0, 1e6).Draw(t, "mm")
		if got := readBack(t, u.Format(mm)); math.Abs(got-mm) > u.Step()/2*(1+1e-9)+1e-9 {
			t.Fatalf("%v mm is lettered %q, which reads %v", mm, u.Format(mm), got)
		}
	})
}

// readBack reads 1'-2 3/4" or a number of millimetres.
func readBack(t *rapid.T, s string) float64 {
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	if !strings.HasSuffix(s, `"`) {
		return number(s)
	}
	s = strings.TrimSuffix(s, `"`)
	sum := 0.0
	if feet, rest, ok := strings.Cut(s, "'-"); ok {
		sum, s = 12*number(feet), rest
	}
	for _, part := range strings.Fields(s) {
		if num, den, ok := strings.Cut(part, "/"); ok {
			sum += number(num) / number(den)
		} else {
			sum += number(part)
		}
	}
	return sum * inch
}

func TestTheScaleIsTheLargestStandardOneThatFits(t *testing.T) {
	paper := RectBox(0, 0, 300, 200)
	for _, c := range []struct {
		w, h float64
		u    Units
		want float64
	}{
		{300, 200, Units{}, 1}, {301, 200, Units{}, 2}, {3600, 3100, Units{}, 20}, {6001, 10, Units{}, 50}, {1, 200 * 1000, Units{}, 1000},
		{3600, 3100, Units{Imperial: true}, 16}, {300 * 49, 10, Units{Imperial: true}, 64},
	} {
		got, err := c.u.FitScale(RectBox(5, 5, 5+c.w, 5+c.h), paper)
		if err != nil || got != c.want {
			t.Errorf("%v x %v: 1:%v (%v), want 1:%v", c.w, c.h, got, err, c.want)
		}
	}
	if _, err := (Units{}).FitScale(RectBox(0, 0, 1e9, 1), paper); err == nil {
		t.Error("a thousand kilometres fit a sheet")
	}
}

func RectBox(x0, y0, x1, y1 float64) Box { return Box{Pt(x0, y0), Pt(x1, y1)} }

func TestScalesAreLetteredAsTheTradeReadsThem(t *testing.T) {
	us := Units{Imperial: true}
	for n, want := range map[float64]string{48: `1/4" = 1'-0"`, 24: `1/2" = 1'-0"`, 12: `1" = 1'-0"`, 8: `1 1/2" = 1'-0"`,
		64: `3/16" = 1'-0"`, 128: `3/32" = 1'-0"`, 192: `1/16" = 1'-0"`, 240: `1" = 20'`, 1200: `1" = 100'`, 2: "1:2"} {
		if got := us.ScaleText(n); got != want {
			t.Errorf("1:%v is lettered %q, want %q", n, got, want)
		}
	}
	for n, want := range map[float64]string{1: "1:1", 50: "1:50", 10000: "1:10000", 0.5: "2:1"} {
		if got := (Units{}).ScaleText(n); got != want {
			t.Errorf("1:%v is lettered %q, want %q", n, got, want)
		}
	}
}

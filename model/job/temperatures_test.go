package job

import (
	"math"
	"strings"
	"testing"
)

func TestBetweenTwoReadingsTheLowerCounts(t *testing.T) {
	spells, problems := ReadTemperatures("t.csv", []byte("# sensor 2\nhours,degC\n0,20\n1.5,18.25\n\n2,19\r\n6,2\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	want := []Spell{{5400, 18.25}, {1800, 18.25}, {14400, 2}}
	if len(spells) != len(want) {
		t.Fatal(spells)
	}
	for i, s := range spells {
		if s != want[i] {
			t.Errorf("spell %d is %v, want %v", i, s, want[i])
		}
	}
	// 50 degF are 10 degC
	spells, _ = ReadTemperatures("t.csv", []byte("hours, degF\n0,50\n1,50\n"))
	if len(spells) != 1 || math.Abs(float64(spells[0].At)-10) > 1e-12 {
		t.Error(spells)
	}
}

func TestARowThatCannotBeReadIsToldWithLineAndColumn(t *testing.T) {
	for text, want := range map[string]string{
		"hours,degC\n0,20\n1, warm\n":            `t.csv:3:4: "warm" is no number of the column temperature`,
		"hours,degC\n0,20\nx,20\n":               `t.csv:3:1: "x" is no number of the column hours`,
		"hours,degC\n0,20\n1,20,3\n":             "t.csv:3:1: has 3 columns",
		"hours,degC\n0,20\n1;20\n":               "t.csv:3:1: has 1 columns",
		"hours,degC\n0,20\n2,20\n2,21\n":         "t.csv:4:1: 2 h does not come after 2 h",
		"hours,degC\n0,20\n7,20\n":               "t.csv:3:1: nothing was read for 7 h before this",
		"hours,degC\n1,20\n2,20\n":               "t.csv:2:1: the first reading is 1 h after casting",
		"hours,degC\n0,20\n1,-99.9\n":            "t.csv:3:3: -99.9 degC is no temperature",
		"hours,degC\n0,20\n1,NaN\n":              `t.csv:3:3: "NaN" is no number`,
		"hours,degC\n0,20\n1,0x10\n":             `t.csv:3:3: "0x10" is no number`,
		"hours,degC\n0,20\n":                     "has 1 readings",
		"":                                       "has 0 readings",
		"0,20\n1,20\n":                           "t.csv:1:1: the first row does not name the columns",
		"time,temperature\n0,20\n":               "t.csv:1:1: the first row does not name the columns",
		"hours,degC\n0,20\n1,\x1b[31m\xff\u202e": `t.csv:3:3: "?[31m??" is no number`,
	} {
		spells, problems := ReadTemperatures("t.csv", []byte(text))
		if len(problems) == 0 || spells != nil {
			t.Errorf("%q is read: %v", text, spells)
			continue
		}
		if got := problems[0].Place.String() + ": " + problems[0].Summary; !strings.Contains(got, want) {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
		if problems[0].Fix == "" {
			t.Errorf("%q: no fix", text)
		}
	}
}

func TestAllRowsThatAreWrongAreToldUpToABound(t *testing.T) {
	_, problems := ReadTemperatures("t.csv", []byte("hours,degC\n0,20\n1,a\n2,b\n3,20\n4,c\n"))
	if len(problems) != 3 {
		t.Error(problems)
	}
	_, problems = ReadTemperatures("t.csv", []byte("hours,degC\n"+strings.Repeat("x,y\n", 5000)))
	if len(problems) > 2*mostTemperatureProblems {
		t.Errorf("%d problems", len(problems))
	}
}

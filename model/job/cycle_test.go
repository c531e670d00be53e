package job

import (
	"testing"

	"boxwalk/model/units"
)

func TestDatesAreThoseOfTheCalendar(t *testing.T) {
	for _, c := range []struct {
		d       Date
		number  int
		weekday int
	}{{Date{1970, 1, 1}, 0, 3}, {Date{2000, 2, 29}, 11016, 1}, {Date{2024, 12, 31}, 20088, 1}, {Date{2031, 5, 5}, 22404, 0}, {Date{1900, 1, 1}, -25567, 0}} {
		if c.d.Number() != c.number || c.d.Weekday() != c.weekday || DateOf(c.number) != c.d {
			t.Errorf("%v is %d, weekday %d, back %v; want %d, %d", c.d, c.d.Number(), c.d.Weekday(), DateOf(c.d.Number()), c.number, c.weekday)
		}
	}
	for n := -30000; n < 60000; n++ {
		if DateOf(n).Number() != n {
			t.Fatal(n, DateOf(n))
		}
	}
}

func TestADayThatIsNoneIsRefused(t *testing.T) {
	for _, text := range []string{"2031-02-29", "2031-13-01", "2031-5-5", "5.5.2031", "tomorrow", "2031-00-10", "20310505", "-031-05-05", "2031-05-0a"} {
		j, _, problems := Decode[Cycle]("c.yaml", []byte("start: "+text+"\n"), units.Metric)
		if j != nil || len(problems) == 0 {
			t.Errorf("%q is read as %v", text, j)
		}
	}
	j, _, problems := Decode[Cycle]("c.yaml", []byte("start: 2032-02-29\nfinish: 2032-03-31\ndays: [mon, sat]\n"), units.Metric)
	if j == nil || *j.Start != (Date{2032, 2, 29}) || j.Works() != [7]bool{0: true, 5: true} {
		t.Errorf("%v %v", j, problems)
	}
	for _, text := range []string{"finish: 2031-05-05\n", "start: 2031-05-05\nfinish: 2031-05-04\n", "days: [monday]\n", "from: 17 h\nto: 7 h\n", "from: 7 h\nto: 9 h\n"} {
		if j, _, problems := Decode[Cycle]("c.yaml", []byte(text), units.Metric); j != nil || len(problems) == 0 {
			t.Errorf("%q is read", text)
		}
	}
}

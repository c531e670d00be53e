package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"boxwalk/model/diag"
	"boxwalk/model/units"
)

// The greatest gap between two readings, judgement: what happened in a longer one, such
// as a night, nobody knows. The most readings: every few minutes for weeks.
const (
	longestGap   units.Duration = 6 * 3600
	mostReadings                = 20000
)

// ReadTemperatures reads a file of temperatures: a heading "hours,degC" or
// "hours,degF", then a row for each reading, hours since casting from 0 on and the
// temperature then. Between two readings the lower of them counts, which is less than
// the concrete went through. Every row that cannot be read is a problem with its line
// and column; there are no spells where there is any.
func ReadTemperatures(name string, text []byte) ([]Spell, diag.Problems) {
	r := temperatureRows{name: name}
	lines := strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n")
	for i, line := range lines {
		line = strings.TrimRight(line, "\r")
		if strings.TrimSpace(line) == "" || strings.HasPrefix(strings.TrimSpace(line), "#") {
			continue
		}
		if !r.line(i+1, line) {
			break
		}
	}
	if r.rows < 2 && len(r.problems) == 0 {
		r.problem(len(lines), 1, fmt.Sprintf("has %d readings; at least two are needed", r.rows), "", "write a row for each reading, such as 0.5,18.2")
	}
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	return r.spells, nil
}

// temperatureRows is a file as far as it was read.
type temperatureRows struct {
	name     string
	headed   bool
	degF     bool
	rows     int
	at       units.Duration
	was      units.Temperature
	spells   []Spell
	problems diag.Problems
}

// mostTemperatureProblems of one file: a file in another form is wrong on every line.
const mostTemperatureProblems = 20

func (r *temperatureRows) problem(line, column int, summary, detail, fix string) {
	r.problems = append(r.problems, diag.Problem{Place: diag.Place{File: r.name, Line: line, Column: column}, Summary: summary, Detail: detail, Fix: fix})
}

// line reads one; false where there is no use in going on.
func (r *temperatureRows) line(number int, text string) bool {
	switch {
	case !r.headed:
		return r.heading(number, text)
	case r.rows >= mostReadings:
		r.problem(number, 1, fmt.Sprintf("has more than %d readings", mostReadings), "", "thin them out: one in half an hour is enough")
		return false
	}
	r.row(number, text)
	return len(r.problems) < mostTemperatureProblems
}

// heading names the two columns and the unit.
func (r *temperatureRows) heading(number int, text string) bool {
	columns := strings.Split(text, ",")
	for i := range columns {
		columns[i] = strings.ToLower(strings.TrimSpace(columns[i]))
	}
	r.headed = true
	if len(columns) == 2 && columns[0] == "hours" && (columns[1] == "degc" || columns[1] == "degf") {
		r.degF = columns[1] == "degf"
		return true
	}
	r.problem(number, 1, "the first row does not name the columns", "they are hours since casting and the temperature, degC or degF", "write hours,degC in the first row")
	return false
}

// row reads one reading.
func (r *temperatureRows) row(number int, text string) {
	fields := strings.Split(text, ",")
	if len(fields) != 2 {
		r.problem(number, 1, fmt.Sprintf("has %d columns", len(fields)), "a row has two: hours since casting and the temperature", "write for example 0.5,18.2")
		return
	}
	hours, ok := r.number(number, fields[0], 1, "hours", "0.5")
	degrees, also := r.number(number, fields[1], len([]rune(fields[0]))+2, "temperature", "18.2")
	if !ok || !also {
		return
	}
	at, t := units.Duration(hours*3600), units.Temperature(degrees)
	if r.degF {
		t = units.Temperature((degrees - 32) / 1.8)
	}
	if r.fits(number, len([]rune(fields[0]))+2, at, t) {
		r.take(at, t)
	}
}

// number reads one field.
func (r *temperatureRows) number(line int, field string, column int, what, example string) (float64, bool) {
	trimmed := strings.TrimSpace(field)
	column += len([]rune(field)) - len([]rune(strings.TrimLeft(field, " \t")))
	v, err := strconv.ParseFloat(trimmed, 64)
	if err == nil && !math.IsNaN(v) && !math.IsInf(v, 0) && !strings.ContainsAny(trimmed, "xXpP_") {
		return v, true
	}
	r.problem(line, column, fmt.Sprintf("%q is no number of the column %s", shortened(trimmed), what), "", "write for example "+example)
	return 0, false
}

// shortened keeps a message short and on one line.
func shortened(text string) string {
	out := []rune(strings.Map(func(c rune) rune {
		if Printable(c) {
			return c
		}
		return '?'
	}, strings.ToValidUTF8(text, "?")))
	if len(out) > 40 {
		return string(out[:40]) + "…"
	}
	return string(out)
}

// fits tells of a reading that is none: out of order, too late, or of no concrete.
func (r *temperatureRows) fits(line, column int, at units.Duration, t units.Temperature) bool {
	hours := func(d units.Duration) string { return fmt.Sprintf("%.6g h", float64(d)/3600) }
	switch {
	case r.rows == 0 && at != 0:
		r.problem(line, 1, fmt.Sprintf("the first reading is %s after casting", hours(at)), "what went before is not known", "begin with a reading at 0")
	case r.rows > 0 && at <= r.at:
		r.problem(line, 1, hours(at)+" does not come after "+hours(r.at), "readings go on in time", "put the rows in order, each hour once")
	case r.rows > 0 && at-r.at > longestGap:
		r.problem(line, 1, fmt.Sprintf("nothing was read for %s before this", hours(at-r.at)), "at most "+hours(longestGap)+" may lie between two readings", "add what was read between, or a lowest temperature that is known for certain")
	case at > 1000*86400:
		r.problem(line, 1, hours(at)+" is later than a job may state an age", "the most is 1000 d", "take the row out")
	case t < -40 || t > 100:
		r.problem(line, column, fmt.Sprintf("%.4g degC is no temperature of concrete or air", float64(t)), "from -40 to 100 degC", "take out what a broken sensor read")
	default:
		return true
	}
	r.at = max(r.at, at)
	return false
}

// take adds a reading that fits.
func (r *temperatureRows) take(at units.Duration, t units.Temperature) {
	if r.rows > 0 {
		r.spells = append(r.spells, Spell{For: at - r.at, At: min(r.was, t)})
	}
	r.rows, r.at, r.was = r.rows+1, at, t
}

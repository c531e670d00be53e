package job

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// Cycle is what a plan of the pours is made from; nil is no plan asked for.
type Cycle struct {
	Start     *Date           `yaml:"start" example:"2031-05-05" doc:"The day on which the first carrier begins to be raised."`
	From      units.Duration  `yaml:"from" default:"7 h" source:"judgement" min:"0 h" max:"24 h" doc:"When work begins, since midnight."`
	To        units.Duration  `yaml:"to" default:"17 h" source:"judgement" min:"0 h" max:"24 h" doc:"When work ends, since midnight."`
	Days      []string        `yaml:"days" optional:"true" minitems:"1" maxitems:"7" doc:"Working days of the week, such as [mon, tue, wed, thu, fri]; left out, Monday to Friday."`
	Free      []Date          `yaml:"free" optional:"true" maxitems:"400" doc:"Days on which nobody works."`
	FormGangs int             `yaml:"form_gangs" default:"1" source:"judgement" min:"1" max:"20" doc:"Gangs that raise, close, free and roll carriers, one carrier at a time each."`
	PourGangs int             `yaml:"pour_gangs" default:"1" source:"judgement" min:"1" max:"20" doc:"Gangs that place concrete."`
	Raise     units.Duration  `yaml:"raise" default:"4 h" source:"common practice, judgement" safer:"more" above:"0 h" max:"1000 h" doc:"Raising one carrier to line and grade, fillers in."`
	Close     units.Duration  `yaml:"close" default:"6 h" source:"common practice, judgement" safer:"more" above:"0 h" max:"1000 h" doc:"Closing one carrier's form: outside panels, ties, bulkhead, hangers, roof reinforcement."`
	Pour      units.Duration  `yaml:"pour" default:"5 h" source:"common practice, judgement" safer:"more" above:"0 h" max:"24 h" doc:"Placing and finishing walls and roof of everything that is cast together, in one shift."`
	Step      units.Duration  `yaml:"step" default:"30 min" source:"common practice, judgement" safer:"more" above:"0 h" max:"24 h" doc:"A step of the collapse that does not say how long it takes (takes)."`
	Roll      units.Duration  `yaml:"roll" default:"2 h" source:"common practice, judgement" safer:"more" above:"0 h" max:"24 h" doc:"Rolling one carrier to its next pour, in one shift."`
	Finish    *Date           `yaml:"finish" example:"2031-06-20" doc:"The day by which the last carrier has to be out."`
	Every     *units.Duration `yaml:"every" example:"5 d" above:"0 h" max:"365 d" doc:"Most time between two pours that follow each other."`
}

// weekdays from Monday.
var weekdays = []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// Works tells on which days of the week work is done, from Monday.
func (c *Cycle) Works() [7]bool {
	if len(c.Days) == 0 {
		return [7]bool{true, true, true, true, true}
	}
	var out [7]bool
	for _, d := range c.Days {
		if i := slices.Index(weekdays, strings.ToLower(d)); i >= 0 {
			out[i] = true
		}
	}
	return out
}

// Check asks for days that there are, a shift that is one, and work that fits into it.
func (c *Cycle) Check(d *Decoder, path string) {
	for i, day := range c.Days {
		if !slices.Contains(weekdays, strings.ToLower(day)) {
			d.FailAt(item(path+".days", i), fmt.Sprintf("%q is no day", day), "", "write mon, tue, wed, thu, fri, sat or sun")
		}
	}
	shift := c.To - c.From
	if shift <= 0 {
		d.FailAt(path, "ends its shift before it begins", fmt.Sprintf("from %g h to %g h", float64(c.From)/3600, float64(c.To)/3600), "write for example from: 7 h, to: 17 h")
		return
	}
	for _, one := range []struct {
		key   string
		takes units.Duration
	}{{"pour", c.Pour}, {"step", c.Step}, {"roll", c.Roll}} {
		if one.takes > shift {
			d.FailAt(path, fmt.Sprintf("has %s of %g h, which does not fit into a shift", one.key, float64(one.takes)/3600), fmt.Sprintf("a shift has %g h, and it cannot be left half done", float64(shift)/3600), "write a longer shift (from, to), or less")
		}
	}
	if c.Finish != nil && c.Start == nil {
		d.FailAt(path+".finish", "has no start to count from", "", "write for example start: 2031-05-05")
	}
	if c.Finish != nil && c.Start != nil && c.Finish.Number() < c.Start.Number() {
		d.FailAt(path+".finish", c.Finish.String()+" is before the start "+c.Start.String(), "", "write a later day")
	}
}

// Date is a day of the calendar.
type Date struct{ Year, Month, Day int }

// String writes the date as it is read.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// Number counts days, 0 for 1970-01-01, in the Gregorian calendar (algorithm of civil
// days by eras of 400 years, from memory; a test holds known dates).
func (d Date) Number() int {
	y := d.Year
	if d.Month <= 2 {
		y--
	}
	era := y / 400
	ofEra := y - era*400
	month := (d.Month + 9) % 12
	ofYear := (153*month+2)/5 + d.Day - 1
	return era*146097 + ofEra*365 + ofEra/4 - ofEra/100 + ofYear - 719468
}

// DateOf is the date of a number of days, the inverse of Number.
func DateOf(number int) Date {
	z := number + 719468
	era := z / 146097
	ofEra := z - era*146097
	year := (ofEra - ofEra/1460 + ofEra/36524 - ofEra/146096) / 365
	ofYear := ofEra - (365*year + year/4 - year/100)
	month := (5*ofYear + 2) / 153
	d := Date{Year: year + era*400, Month: month + 3, Day: ofYear - (153*month+2)/5 + 1}
	if d.Month > 12 {
		d.Month -= 12
		d.Year++
	}
	return d
}

// Weekday counts from Monday, 0, to Sunday, 6.
func (d Date) Weekday() int { return ((d.Number()+3)%7 + 7) % 7 }

// DecodeNode reads 2031-05-05.
func (d *Date) DecodeNode(dec *Decoder, n ast.Node, path string) {
	text, _ := dec.Text(n)
	var y, m, day int
	if len(text) == 10 {
		if _, err := fmt.Sscanf(text, "%4d-%2d-%2d", &y, &m, &day); err != nil {
			y = 0
		}
	}
	found := Date{y, m, day}
	if y < 1900 || y > 2500 || m < 1 || m > 12 || day < 1 || DateOf(found.Number()) != found || found.String() != text {
		dec.Fail(n, path, dec.Describe(n)+" is no day of the calendar", "", "write year-month-day, for example 2031-05-05")
		return
	}
	*d = found
}

// JSONSchemaNode describes the text.
func (Date) JSONSchemaNode() map[string]any {
	return map[string]any{"type": "string", "pattern": `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`, "examples": []any{"2031-05-05"}}
}

package views

import (
	"fmt"

	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/culvert"
)

// settingsTable lists what is set before the pour and what is turned.
func settingsTable(s *sheet.Sheet, b *model.Bay) *sheet.View {
	c, end := b.Carrier, last(b)
	f := func(m float64) string { return s.Units.Format(perMetre * m) }
	rows := [][]string{
		{"Gauge", f(c.Gauge), ""}, {"Leg, sill to header", f(c.Leg), ""}, {"Header, centre", f(c.Header), ""},
		{"Wall panel foot", f(c.Foot), ""}, {"Filler width at soffit", f(c.Closure), "out"}, {"Wheels carry at jack", f(c.Wheels), ""},
	}
	for i, h := range c.Stack {
		rows = append(rows, []string{fmt.Sprintf("Wall panel, row %d from top", i+1), f(h), ""})
	}
	for k, a := range c.Adjusters {
		raised, collapsed := a.Raised, end.reading(k)
		name := a.Label()
		if o, ok := b.otherSide(k); ok && a.Side == culvert.Right && o {
			continue
		} else if ok && o {
			name = a.Name + ", both sides"
		}
		if a.Follows() {
			name += " (follows)"
		}
		rows = append(rows, []string{name, f(raised), f(collapsed)})
	}
	return s.Table("Settings", []sheet.Column{{Title: "Setting"}, {Title: "Raised", Right: true}, {Title: "Collapsed", Right: true}}, rows)
}

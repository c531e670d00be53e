package views

import (
	"fmt"
	"slices"

	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// settingsTable lists what is set before the pour and what is turned.
func settingsTable(s *sheet.Sheet, b *model.Bay) *sheet.View {
	c, end := b.Carrier, last(b)
	f := func(m float64) string { return s.Units.Format(perMetre * m) }
	rows := [][]string{
		{"Gauge", f(c.Gauge), ""}, {"Leg, sill to header", f(c.Leg), ""}, {"Header, centre", f(c.Header), f(c.Header - (end.lowered()))},
		{"Wall panel foot", f(c.Foot), ""},
	}
	if slices.ContainsFunc(c.Parts, func(p carrier.Part) bool { return p.Role == carrier.Filler }) {
		rows = append(rows, []string{"Filler width at soffit", f(c.Filler), "out"})
	}
	rows = append(rows, []string{"Wheels carry at jack", f(c.Wheels), ""})
	for _, m := range c.Measures() {
		text := f(m.Value)
		if m.Slope {
			text = fmt.Sprintf("%.4g %%", 100*m.Value)
		}
		rows = append(rows, []string{m.Name, text, ""})
	}
	for i, h := range c.Stack {
		rows = append(rows, []string{fmt.Sprintf("Wall panel, row %d from top", i+1), f(h), ""})
	}
	for k, a := range c.Adjusters {
		name, alone := end.pairName(k)
		if a.Side == culvert.Right && !alone {
			continue
		}
		rows = append(rows, []string{name, f(a.Raised), f(end.reading(k))})
	}
	return s.Table("Settings", []sheet.Column{{Title: "Setting"}, {Title: "Raised", Right: true}, {Title: "Collapsed", Right: true}}, rows)
}

// lowered is how far the frame has come down on the jacks, m.
func (st stand) lowered() float64 {
	for i, body := range st.bay.Carrier.Mechanism.Bodies {
		if body.Name == "frame" {
			return -st.pose(i).T[2]
		}
	}
	return 0
}

// pairName is what an adjuster is called: without its side where the other side
// reads the same now and raised; alone tells that it does not.
func (st stand) pairName(k int) (name string, alone bool) {
	all := st.bay.Carrier.Adjusters
	a := all[k]
	name, alone = a.Label(), true
	for i, other := range all {
		if other.Name == a.Name && other.Side == -a.Side && a.Side != 0 && abs(st.reading(i)-st.reading(k)) < 5e-5 && abs(other.Raised-a.Raised) < 5e-5 {
			name, alone = a.Name+", both sides", false
		}
	}
	if a.Follows() {
		name += " (follows)"
	}
	return name, alone
}

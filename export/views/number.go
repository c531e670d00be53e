package views

import (
	"math"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model/units"
)

// figures are the numbers of an entry as a table of a sheet has them; empty where there
// is none.
type figures struct{ value, off, left, limit, margin string }

// figuresOf are lengths in the sheet's units, in whole steps to the worse side and the
// limit to the nearest, where that reads as the verdict does; everything else, and what
// is nearer to its limit than steps tell apart, is printed as other tables have it.
func figuresOf(e result.Entry, u sheet.Units) figures {
	system := units.Metric
	if u.Imperial {
		system = units.Imperial
	}
	down := func(m float64) float64 { return u.Floor(perMetre * m) }
	up := func(m float64) float64 { return -u.Floor(-perMetre * m) }
	p := e.Printed(system)
	if e.Unit == "m" && e.Value != nil && e.Limit != nil && e.Margin != nil {
		v, l := down(e.Value.Lower), u.Step()*math.Round(perMetre**e.Limit/u.Step())
		if e.Sense == result.Max {
			v = up(e.Value.Upper)
		}
		if !e.ReadsTrue(v, up(e.Allowance), l) {
			return figuresIn(p, u, e)
		}
	}
	if e.Unit != "m" {
		return figuresIn(p, u, e)
	}
	var out figures
	if e.Value != nil {
		out.value = u.Format(down(e.Value.Lower))
		if e.Sense == result.Max {
			out.value = u.Format(up(e.Value.Upper))
		}
		out.left = u.Format(down(e.Value.Lower - e.Allowance))
	}
	if e.Limit != nil {
		out.limit = u.Format(perMetre * *e.Limit)
	}
	if e.Margin != nil {
		out.margin = u.Format(down(*e.Margin))
	}
	out.off = u.Format(up(e.Allowance))
	return out
}

// figuresIn are the numbers as printed elsewhere, with their unit; millimetres, which
// sheets leave unsaid, without.
func figuresIn(p result.Printed, u sheet.Units, e result.Entry) figures {
	with := func(text string) string {
		if text == "" || e.Unit == "m" && !u.Imperial {
			return text
		}
		return p.Measure.With(text)
	}
	out := figures{value: with(p.Value), off: with(p.Off), limit: with(p.Limit), margin: with(p.Margin)}
	if e.Value != nil {
		out.left = with(p.Measure.Down(e.Value.Lower - e.Allowance))
	}
	if out.off == "" {
		out.off = u.Format(0)
	}
	return out
}

func (o *drafter) force(v float64) string {
	m := units.Shown("kN", o.system())
	return m.With(m.Nearest(v))
}

// forceUp letters a demand, rounded to the larger.
func (o *drafter) forceUp(v float64) string {
	m := units.Shown("kN", o.system())
	return m.With(m.Up(v))
}

// bareDown letters a length rounded to the smaller, so that no clearance reads
// larger than is proved.
func (o *drafter) bareDown(m float64) string {
	step := o.units().Step() / perMetre
	return o.bare(step * math.Floor(m/step+1e-9))
}

package views

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// pourGroup are the bays that one longitudinal section stands for: their form lies
// alike over the pour and its neighbours, whatever their levels.
type pourGroup struct {
	bays  []*model.Bay
	label string // set only where there is more than one group
}

// pourGroups are the pours that differ along the form, in order.
func (o *drafter) pourGroups() []pourGroup {
	var out []pourGroup
	place := map[string]int{}
	for i := range o.study.Bays {
		b := &o.study.Bays[i]
		k := o.alongKey(b)
		n, known := place[k]
		if !known {
			n = len(out)
			place[k] = n
			out = append(out, pourGroup{})
		}
		out[n].bays = append(out[n].bays, b)
	}
	if len(out) > 1 {
		for i := range out {
			out[i].label = fmt.Sprintf("-cell-%d-pour-%d", out[i].bays[0].Cell.Number, out[i].bays[0].Pour.Number)
		}
	}
	return out
}

// alongKey is all that a longitudinal section shows, to a tenth of a millimetre:
// where form and joints lie on the centreline, and what stands beside the pour.
func (o *drafter) alongKey(b *model.Bay) string {
	c := b.Carrier
	x0, x1 := c.Rear, c.Rear+float64(c.Gear.Form.Length)
	sec := b.Cell.Section
	sec.Left, sec.Right = 0, 0
	text := fmt.Sprint(sec, c.Setting.Foot, b.Pour.Lap, c.Kept.Over)
	for _, p := range o.study.Culvert.PoursIn(b.Cell) {
		for _, z := range []float64{0, b.Cell.Rise, b.Cell.Rise + b.Cell.Roof} {
			r, f := jointsAt(b, p, z)
			if f < x0-window || r > x1+window {
				continue
			}
			text += fmt.Sprintf(" %.0f %.0f %t", 1e4*math.Max(r, x0-window), 1e4*math.Min(f, x1+window), p.Cast <= b.Pour.Cast)
		}
	}
	return text
}

// text names the pours of a group: cell 1, pours 2 and 3; cell 2, pour 2.
func (g pourGroup) text() string {
	var parts []string
	for i := 0; i < len(g.bays); {
		k := i
		var pours []string
		for ; k < len(g.bays) && g.bays[k].Cell.Number == g.bays[i].Cell.Number; k++ {
			pours = append(pours, strconv.Itoa(g.bays[k].Pour.Number))
		}
		what := "pour "
		if len(pours) > 1 {
			what = "pours "
		}
		parts = append(parts, fmt.Sprintf("cell %d, %s%s", g.bays[i].Cell.Number, what, strings.Join(pours, ", ")))
		i = k
	}
	out := strings.Join(parts, "; ")
	return strings.ToUpper(out[:1]) + out[1:]
}

// longNotes say how to read the section.
var longNotes = []string{
	"Levels are on the cell's centreline: invert at the top of the slab, soffit plumb above it, camber in it.",
	"Behind, lap and beyond are how far the form reaches past the pour's ends at the soffit.",
}

// levels are those of both ends of every pour of a group and of its form.
func (o *drafter) levels(s *sheet.Sheet, g pourGroup) *sheet.View {
	f := o.onGround
	var rows [][]string
	for _, b := range g.bays {
		for _, p := range o.study.SetOut(b) {
			if p.Side != culvert.Both || p.Bent > 0 {
				continue
			}
			rows = append(rows, []string{fmt.Sprint(b.Cell.Number), fmt.Sprint(b.Pour.Number), p.What, o.station(p.Station), f(p.Invert), f(p.Soffit)})
		}
	}
	unit := "m"
	if o.units().Imperial {
		unit = "ft"
	}
	return s.Table("Levels at both ends, "+unit, []sheet.Column{{Title: "Cell", Right: true}, {Title: "Pour", Right: true}, {Title: "Point"}, {Title: "Station", Right: true}, {Title: "Invert", Right: true}, {Title: "Soffit", Right: true}}, rows)
}

// onGround letters a level, easting or northing in metres or feet.
func (o *drafter) onGround(m float64) string {
	if o.units().Imperial {
		m /= 0.3048
	}
	return strconv.FormatFloat(m, 'f', 3, 64)
}

// alongForm lists what stands along the form from its rear end.
func (o *drafter) alongForm(s *sheet.Sheet, b *model.Bay) *sheet.View {
	c := b.Carrier
	list := func(at []float64) string {
		var out []string
		for _, x := range at {
			out = append(out, o.bare(x))
		}
		return strings.Join(out, ", ")
	}
	var bents []float64
	for _, x := range c.Bents {
		bents = append(bents, x-c.Rear)
	}
	rows := [][]string{{"Bents and jacks, from the rear", list(bents)}, {"Wheel lines", list(stations(c, carrier.Wheel))}}
	if l := c.Gear.Lifting; l != nil {
		var pads []float64
		for _, x := range l.Pads {
			pads = append(pads, float64(x))
		}
		rows = append(rows, []string{"Lifting pads", list(pads)})
	}
	rows = append(rows, []string{"Form", o.bare(float64(c.Gear.Form.Length))})
	return s.Table("Ahead of the form's rear end", []sheet.Column{{Title: "What"}, {Title: "Ordinates, " + o.unitName(), Width: 90}}, rows)
}

func (o *drafter) unitName() string {
	if o.units().Imperial {
		return "ft-in"
	}
	return "mm"
}

// stations of a role's parts from the form's rear end, each once, from the rear.
func stations(c *carrier.Carrier, role carrier.Role) []float64 {
	var out []float64
	for _, p := range c.Parts {
		if p.Role != role {
			continue
		}
		x := p.Box().Center()[0] - c.Rear
		if !slices.ContainsFunc(out, func(have float64) bool { return abs(have-x) < atJoint }) {
			out = append(out, x)
		}
	}
	slices.Sort(out)
	return out
}

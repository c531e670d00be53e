package views

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// bentRoles are the roles of what stands at bents, whose marks the bent layout has;
// the others lie in walls and roof.
var bentRoles = []carrier.Role{carrier.Pad, carrier.RoofScrew, carrier.Arm, carrier.Header, carrier.Bracket, carrier.Track, carrier.Leg, carrier.Strut, carrier.Sill,
	carrier.Fork, carrier.Wheel, carrier.JackScrew, carrier.JackPlate, carrier.LinkBar, carrier.Lug}

// bentNotes say how to read the bent layout.
var bentNotes = []string{
	"Every bent is set up alike unless a table tells otherwise; arrows name one piece of each mark. L and R of one number are mirror images.",
	"A link is two bars of one mark that run in each other; its lugs have its name.",
}

// bentLayout is the sheet on which what stands at a bent bears its marks, left pieces
// named on the left, all others on the right.
func (o *drafter) bentLayout(g layoutGroup) plan {
	b := g.bays[0]
	size := perMetre * (b.Cell.Rise + b.Cell.Roof)
	return plan{
		name: "bent-layout" + g.label, title: "Bent layout", supplement: g.text(), kind: "Layout drawing", notes: bentNotes,
		least: sectionPaper, size: size,
		build: func(s *sheet.Sheet, n float64) error {
			st := stand{b, raisedStep}
			v := sheet.NewView(fmt.Sprintf("Bent %d from behind, looking ahead", st.middle()+1))
			v.Scale = n
			if err := o.drawBent(v, st, st.middle()); err != nil {
				return err
			}
			left, right, shown := bentMarks(st)
			edge := perMetre*b.Cell.HalfSpan + 12*n
			column(s, v, left, -edge, perMetre*b.Cell.Rise, n)
			column(s, v, right, edge, perMetre*b.Cell.Rise, n)
			s.Add(v)
			if rows := elsewhere(b, shown); len(rows) > 0 {
				s.Add(s.Table("Marks at other bents", []sheet.Column{{Title: "Mark"}, {Title: "Part"}, {Title: "Bents"}}, rows))
			}
			return nil
		},
	}
}

// bentMarks are the labels of a bent, one for each mark, and the marks they name.
func bentMarks(st stand) (left, right []callout, shown []string) {
	parts, _ := st.atBent(st.middle())
	for _, p := range parts {
		if !slices.Contains(bentRoles, p.Role) || slices.Contains(shown, p.Mark) {
			continue
		}
		shown = append(shown, p.Mark)
		c := callout{tipOf(p), p.Mark + " " + string(p.Role)}
		if p.Name != "" {
			c.text = p.Mark + " " + p.Name
			if p.Role == carrier.Lug {
				c.text += ", lug"
			}
		}
		if p.Side == culvert.Left {
			left = append(left, c)
		} else {
			right = append(right, c)
		}
	}
	return left, right, shown
}

// elsewhere lists the marks of a bay's bents that are not shown, with their bents.
func elsewhere(b *model.Bay, shown []string) [][]string {
	bents := map[string][]string{}
	var order []carrier.Part
	for _, p := range b.Carrier.Parts {
		if !slices.Contains(bentRoles, p.Role) || slices.Contains(shown, p.Mark) {
			continue
		}
		if bents[p.Mark] == nil {
			order = append(order, p)
		}
		if at := fmt.Sprint(p.Bent); !slices.Contains(bents[p.Mark], at) {
			bents[p.Mark] = append(bents[p.Mark], at)
		}
	}
	var rows [][]string
	for _, p := range order {
		what := string(p.Role)
		if p.Name != "" {
			what += ", " + p.Name
		}
		rows = append(rows, []string{p.Mark, what, strings.Join(bents[p.Mark], ", ")})
	}
	return rows
}

package views

import (
	"fmt"

	"boxwalk/export/sheet"
	"boxwalk/model/geom"
)

// perMetre turns metres of the model into millimetres of a view.
const perMetre = 1000

// across is a point of the cross-section, looking ahead: left in the cell is
// left on paper.
func across(y, z float64) sheet.Point { return sheet.Pt(-perMetre*y, perMetre*z) }

// acrossAll is a polygon of the cross-section.
func acrossAll(points []geom.Point2) []sheet.Point {
	out := make([]sheet.Point, len(points))
	for i, p := range points {
		out[i] = across(p[0], p[1])
	}
	return out
}

// along is a point of the longitudinal section, ahead to the right.
func along(x, z float64) sheet.Point { return sheet.Pt(perMetre*x, perMetre*z) }

func fmtID(what string, i int) string { return fmt.Sprintf("%s %d", what, i) }

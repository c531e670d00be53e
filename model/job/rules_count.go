package job

import (
	"fmt"
	"math"

	"boxwalk/model/units"
)

// mostAlong bounds how many panels or ties lie along one form.
const mostAlong = 100

// checkCounts bounds what is repeated along the form.
func (g *Gear) checkCounts(d *Decoder) {
	if n := math.Ceil(float64(g.Form.Length / g.Form.Piece)); n > mostAlong {
		least := g.Form.Length / mostAlong
		d.FailAt("form.piece", fmt.Sprintf("makes %.0f panels along the form", n), fmt.Sprintf("%s / %s; the most is %d", g.Form.Length.Text(d.System()), g.Form.Piece.Text(d.System()), mostAlong), "write at least "+least.Text(d.System()))
	}
	if g.Ties != nil {
		g.checkTies(d)
	}
	g.checkParts(d)
}

// checkTies bounds the ties along the form.
func (g *Gear) checkTies(d *Decoder) {
	if n := math.Ceil(float64(g.Form.Length / g.Ties.Spacing)); n > mostAlong {
		least := g.Form.Length / mostAlong
		d.FailAt("ties.spacing", fmt.Sprintf("makes %.0f ties along the form", n), fmt.Sprintf("%s / %s; the most is %d", g.Form.Length.Text(d.System()), g.Ties.Spacing.Text(d.System()), mostAlong), "write at least "+least.Text(d.System()))
	}
}

// mostParts bounds the parts of one carrier, every pair of which is looked at:
// the gear of a yard makes a few hundred. Judgement; time and memory grow with
// its square.
const mostParts = 3000

// checkParts bounds all parts together, and names what makes the most of them.
func (g *Gear) checkParts(d *Decoder) {
	along := func(l units.Length) int { return int(math.Ceil(float64(g.Form.Length/l) - 1e-9)) }
	walers := len(g.Wall.Walers.AboveFoot) + len(g.Wall.Walers.BelowTop)
	stringers := len(g.Roof.Stringers.FromCorner) + len(g.Roof.Stringers.FromFiller) + 1
	const roof, bent = 4, 22 // corner and roof panels of a side; header, legs, jacks, arms or brackets, fillers of a bent
	groups := []struct {
		path, what, fix string
		parts           int
	}{
		{"form.piece", "panels", "write a longer piece", 2 * (g.Wall.Most + roof) * along(g.Form.Piece)},
		{"form.bents", "bents", "write fewer", g.Form.Bents * (bent + 2*stringers)},
		{"links", "links", "write fewer links or bents", 8 * len(g.Links) * g.Form.Bents}, // two bars and two lugs a side
	}
	if g.Ties != nil {
		groups = append(groups, struct {
			path, what, fix string
			parts           int
		}{"ties.spacing", "ties", "write a wider spacing", 2 * walers * along(g.Ties.Spacing)})
	}
	most, total, sum := groups[0], 0, ""
	for _, x := range groups {
		total += x.parts
		sum += fmt.Sprintf(" + %s %d", x.what, x.parts)
		if x.parts > most.parts {
			most = x
		}
	}
	if total > mostParts {
		d.FailAt(most.path, fmt.Sprintf("makes a carrier of up to %d parts", total), fmt.Sprintf("%s; the most is %d", sum[3:], mostParts), most.fix)
	}
}

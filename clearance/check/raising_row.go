package check

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
)

// raiseHold stands before the first step of raising.
const raiseHold = "Invert, pads, packing and jacks seen before anything is lifted, by (name): ______"

// raisingRows are the steps of raising as the crew does them; checks are those of
// the steps, one each. A step in which nothing moves is left out, unless its check
// does not pass.
func (b *bay) raisingRows(checks []Judged) []result.RaisingRow {
	var out []result.RaisingRow
	for k, s := range b.Raising {
		back := b.Steps[len(b.Steps)-1-k]
		row := result.RaisingRow{Cell: b.Cell.Number, Pour: b.Pour.Number, Name: s.Name, Hold: []string{}, Say: s.Say, Caution: s.Caution,
			Moves: b.moveRows(s), PutsBack: append([]string{}, back.Removes...), Level: b.raisingLevel(k), Lag: b.lagRow(s), Unproved: []string{}}
		if s.Stop != nil {
			row.Say = "THIS STEP CANNOT BE MADE: " + s.Stop.Say(b.mm)
		}
		if s.Stop == nil && len(row.Moves)+len(row.PutsBack) == 0 && checks[k].Verdict == result.Pass {
			continue
		}
		if len(out) == 0 {
			row.Hold = append(row.Hold, raiseHold)
		}
		out = append(out, row)
	}
	return out
}

// moveRows are the readings that a step changes.
func (b *bay) moveRows(s carrier.Step) []result.MoveRow {
	out := []result.MoveRow{}
	for _, m := range s.Moves {
		if a := b.Carrier.Adjusters[m.Adjuster]; m.Moves() {
			out = append(out, result.MoveRow{Adjuster: a.Label(), From: m.From, To: m.To, Follows: a.Follows(), Unit: "m"})
		}
	}
	return out
}

// raisingLevel is what raise.clear takes the frame to lean by in step k, as an order
// to the crew: the check holds only as long as it is kept.
func (b *bay) raisingLevel(k int) *result.RaisingLevel {
	l, ok := b.LeanUp(k)
	if !ok {
		return nil
	}
	say := fmt.Sprintf("Turn the jacks in passes so small that none gets ahead of any other by more than %s, left, right or along; every plate bears.", b.small(l.Differ))
	if b.Carrier.Gear.Lifting != nil {
		say = fmt.Sprintf("Lift pad by pad; no pad ahead of any other by more than %s, left, right or along; pack as it rises, and the screw jacks follow.", b.small(l.Differ))
		if k == b.LastLift() {
			say = "Last lift. " + say
		}
	}
	say += b.tapeRemark(l.Differ)
	return &result.RaisingLevel{Kept: l.Differ, Say: say, What: l.What, Order: say}
}

// unproved tells each step of raising which of its checks do not pass: raise.clear of
// the step itself, and raise.lift, which is about every step that lifts.
func (b *bay) unproved(rows []result.RaisingRow, checks []Judged) {
	for i := range rows {
		row := &rows[i]
		row.Unproved = []string{}
		for _, c := range checks {
			own := c.ID == "raise.clear" && c.Where.Step == row.Name
			lifts := c.ID == "raise.lift" && row.Level != nil
			if c.Verdict != result.Pass && (own || lifts) {
				row.Unproved = append(row.Unproved, c.ID+", "+c.Subject.Rest())
			}
		}
		if len(row.Unproved) > 0 && row.Level != nil {
			level := *row.Level // twins share it
			level.Say = fmt.Sprintf("NOT PROVED with %s %s apart, see %s. ", level.What, b.small(level.Kept), ids(row.Unproved)) + level.Order
			row.Level = &level
		}
	}
}

// ids are the checks that a list names by id and subject, each once.
func ids(list []string) string {
	var out []string
	for _, text := range list {
		if id, _, _ := strings.Cut(text, ","); !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return strings.Join(out, " and ")
}

// raisingOf are the rows as they read for a bay of the same geometry.
func raisingOf(rows []result.RaisingRow, b *model.Bay) []result.RaisingRow {
	var out []result.RaisingRow
	for _, row := range rows {
		row.Cell, row.Pour = b.Cell.Number, b.Pour.Number
		out = append(out, row)
	}
	return out
}

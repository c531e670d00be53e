package clearance

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/model"
	"boxwalk/model/carrier"
)

// RaisingRow is one step of raising the carrier for a pour, before that is cast: a
// step of the collapse taken back, in which something moves or is put back.
type RaisingRow struct {
	Cell     int           `json:"cell"`
	Pour     int           `json:"pour"`
	Name     string        `json:"name"`
	Hold     []string      `json:"hold"` // what a named person has seen before it begins
	Say      string        `json:"say"`
	Caution  string        `json:"caution"`     // that of the step taken back
	Moves    []MoveRow     `json:"moves"`       // readings at its beginning and end
	PutsBack []string      `json:"puts_back"`   // after everything has moved
	Level    *RaisingLevel `json:"level"`       // nil in steps in which no jack moves the carrier
	Lag      *LagRow       `json:"out_of_step"` // as in StepRow
	Unproved []string      `json:"not_proved"`  // the checks of raising that do not pass in this step, by id and subject
}

// RaisingLevel is how far places at which the carrier is raised may get ahead of
// each other in a step. How much would still be safe is not worked out.
type RaisingLevel struct {
	Kept float64 `json:"kept"` // metres, what the checks are made with: lifting pass or last, or tolerance jack_level
	Say  string  `json:"say"`  // the same for the crew, in the job's units

	what  string // what gets ahead: pads or jacks
	order string // what Say says whether proved or not
}

// raiseHold stands before the first step of raising.
const raiseHold = "Invert, pads, packing and jacks seen before anything is lifted, by (name): ______"

// raisingRows are the steps of raising as the crew does them; checks are those of
// the steps, one each. A step in which nothing moves is left out, unless its check
// does not pass.
func (b *bay) raisingRows(checks []Entry) []RaisingRow {
	var out []RaisingRow
	for k, s := range b.Raising {
		back := b.Steps[len(b.Steps)-1-k]
		row := RaisingRow{Cell: b.Cell.Number, Pour: b.Pour.Number, Name: s.Name, Hold: []string{}, Say: s.Say, Caution: s.Caution,
			Moves: b.moveRows(s), PutsBack: append([]string{}, back.Removes...), Level: b.raisingLevel(k), Lag: b.lagRow(s), Unproved: []string{}}
		if s.Stop != nil {
			row.Say = "THIS STEP CANNOT BE MADE: " + s.Stop.Say(b.mm)
		}
		if s.Stop == nil && len(row.Moves)+len(row.PutsBack) == 0 && checks[k].Verdict == Pass {
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
func (b *bay) moveRows(s carrier.Step) []MoveRow {
	out := []MoveRow{}
	for _, m := range s.Moves {
		if a := b.Carrier.Adjusters[m.Adjuster]; m.Moves() {
			out = append(out, MoveRow{Adjuster: a.Label(), From: m.From, To: m.To, Follows: a.Follows(), Unit: "m"})
		}
	}
	return out
}

// raisingLevel is what raise.clear takes the frame to lean by in step k, as an order
// to the crew: the check holds only as long as it is kept.
func (b *bay) raisingLevel(k int) *RaisingLevel {
	l, ok := b.leanUp(k)
	if !ok {
		return nil
	}
	say := fmt.Sprintf("Turn the jacks in passes so small that none gets ahead of any other by more than %s, left, right or along; every plate bears.", b.small(l.differ))
	if b.Carrier.Gear.Lifting != nil {
		say = fmt.Sprintf("Lift pad by pad; no pad ahead of any other by more than %s, left, right or along; pack as it rises, and the screw jacks follow.", b.small(l.differ))
		if k == b.lastLift() {
			say = "Last lift. " + say
		}
	}
	say += b.tapeRemark(l.differ)
	return &RaisingLevel{Kept: l.differ, Say: say, what: l.what, order: say}
}

// unproved tells each step of raising which of its checks do not pass: raise.clear of
// the step itself, and raise.lift, which is about every step that lifts.
func (b *bay) unproved(rows []RaisingRow, checks []Entry) {
	for i := range rows {
		row := &rows[i]
		row.Unproved = []string{}
		for _, c := range checks {
			own := c.ID == "raise.clear" && c.Where.Step == row.Name
			lifts := c.ID == "raise.lift" && row.Level != nil
			if c.Verdict != Pass && (own || lifts) {
				row.Unproved = append(row.Unproved, c.ID+", "+b.rest(c))
			}
		}
		if len(row.Unproved) > 0 && row.Level != nil {
			level := *row.Level // twins share it
			level.Say = fmt.Sprintf("NOT PROVED with %s %s apart, see %s. ", level.what, b.small(level.Kept), ids(row.Unproved)) + level.order
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
func raisingOf(rows []RaisingRow, b *model.Bay) []RaisingRow {
	var out []RaisingRow
	for _, row := range rows {
		row.Cell, row.Pour = b.Cell.Number, b.Pour.Number
		out = append(out, row)
	}
	return out
}

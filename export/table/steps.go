package table

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// Steps writes steps.txt, the list a crew works from: step by step what to do,
// what comes off, what each adjuster reads before and after, and the caution; then
// the same of raising the carrier for the pour, which is done before that is cast, and
// how it rolls on from there.
// Places where the steps are the same share a list. A job that does not pass
// says NOT CLEARED at the top of each list.
func Steps(w io.Writer, r *result.Result, s units.System) error {
	var out bytes.Buffer
	fmt.Fprintln(&out, strings.TrimSpace(r.Job.Number+"  "+r.Job.Name))
	out.WriteString(hung("", "Readings: jacks from the sill's underside to the plate's underside, braces and turnbuckles pin to pin.", stepWidth))
	for _, list := range stepLists(r, s) {
		out.WriteString("\n" + strings.Repeat("=", stepWidth) + "\n")
		out.WriteString(hung("", capital(named(list.places)), stepWidth))
		out.WriteString(standing(r))
		out.WriteString(list.text)
		out.WriteString(rollingText(r, list.places))
	}
	if len(r.Steps) == 0 {
		out.WriteString("\nThe job has no steps.\n" + standing(r))
	}
	out.WriteString("\nCautions\n")
	for _, c := range r.Cautions {
		out.WriteString(hung("  - ", c, stepWidth))
	}
	out.WriteString(words(out.String(), stepWidth))
	_, err := w.Write(out.Bytes())
	return err
}

// stepWidth fits a page of A4 in a typewriter face of 10 points.
const stepWidth = 80

// cleared is the line that tells a crew whether the list may be used.
func cleared(r *result.Result) string {
	switch {
	case r.PartHolds():
		return "NOT CLEARED: only " + strings.Join(r.Scope, ", ") + " was checked. Do not work from this list."
	case !r.Cleared():
		return "NOT CLEARED: checks fail or stay open. Do not work from this list."
	}
	return "All checks made hold. That is no release: the first step waits for one in writing."
}

// standing is what a crew has to know of the checks before it reads a list.
func standing(r *result.Result) string {
	out := hung("", r.Origin(), stepWidth) + hung("", cleared(r), stepWidth)
	for _, sentence := range r.Reservations() {
		out += hung("", sentence, stepWidth)
	}
	return out
}

// stepList is the text of all steps and the places it holds at.
type stepList struct {
	text   string
	places []place
}

func stepLists(r *result.Result, s units.System) []stepList {
	text, count, order := map[place]string{}, map[place]int{}, []place{}
	for _, row := range r.Steps {
		p := place{row.Cell, row.Pour}
		if count[p] == 0 {
			order = append(order, p)
		}
		count[p]++
		text[p] += stepText(count[p], row, s)
	}
	raised := map[place]int{}
	for _, row := range r.Raising {
		p := place{row.Cell, row.Pour}
		if raised[p] == 0 {
			text[p] += "\n" + hung("", raisingTitle, stepWidth)
		}
		raised[p]++
		text[p] += raisingText(raised[p], row, s)
	}
	var out []stepList
	at := map[string]int{}
	for _, p := range order {
		n, ok := at[text[p]]
		if !ok {
			n = len(out)
			at[text[p]] = n
			out = append(out, stepList{text: text[p]})
		}
		out[n].places = append(out[n].places, p)
	}
	return out
}

func stepText(number int, row result.StepRow, s units.System) string {
	out := fmt.Sprintf("\n%2d  %s\n", number, row.Name)
	for _, h := range row.Hold {
		out += hung("    HOLD: ", h, stepWidth)
	}
	if row.Say != "" {
		out += hung("    ", row.Say, stepWidth)
	}
	if len(row.Removes) > 0 {
		out += hung("    comes off: ", strings.Join(row.Removes, ", "), stepWidth)
	}
	out += moves(row.Moves, s)
	if row.Level != nil {
		out += hung("    LEVEL: ", row.Level.Say, stepWidth)
	}
	if row.Lag != nil {
		out += hung("    IN STEP: ", row.Lag.Say, stepWidth)
	}
	if row.Caution != "" {
		out += hung("    CAUTION: ", row.Caution, stepWidth)
	}
	return out
}

// rollingText is the way to the next stand from each of some places, those together
// from which it is the same.
func rollingText(r *result.Result, places []place) string {
	var order []string
	at := map[string][]place{}
	for _, row := range r.Rolling {
		p := place{row.Cell, row.Pour}
		if !slices.Contains(places, p) {
			continue
		}
		text := rollingStep(row)
		if len(at[text]) == 0 {
			order = append(order, text)
		}
		at[text] = append(at[text], p)
	}
	out := ""
	for _, text := range order {
		out += "\n" + hung("", "ROLLING, after the collapse: "+named(at[text]), stepWidth) + text
	}
	return out
}

func rollingStep(row result.RollingRow) string {
	out := fmt.Sprintf("\n    %s\n", row.Name)
	for _, h := range row.Hold {
		out += hung("    HOLD: ", h, stepWidth)
	}
	if len(row.Unproved) > 0 {
		out += hung("    NOT PROVED: ", strings.Join(row.Unproved, "; "), stepWidth)
	}
	return out + hung("    ", row.Say, stepWidth) + hung("    CAUTION: ", row.Caution, stepWidth)
}

// raisingTitle stands over the steps of raising: their readings are those of the
// pour that the list is for, so that they are read before it, not after.
const raisingTitle = "RAISING FOR THIS POUR, before it is cast: the collapse taken back, from the carrier on its wheels"

func raisingText(number int, row result.RaisingRow, s units.System) string {
	out := fmt.Sprintf("\nR%d  %s\n", number, row.Name)
	for _, h := range row.Hold {
		out += hung("    HOLD: ", h, stepWidth)
	}
	if len(row.Unproved) > 0 {
		out += hung("    NOT PROVED: ", strings.Join(row.Unproved, "; "), stepWidth)
	}
	out += hung("    ", row.Say, stepWidth)
	if row.Level != nil {
		out += hung("    LEVEL: ", row.Level.Say, stepWidth)
	}
	if row.Lag != nil {
		out += hung("    IN STEP: ", row.Lag.Say, stepWidth)
	}
	out += moves(row.Moves, s)
	if len(row.PutsBack) > 0 {
		out += hung("    goes back: ", strings.Join(row.PutsBack, ", "), stepWidth)
	}
	if row.Caution != "" {
		out += hung("    CAUTION of the step taken back: ", row.Caution, stepWidth)
	}
	return out
}

// moves are the readings of a step; both sides share a line where they read
// the same.
func moves(list []result.MoveRow, s units.System) string {
	g := grid{numeric: []bool{false, false, true, false, true}, wraps: -1}
	for _, m := range bothSides(list, s) {
		how := "set"
		if m.follows {
			how = "follows"
		}
		g.rows = append(g.rows, []string{how, m.adjuster, m.from, "to", m.to})
	}
	out := ""
	for _, block := range g.lines(stepWidth) {
		out += "    " + block[0] + "\n"
	}
	return out
}

// shownMove is a reading as printed.
type shownMove struct {
	adjuster, from, to string
	follows            bool
}

// bothSides draws left and right together where they print the same.
func bothSides(list []result.MoveRow, s units.System) []shownMove {
	var all []shownMove
	seen := map[shownMove]bool{}
	for _, m := range list {
		one := shownMove{m.Adjuster, reading(m.From, m.Unit, s), reading(m.To, m.Unit, s), m.Follows}
		all, seen[one] = append(all, one), true
	}
	var out []shownMove
	for _, m := range all {
		name, left := strings.CutSuffix(m.adjuster, " left")
		other := m
		other.adjuster = name + " right"
		if left && seen[other] {
			m.adjuster = name + ", both sides"
			delete(seen, other)
		} else if !seen[m] {
			continue
		}
		out = append(out, m)
	}
	return out
}

// capital makes the first letter of a line large.
func capital(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

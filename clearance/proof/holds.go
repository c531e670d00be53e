package proof

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
)

// clearances are the checks whose numbers a proof shows.
var clearances = []string{"strip.dig", "strip.self", "strip.clear", "strip.supports", "raise.clear", "roll.clear"}

// stated is one check of a result.
type stated struct {
	ID, Subject string
	Verdict     string // pass, fail or open
	Value       *struct{ Lower, Upper *float64 }
	Limit       *float64
	Allowance   float64
}

// Holds compares a result.json with what is proved: its hash, and every
// clearance in it, none missing and none more. A check without a number and
// without a proof shows nothing. A proof of some checks may leave numbers of the
// result out: they are listed in Unproved.
func (r *Report) Holds(result io.Reader) error {
	text, err := io.ReadAll(io.LimitReader(result, mostBytes))
	if err != nil {
		return err
	}
	if sum := sha256.Sum256(text); hex.EncodeToString(sum[:]) != r.Result {
		return fmt.Errorf("the result is another one: its sha256 is %s, and the proof is of %s", hex.EncodeToString(sum[:]), r.Result)
	}
	var file struct{ Checks []stated }
	if err := json.Unmarshal(text, &file); err != nil {
		return fmt.Errorf("the result cannot be read: %s", Said(err.Error()))
	}
	proved := map[[2]string]Entry{}
	for _, e := range r.Entries {
		proved[[2]string{e.ID, e.Subject}] = e
	}
	seen := map[[2]string]bool{}
	for _, c := range file.Checks {
		key := [2]string{c.ID, c.Subject}
		if !slices.Contains(clearances, c.ID) {
			continue
		}
		e, ok := proved[key]
		if ok && seen[key] {
			return fmt.Errorf("%s, %s: stands in the result twice", c.ID, Said(c.Subject))
		}
		seen[key] = true
		if !ok && !r.Whole && c.numbered() {
			r.Unproved = append(r.Unproved, c.ID+", "+c.Subject)
			continue
		}
		why := c.against(e, ok)
		if a, ok := r.asks[key]; ok && why == "" {
			why = c.rests(a)
		}
		if why != "" {
			return fmt.Errorf("%s, %s: %s", c.ID, Said(c.Subject), why)
		}
		r.above(c, e)
	}
	for _, e := range r.Entries {
		if !seen[[2]string{e.ID, e.Subject}] {
			return fmt.Errorf("%s, %s: is proved and not in the result", e.ID, Said(e.Subject))
		}
	}
	return nil
}

// numbered tells whether a check states a number.
func (c stated) numbered() bool { return c.Value != nil && c.Value.Lower != nil }

// against tells what is wrong with a check, if e is what is proved of it.
func (c stated) against(e Entry, ok bool) string {
	value := c.numbered()
	switch {
	case !slices.Contains([]string{"pass", "fail", "open"}, c.Verdict):
		return "a verdict that is none"
	case value && !ok:
		return fmt.Sprintf("%g m are stated and nothing is proved", *c.Value.Lower)
	case value && e.Far:
		return fmt.Sprintf("%g m are stated, and proved is only that nothing is near", *c.Value.Lower)
	case value && e.Lower != *c.Value.Lower:
		return fmt.Sprintf("%g m are stated and %g m proved", *c.Value.Lower, e.Lower)
	case value && e.Upper != nil && (c.Value.Upper == nil || *c.Value.Upper != *e.Upper):
		return fmt.Sprintf("a witness shows %g m, which is not the upper end stated", *e.Upper)
	case value && c.Verdict == "pass" && (c.Limit == nil || !(*c.Value.Lower-c.Allowance >= *c.Limit)):
		return "passes with a number that does not reach its limit"
	case !value && ok && !e.Far:
		return fmt.Sprintf("no number is stated and %g m are proved", e.Lower)
	case !value && ok && (c.Limit == nil || !(e.Lower-math.Max(0, c.Allowance) >= *c.Limit)):
		return fmt.Sprintf("no number is stated, and the %g m proved do not reach a limit", e.Lower)
	}
	return ""
}

// above lists a check whose upper end is not shown, and a fail that is not.
func (r *Report) above(c stated, e Entry) {
	if !c.numbered() {
		return
	}
	subject := c.ID + ", " + c.Subject
	if e.Upper == nil {
		r.Unseen = append(r.Unseen, subject)
	}
	if c.Verdict == "fail" && (e.Upper == nil || c.Limit == nil || !(math.Max(0, *e.Upper)-c.Allowance < *c.Limit)) {
		r.Unfailed = append(r.Unfailed, subject)
	}
}

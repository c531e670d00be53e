package proof

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
)

// Report is what a proof that holds has shown, and what it took on trust.
type Report struct {
	Inputs  []Input
	Result  string // sha256 of the result.json that it belongs to; empty if not said
	Whole   bool   // every step of every place is covered; otherwise only some checks are
	Entries []Entry

	Claims, Records, Planes, Swings, Contacts int
	Trust                                     Trust
}

// Input is a file that the result was worked out from.
type Input struct{ Name, SHA256 string }

// Entry is a number of the result that is proved: nothing comes nearer than
// Lower, to within 2 micrometres. Far is an entry without a value.
type Entry struct {
	ID, Subject string
	Lower       float64
	Far         bool
}

// Trust is what a proof cannot show.
type Trust struct {
	Carriers, Parts, Bodies, Links, Steps      int
	Places, Twins, Solids                      int
	Pinned, Seams, Faces, Lands, Stands, Rolls int
	Absent                                     int     // parts left out of a step, summed over the steps
	Differences                                int     // parts whose allowance differs from the governing one's
	DeepestContact                             float64 // the least that a declared contact was held to, m
	contact                                    bool
}

// Lines says in words what was taken on trust.
func (t Trust) Lines() []string {
	out := []string{
		fmt.Sprintf("the solids: %d parts of %d carriers, %d solids around them at %d places", t.Parts, t.Carriers, t.Solids, t.Places),
		fmt.Sprintf("the motion: %d bodies, %d links, %d steps", t.Bodies, t.Links, t.Steps),
		fmt.Sprintf("the declared pairs: %d pinned, %d seams, %d faces, %d lands, %d stands, %d rolls", t.Pinned, t.Seams, t.Faces, t.Lands, t.Stands, t.Rolls),
		fmt.Sprintf("%d parts taken out of a step, %d differences of allowance", t.Absent, t.Differences),
		fmt.Sprintf("%d pours said to be the same as another", t.Twins),
	}
	if t.contact {
		out = append(out, fmt.Sprintf("contacts were held to %.6g m or better", t.DeepestContact))
	}
	return out
}

func (r *Report) touch(floor float64) {
	r.Trust.contact = true
	r.Trust.DeepestContact = math.Min(r.Trust.DeepestContact, floor)
}

// add takes over an entry; false if it is there with another number.
func (r *Report) add(known map[[2]string]Entry, e Entry) bool {
	key := [2]string{e.ID, e.Subject}
	if old, ok := known[key]; ok {
		return old == e
	}
	known[key] = e
	r.Entries = append(r.Entries, e)
	return true
}

// clearances are the checks whose numbers a proof shows.
var clearances = []string{"strip.dig", "strip.self", "strip.clear", "strip.supports", "raise.clear", "roll.clear"}

// Holds compares a result.json with what is proved: its hash, and every
// clearance in it, none missing and none more.
func (r *Report) Holds(result io.Reader) error {
	text, err := io.ReadAll(io.LimitReader(result, 1<<28))
	if err != nil {
		return err
	}
	if sum := sha256.Sum256(text); hex.EncodeToString(sum[:]) != r.Result {
		return fmt.Errorf("the result is another one: its sha256 is %s, and the proof is of %s", hex.EncodeToString(sum[:]), r.Result)
	}
	var file struct {
		Checks []struct {
			ID, Subject string
			Value       *struct{ Lower *float64 }
		}
	}
	if err := json.Unmarshal(text, &file); err != nil {
		return fmt.Errorf("the result cannot be read: %w", err)
	}
	proved := map[[2]string]Entry{}
	for _, e := range r.Entries {
		proved[[2]string{e.ID, e.Subject}] = e
	}
	for _, c := range file.Checks {
		if !slices.Contains(clearances, c.ID) {
			continue
		}
		key := [2]string{c.ID, c.Subject}
		e, ok := proved[key]
		delete(proved, key)
		switch value := c.Value != nil && c.Value.Lower != nil; {
		case value && !ok:
			return fmt.Errorf("%s, %s: %g m are stated and nothing is proved", c.ID, c.Subject, *c.Value.Lower)
		case value && (e.Far || e.Lower != *c.Value.Lower):
			return fmt.Errorf("%s, %s: %g m are stated and %g m proved", c.ID, c.Subject, *c.Value.Lower, e.Lower)
		case !value && ok && !e.Far:
			return fmt.Errorf("%s, %s: no number is stated and %g m are proved", c.ID, c.Subject, e.Lower)
		}
	}
	for _, e := range r.Entries {
		if _, left := proved[[2]string{e.ID, e.Subject}]; left {
			return fmt.Errorf("%s, %s: is proved and not in the result", e.ID, e.Subject)
		}
	}
	return nil
}

func itoa(i int) string { return strconv.Itoa(i) }

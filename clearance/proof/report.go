package proof

import (
	"fmt"
	"math"
	"strconv"
)

// Report is what a proof that holds has shown, and what it assumed.
type Report struct {
	Inputs   []Input
	Result   string // sha256 of the result.json that it belongs to; empty if not said
	Whole    bool   // every step of every place is covered; otherwise only some checks are
	Entries  []Entry
	Unproved []string // numbers of the result that a proof of some checks leaves out, by Holds
	Unseen   []string // numbers of the result of which no witness shows that anything comes so near, by Holds
	Unfailed []string // fails of the result that their witness does not show, by Holds

	Claims, Records, Planes, Swings, Contacts, Witnesses int
	Assumed                                              Assumed

	asks map[[2]string]asked // by check and subject
}

// Input is a file that the result was worked out from.
type Input struct{ Name, SHA256 string }

// Entry is a number of the result that is proved: nothing comes nearer than
// Lower, to within 2 micrometres. Far is an entry without a value.
type Entry struct {
	ID, Subject string
	Lower       float64
	Far         bool
	Upper       *float64 // something comes as near as this; nil where no witness shows it
}

// Assumed is what a proof cannot show.
type Assumed struct {
	Carriers, Parts, Bodies, Links, Steps            int
	Places, Twins, Solids                            int
	Runs, Pinned, Seams, Faces, Lands, Stands, Rolls int
	Absent                                           int     // parts left out of a step, summed over the steps
	MostLess                                         float64 // the most that a part was asked less than is stated, m
	Differences                                      int     // parts whose allowance differs from the governing one's
	DeepestContact                                   float64 // the least that a declared contact was held to, m
	contact                                          bool
}

// Lines says in words what was assumed, not proved.
func (t Assumed) Lines() []string {
	out := []string{
		fmt.Sprintf("the solids: %d parts of %d carriers, %d solids around them at %d places", t.Parts, t.Carriers, t.Solids, t.Places),
		fmt.Sprintf("the motion: %d bodies, %d links, %d pairs of bodies that run in each other, %d steps", t.Bodies, t.Links, t.Runs, t.Steps),
		"that raising takes the collapse back and that nothing moves in a carrier that rolls: there its parts are not shown among themselves",
		fmt.Sprintf("the declared pairs: %d pinned, %d seams, %d faces, %d lands, %d stands, %d rolls", t.Pinned, t.Seams, t.Faces, t.Lands, t.Stands, t.Rolls),
		fmt.Sprintf("%d parts taken out of a step", t.Absent),
		fmt.Sprintf("%d differences of allowance, by which a part is asked up to %.6g m less than is stated", t.Differences, t.MostLess),
		fmt.Sprintf("%d pours said to be the same as another", t.Twins),
	}
	if t.contact {
		out = append(out, fmt.Sprintf("contacts were held to %.6g m or better", t.DeepestContact))
	}
	return out
}

func (r *Report) touch(floor float64) {
	r.Assumed.contact = true
	r.Assumed.DeepestContact = math.Min(r.Assumed.DeepestContact, floor)
}

// add takes over an entry; false if it is there with another number, or has two
// witnesses.
func (r *Report) add(known map[[2]string]int, e Entry) bool {
	key := [2]string{e.ID, e.Subject}
	i, ok := known[key]
	if !ok {
		known[key] = len(r.Entries)
		r.Entries = append(r.Entries, e)
		return true
	}
	old := &r.Entries[i]
	if old.Lower != e.Lower || old.Far != e.Far || old.Upper != nil && e.Upper != nil {
		return false
	}
	if e.Upper != nil {
		old.Upper = e.Upper
	}
	return true
}

func itoa(i int) string { return strconv.Itoa(i) }

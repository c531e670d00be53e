package result

import (
	"fmt"
	"strings"
)

// Duty is one thing that has to hold before and while a carrier is released, and
// the checks that hold it. No checks: this version has none, and somebody else
// answers for it.
type Duty struct {
	What      string   `json:"what"`
	Checks    []string `json:"checks"`
	CoveredBy []Cover  `json:"covered_by,omitempty"`
}

// Cover is who answers for a check whose capacities nobody states, in the job's words.
// Entries that would be open for that are left out of the result.
type Cover struct {
	Check string `json:"check"`
	By    string `json:"by"`
}

// String is the duty with who covers it.
func (d Duty) String() string {
	var by []string
	for _, c := range d.CoveredBy {
		by = append(by, fmt.Sprintf("%s covered by %s", c.Check, c.By))
	}
	if by == nil {
		return d.What
	}
	return d.What + " (" + strings.Join(by, ", ") + ")"
}

// Looser is a number that a job or gear sets to make a check easier than its default
// would: whoever reads the verdict has to know. Numbers are SI.
type Looser struct {
	Key     string  `json:"key"`
	Value   float64 `json:"value"`
	Default float64 `json:"default"`
	Unit    string  `json:"unit"`
	Text    string  `json:"text"`
}

// NotCheckedNames are what the result does not answer for, in the order of the work.
func (r *Result) NotCheckedNames() []string {
	var out []string
	for _, d := range r.NotChecked {
		out = append(out, d.String())
	}
	return out
}

// Reservations are the sentences that stand wherever the verdict does: what it does
// not answer for, what is stated and not read, and what was set looser than its default.
func (r *Result) Reservations() []string {
	var out []string
	if names := r.NotCheckedNames(); len(names) > 0 {
		out = append(out, "Not checked: "+strings.Join(names, "; ")+".")
	}
	if len(r.NotRead) > 0 {
		out = append(out, "Stated, but read by no check yet: "+strings.Join(r.NotRead, ", ")+".")
	}
	for _, l := range r.Looser {
		out = append(out, "Set looser than the default: "+l.Text+".")
	}
	return out
}

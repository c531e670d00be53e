package result

import (
	"encoding/json"
	"fmt"
	"iter"
	"math"
	"strings"
)

// Schema names the layout of a result; keys are only added within a major
// version.
const Schema = "boxwalk/result/1"

// Result is the answer to a job. All numbers are SI: metres, radians, kN, kg.
type Result struct {
	Schema  string   `json:"schema"`
	Version string   `json:"version"`
	Inputs  []Input  `json:"inputs"`
	Basis   string   `json:"basis,omitzero"` // one hash of program and inputs, the job without its group sheet: what an approval is of
	Job     JobName  `json:"job"`
	Scope   []string `json:"scope"`   // the checks asked for; nil is all
	Verdict Verdict  `json:"verdict"` // of the job: never pass where some checks were not asked for
	// what the verdict does not answer for, and what was set looser than its default
	NotChecked []Duty            `json:"not_checked"`
	NotRead    []string          `json:"not_read"` // keys that the files state and nothing works anything out with yet
	Looser     []Looser          `json:"set_looser"`
	Checks     []Entry           `json:"checks"`
	Settings   []Setting         `json:"settings"`
	Steps      []StepRow         `json:"steps"`
	Raising    []RaisingRow      `json:"raising"` // before each pour, see RaisingRow
	Rolling    []RollingRow      `json:"rolling"` // after the collapse of each pour, see RollingRow
	Masses     []MassRow         `json:"masses"`
	Allowances []AllowanceRow    `json:"allowances"`     // how what is taken off travel clearances comes about, see AllowanceRow
	Plan       []PlanRow         `json:"plan,omitempty"` // of the pours, see PlanRow; left out where none is asked for
	Along      []AlongRow        `json:"along"`          // samples along the way, see AlongRow
	Cautions   []string          `json:"cautions"`
	Fixes      []FixRow          `json:"fixes,omitzero"` // nil where nobody asked for them, see FindFixes
	Parts      iter.Seq[PartRow] `json:"-"`              // every part in every step, for clearance.csv
}

// Input is one file the result was worked out from.
type Input struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// Origin ties what is made of a result to the tool and to the files it was worked
// out from: the version, and each file with the first 12 letters of its hash.
func (r *Result) Origin() string {
	out := "boxwalk " + r.Version
	for _, i := range r.Inputs {
		out += fmt.Sprintf(", %s sha256 %s", i.Name, i.SHA256[:min(12, len(i.SHA256))])
	}
	return out
}

// leastApproval is how many letters of the basis an approval gives at least: no change
// keeps twelve by chance.
const leastApproval = 12

// Approved tells whether what an approval names is what this result was worked out
// from, and the result is cleared.
func (r *Result) Approved(hash string) bool {
	return r.Cleared() && len(hash) >= leastApproval && strings.HasPrefix(r.Basis, hash)
}

// ApprovalHash is what an approval of this result has to name; empty where nothing
// tells what it was worked out from.
func (r *Result) ApprovalHash() string { return r.Basis[:min(len(r.Basis), leastApproval)] }

// JobName is the job as its file names it.
type JobName struct {
	Name   string `json:"name"`
	Number string `json:"number"`
}

// MarshalJSON writes an unknown end as null: JSON has no infinity.
func (b Bracket) MarshalJSON() ([]byte, error) {
	return json.Marshal(map[string]any{"lower": finite(b.Lower), "upper": finite(b.Upper)})
}

func finite(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return v
}

// Cleared tells whether everything that this version checks was checked and holds.
// It is no release.
func (r *Result) Cleared() bool { return r.Verdict == Pass && r.Scope == nil }

// PartHolds tells whether only some checks were asked for and all of those hold: a
// part of the answer, which clears nothing.
func (r *Result) PartHolds() bool { return r.Scope != nil && Overall(r.Checks) == Pass }

// Governing is the entry with the least margin of each id, in order; a fail
// governs before an open one and that before a pass.
func (r *Result) Governing() []Entry {
	var out []Entry
	seen := map[string]bool{}
	for _, c := range r.Checks {
		if !seen[c.ID] {
			seen[c.ID] = true
			out = append(out, c)
		}
	}
	return out
}

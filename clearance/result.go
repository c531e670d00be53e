package clearance

import (
	"encoding/json"
	"fmt"
	"iter"
	"math"
	"strings"

	"boxwalk/model/geom"
)

// Schema names the layout of a result; keys are only added within a major
// version.
const Schema = "boxwalk/result/1"

// Result is the answer to a job. All numbers are SI: metres, radians, kN, kg.
type Result struct {
	Schema  string   `json:"schema"`
	Version string   `json:"version"`
	Inputs  []Input  `json:"inputs"`
	Job     JobName  `json:"job"`
	Scope   []string `json:"scope"` // the checks asked for; nil is all
	Verdict Verdict  `json:"verdict"`
	// what the verdict does not answer for, and what was set looser than its default
	NotChecked []Duty            `json:"not_checked"`
	Looser     []Looser          `json:"set_looser"`
	Checks     []Entry           `json:"checks"`
	Settings   []Setting         `json:"settings"`
	Steps      []StepRow         `json:"steps"`
	Raising    []RaisingRow      `json:"raising"` // before each pour, see RaisingRow
	Masses     []MassRow         `json:"masses"`
	Along      []AlongRow        `json:"along"` // samples along the way, see AlongRow
	Cautions   []string          `json:"cautions"`
	Cures      []CureRow         `json:"cures,omitzero"` // nil where nobody asked for them, see FindCures
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

// JobName is the job as its file names it.
type JobName struct {
	Name   string `json:"name"`
	Number string `json:"number"`
}

// Entry is one line of the answer: one id and subject.
type Entry struct {
	ID        string   `json:"id"`
	Subject   string   `json:"subject"`
	Verdict   Verdict  `json:"verdict"`
	Value     *Bracket `json:"value"` // nil where there is nothing to check
	Unit      string   `json:"unit"`
	Limit     *float64 `json:"limit"`
	Sense     Sense    `json:"sense"`
	Allowance float64  `json:"allowance"`
	WorstCase float64  `json:"allowance_worst_case"`
	Margin    *float64 `json:"margin"`
	Where     Where    `json:"where"`
	Text      string   `json:"text"`
	Remedy    string   `json:"remedy"` // what usually mends it; empty where it passes
	Source    string   `json:"source"`

	// what it is the worst of, kept where a proof may be asked for, and which governs
	from    []candidate
	governs int
}

// Where says at which place and moment a check governs.
type Where struct {
	Cell    int       `json:"cell"`
	Pour    int       `json:"pour"`
	Step    string    `json:"step"`
	At      float64   `json:"at"`
	Station *float64  `json:"station"`
	Part    string    `json:"part"`
	Zone    string    `json:"zone"`
	First   *First    `json:"first"`
	Frame   string    `json:"frame"`
	A       *geom.Vec `json:"a"`
	B       *geom.Vec `json:"b"`
}

// First brackets the first contact, as the reading of an adjuster.
type First struct {
	Adjuster string  `json:"adjuster"`
	From     float64 `json:"from"`  // reading at the step's start
	Clear    float64 `json:"clear"` // proved clear up to this reading
	Hit      float64 `json:"hit"`   // touches at this reading
	Unit     string  `json:"unit"`
}

// Setting is how one adjuster stands, raised and collapsed, at one bent.
type Setting struct {
	Cell      int     `json:"cell"`
	Pour      int     `json:"pour"`
	Bent      int     `json:"bent"`
	Adjuster  string  `json:"adjuster"`
	Raised    float64 `json:"raised"`
	Collapsed float64 `json:"collapsed"`
	Unit      string  `json:"unit"`
}

// StepRow is one step at one pour, as the crew does it, with the gaps at its
// end.
type StepRow struct {
	Cell    int       `json:"cell"`
	Pour    int       `json:"pour"`
	Name    string    `json:"name"`
	Hold    []string  `json:"hold"` // what a named person confirms before it begins
	Say     string    `json:"say"`
	Caution string    `json:"caution"`
	Removes []string  `json:"removes"`
	Moves   []MoveRow `json:"moves"`
	End     []EndRow  `json:"end"`
	EndOf   *PourRef  `json:"end_of"`      // where End stands, if it is that of a pour which is alike; nil where it stands here
	Level   *LevelRow `json:"level"`       // nil in steps in which no jack is turned while it carries
	Lag     *LagRow   `json:"out_of_step"` // nil in steps that turn fewer than two adjusters beside jacks
}

// PourRef names one pour of one cell.
type PourRef struct {
	Cell int `json:"cell"`
	Pour int `json:"pour"`
}

// LevelRow is how far jacks may get ahead of each other in a step, metres.
type LevelRow struct {
	Kept float64 `json:"kept"` // what the checks are made with: tolerance jack_level
	Safe float64 `json:"safe"` // up to which nothing is entered; at most strip.level
	Say  string  `json:"say"`  // the same for the crew, in the job's units
}

// LagRow is how far adjusters that a step turns together may get out of step, metres.
type LagRow struct {
	Kept float64 `json:"kept"` // what the checks are made with: tolerance lag
	Say  string  `json:"say"`  // the same for the crew, in the job's units
}

// MoveRow is one adjuster's reading over a step.
type MoveRow struct {
	Adjuster string  `json:"adjuster"`
	From     float64 `json:"from"`
	To       float64 `json:"to"`
	Follows  bool    `json:"follows"`
	Unit     string  `json:"unit"`
}

// EndRow is the least gap at a step's end between parts of one role and a zone
// or parts of another role; the part named is the one that governs.
type EndRow struct {
	Part    string  `json:"part"`
	Role    string  `json:"role"`
	Side    string  `json:"side"`
	Against string  `json:"against"`
	Value   Bracket `json:"value"`
}

// CureRow is one change in a file with which a check, or the whole job, passes. From and To
// are SI; where CountedFrom is not empty they are counted from that reading.
type CureRow struct {
	Text        string  `json:"text"`
	Dimension   string  `json:"dimension"`
	Ease        Ease    `json:"by"`
	File        string  `json:"file"`
	Key         string  `json:"key"`
	CountedFrom string  `json:"counted_from"`
	From        float64 `json:"from"`
	To          float64 `json:"to"`
	Unit        string  `json:"unit"`

	Check  string   `json:"check"`  // the check that it cures by itself; empty for the whole job
	Breaks []string `json:"breaks"` // ids that pass no longer with it
	Passes bool     `json:"passes"` // the whole job passes with it
}

// PartRow is the bracket of one part against one zone over one step. Upper is
// +Inf where the part is only known to stay at least Lower away.
type PartRow struct {
	Cell, Pour int
	Step       string
	Part, Role string
	Zone       string
	Contact    bool // declared to touch during this step
	Value      Bracket
	At         float64
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

// Reservations are the sentences that stand wherever the verdict does: what it does
// not answer for, and what was set looser than its default.
func (r *Result) Reservations() []string {
	var out []string
	if names := r.notCheckedNames(); len(names) > 0 {
		out = append(out, "Not checked: "+strings.Join(names, "; ")+".")
	}
	for _, l := range r.Looser {
		out = append(out, "Set looser than the default: "+l.Text+".")
	}
	return out
}

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

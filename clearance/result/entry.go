package result

import (
	"encoding/json"

	"boxwalk/model/geom"
)

// Entry is one line of the answer: one id and subject.
type Entry struct {
	ID        string   `json:"id"`
	Subject   Subject  `json:"about"`
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
	Remedy    string   `json:"remedy"` // what usually fixes it; empty where it passes
	Source    string   `json:"source"`
	Working   []Line   `json:"working,omitzero"` // how a value by hand formulas comes about, to be done again; see Working
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

// MarshalJSON writes the subject in words beside its fields.
func (e Entry) MarshalJSON() ([]byte, error) {
	type fields Entry
	return json.Marshal(struct {
		ID      string `json:"id"`
		Subject string `json:"subject"`
		fields
	}{e.ID, e.Subject.String(), fields(e)})
}

package table

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"io"

	"boxwalk/clearance/result"
)

// Schema is the JSON Schema (draft 2020-12) of what JSON writes. Keys are only
// added within a major version, so it allows keys it does not know.
//
//go:embed result.schema.json
var Schema []byte

// JSON writes a result, each entry of its lists on a line, with a final newline. Lists are never null,
// but for scope, which is null when every check was asked for; fixes are left out
// when nobody asked for them. Cleared is what nobody has to work out from verdict
// and scope.
func JSON(w io.Writer, r *result.Result) error {
	whole := *r
	whole.Inputs = listed(r.Inputs)
	whole.NotChecked, whole.NotRead, whole.Looser = listed(r.NotChecked), listed(r.NotRead), listed(r.Looser)
	whole.Checks = listed(r.Checks)
	whole.Settings = listed(r.Settings)
	whole.Steps = listed(r.Steps)
	whole.Raising, whole.Rolling = listed(r.Raising), listed(r.Rolling)
	whole.Masses = listed(r.Masses)
	whole.Allowances = listed(r.Allowances)
	whole.Along = listed(r.Along)
	whole.Cautions = listed(r.Cautions)
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if err := e.Encode(struct {
		*result.Result
		Cleared bool `json:"cleared"`
	}{&whole, r.Cleared()}); err != nil {
		return err
	}
	_, err := w.Write(rows(out.Bytes()))
	return err
}

// listed is the list itself, or an empty one for none.
func listed[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

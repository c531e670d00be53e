package table

import (
	"bytes"
	"encoding/json"
	"testing"

	"pgregory.net/rapid"
)

func TestRowsBeginALineForEachMemberOfWhatTheResultHolds(t *testing.T) {
	dense := `{"a":1,"none":[],"empty":{},"list":[{"x":[1,2],"y":{"z":","}},{"x":[]}],"job":{"name":"a: \"b\" \\","n":null}}`
	want := `{
  "a": 1,
  "none": [],
  "empty": {},
  "list": [
    {"x": [1,2],"y": {"z": ","}},
    {"x": []}
  ],
  "job": {
    "name": "a: \"b\" \\",
    "n": null
  }
}`
	if got := string(rows([]byte(dense))); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Whatever is written reads back as the same.
func TestRowsChangeNoValue(t *testing.T) {
	word := rapid.StringMatching(`["\\,:{}\[\] a\n]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.MapOf(word, rapid.SliceOf(rapid.MapOf(word, word))).Draw(t, "value")
		dense, err := json.Marshal(value)
		if err != nil {
			t.Fatal(err)
		}
		var back bytes.Buffer
		if err := json.Compact(&back, rows(dense)); err != nil || !bytes.Equal(back.Bytes(), dense) {
			t.Fatalf("%v: %s of %s", err, back.Bytes(), dense)
		}
	})
}

package units

import (
	"slices"
	"testing"
)

func TestALengthInFeetAndInchesIsOneWord(t *testing.T) {
	for text, want := range map[string][]string{
		`low brace: 3'-4 13/16" to 2'-10 7/16", both`: {"low", "brace:", `3'-4 13/16"`, "to", `2'-10 7/16",`, "both"},
		`1/16" and 3/4"`:       {`1/16"`, "and", `3/4"`},
		`bolt 3/4" of 2 pours`: {"bolt", `3/4"`, "of", "2", "pours"},
		"  ":                   nil,
	} {
		if got := Words(text); !slices.Equal(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

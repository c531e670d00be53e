package result

import (
	"regexp"
	"strings"
)

// twins are words of the trade with their names on the other side of the ocean.
var twins = []struct {
	word *regexp.Regexp
	name string
	twin string
}{
	{regexp.MustCompile(`(?i)\bkickers?\b`), "kicker", "starter wall"},
	{regexp.MustCompile(`(?i)\bcrossfall\b`), "crossfall", "cross slope"},
	{regexp.MustCompile(`(?i)\bsignaller\b`), "signaller", "spotter"},
	{regexp.MustCompile(`(?i)\bsnug\b`), "snug", "hand-tight"},
}

// Twins is a sentence with the other names of those words of a text that have
// one, where the text does not give it; empty if there are none.
func Twins(text string) string {
	text = strings.Join(strings.Fields(text), " ") // a name may be broken over two lines
	var list []string
	for _, t := range twins {
		if t.word.MatchString(text) && !strings.Contains(text, "("+t.twin) && !strings.Contains(text, " ("+t.name) {
			list = append(list, t.name+" ("+t.twin+")")
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "Words: " + strings.Join(list, ", ") + "."
}

package units

import (
	"regexp"
	"strings"
)

// fraction of an inch as the last part of a length, with what may follow it.
var fraction = regexp.MustCompile(`^[0-9]+/[0-9]+"`)

// Words splits a text where a line may be broken: at spaces, but for the one in
// 4'-1 7/16", which broken over two lines reads as 4'-1.
func Words(text string) []string {
	var out []string
	for _, w := range strings.Fields(text) {
		if n := len(out) - 1; n >= 0 && endsInDigit(out[n]) && fraction.MatchString(w) {
			out[n] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInDigit(s string) bool {
	last := s[len(s)-1]
	return last >= '0' && last <= '9'
}

package proof

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A proof is a stranger's file. What it calls things is shown to a person, and
// may be made to move the cursor, to turn the direction of reading or to push
// everything else off the screen.

// longest is how many characters of a name are shown.
const longest = 120

// Said is a name of a proof or a result as it may be shown: as it stands if it is
// one short line of printable characters, else quoted as in Go and cut short.
func Said(name string) string {
	if short := cutShort(name); short != name || escaped(name) != name || name != strings.TrimSpace(name) || strings.Contains(name, `"`) {
		return strconv.QuoteToASCII(short)
	}
	return name
}

// cutShort is what is shown of a name: all of it, or its beginning and dots.
func cutShort(name string) string {
	n := 0
	for i := range name {
		if n++; n > longest {
			return name[:i] + "..."
		}
	}
	return name
}

// escaped replaces what is not printable, and what stands for what was no text,
// as quoting does.
func escaped(s string) string {
	if utf8.ValidString(s) && !strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsPrint(r) || r == utf8.RuneError }) {
		return s
	}
	quoted := strconv.QuoteToASCII(s)
	return strings.ReplaceAll(quoted[1:len(quoted)-1], `\"`, `"`)
}

package job

import (
	"fmt"
	"unicode"
	"unicode/utf8"
)

// Printable tells whether a character can be seen on a sheet for what it is. No
// such are control characters and line breaks, which would corrupt a drawing;
// marks that turn the direction of writing, join, or are drawn as nothing, with
// which a text reads as another; what is for private use or assigned to no
// character, of which every font has its own or none; and U+FFFD, which stands
// where a text was broken on its way.
func Printable(r rune) bool {
	return unicode.IsGraphic(r) && r != unicode.ReplacementChar && !unicode.In(r, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point)
}

// Fits tells whether a text is one that a file may have.
func Fits(text string) bool { return unprintable(text, mostCharacters) == "" }

// unprintable says why a text cannot stand on a sheet, or is longer than that.
func unprintable(text string, longest int) string {
	marks := 0
	for _, r := range text {
		if marks++; !unicode.Is(unicode.M, r) {
			marks = 0
		}
		switch {
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == '\u2028', r == '\u2029':
			return fmt.Sprintf("has an invisible control character (U+%04X)", r)
		case !Printable(r):
			return fmt.Sprintf("has a character that cannot be printed (U+%04X)", r)
		case marks > mostMarks:
			return fmt.Sprintf("has more than %d marks on one letter (U+%04X)", mostMarks, r)
		}
	}
	if n := utf8.RuneCountInString(text); n > longest {
		return fmt.Sprintf("has %d characters, at most %d are read", n, longest)
	}
	return ""
}

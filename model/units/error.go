package units

import "strconv"

// Error says why a text is not the quantity asked for.
type Error struct {
	Kind Kind
	// Text is what was read.
	Text string
	// Why is one clause with the reason and, where there is one, the arithmetic.
	Why string
	// Fix is a text of the same kind that Parse accepts.
	Fix string
}

// Error returns the reason and the fix in one line.
func (e *Error) Error() string {
	return e.Why + "; write for example " + e.Fix
}

// quoted shortens and quotes what the user wrote, so that a message stays one
// line whatever stood in the file.
func quoted(text string) string {
	const most = 40
	if runes := []rune(text); len(runes) > most {
		text = string(runes[:most]) + "…"
	}
	return strconv.Quote(text)
}

package table

import "boxwalk/clearance/result"

// paint adds colour for a terminal, or nothing. Colour only repeats what the
// words say: pass, FAIL, open.
type paint bool

// The ANSI codes of the terminals in use (ECMA-48 SGR).
const (
	bold  = "1"
	red   = "1;31"
	green = "32"
	amber = "33"
)

func (p paint) in(code, text string) string {
	if !p {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

// verdict paints a text in the colour of a verdict.
func (p paint) verdict(v result.Verdict, text string) string {
	switch v {
	case result.Pass:
		return p.in(green, text)
	case result.Fail:
		return p.in(red, text)
	}
	return p.in(amber, text)
}

// word is a verdict as the table prints it; what does not pass stands out
// without colour, too.
func word(v result.Verdict) string {
	switch v {
	case result.Pass:
		return "pass"
	case result.Fail:
		return "FAIL"
	}
	return "OPEN"
}

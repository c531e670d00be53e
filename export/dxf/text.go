package dxf

import (
	"math"
	"strings"

	"github.com/yofu/dxf/format"

	"boxwalk/export/sheet"
)

const (
	textStyle = "Standard"
	// longestText is the most bytes written as TEXT; readers of older formats
	// stop at 255. Longer lettering goes to MTEXT, which comes in pieces.
	longestText = 240
)

// text is one line of lettering, always by its baseline: the library's other
// anchors land elsewhere in some readers.
func text(t sheet.Text) func(format.Formatter) {
	at, horizontal := t.Baselines()[0], t.Anchor.Horizontal()
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbText")
		point(f, 10, at)
		f.WriteFloat(40, t.Height)
		f.WriteString(1, escapeText(t.Lines[0]))
		f.WriteFloat(50, t.Angle)
		f.WriteString(7, textStyle)
		f.WriteInt(72, horizontal)
		if horizontal != 0 {
			point(f, 11, at)
		}
		f.WriteString(100, "AcDbText")
		f.WriteInt(73, 0)
	}
}

// mtext is several lines, always by the top of the capitals of the first one.
func mtext(t sheet.Text) func(format.Formatter) {
	sin, cos := math.Sincos(t.Angle * math.Pi / 180)
	top := t.Baselines()[0].Add(sheet.Pt(-sin, cos).Mul(t.Height))
	return paragraph(t, top, 1+t.Anchor.Horizontal())
}

// middleText is MTEXT held by its middle, as the value in a dimension's block is.
func middleText(t sheet.Text) func(format.Formatter) { return paragraph(t, t.At, 5) }

func paragraph(t sheet.Text, at sheet.Point, attachment int) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbMText")
		point(f, 10, at)
		f.WriteFloat(40, t.Height)
		f.WriteFloat(41, 0) // no wrapping
		f.WriteInt(71, attachment)
		f.WriteInt(72, 1)
		pieces := chunks(escapeLines(t.Lines), longestText)
		for _, piece := range pieces[:len(pieces)-1] {
			f.WriteString(3, piece)
		}
		f.WriteString(1, pieces[len(pieces)-1])
		f.WriteString(7, textStyle)
		f.WriteFloat(50, t.Angle)
		f.WriteInt(73, 2) // exactly this line pitch
		f.WriteFloat(44, 1)
	}
}

// apart breaks up what readers would take for codes. No escape exists that all
// of them know, so a space is put in, which stays readable: \U+0041, \M+1xxxx
// and %%c would otherwise become other characters. A caret is doubled by a
// space by the format's own rule.
var apart = strings.NewReplacer(`\U+`, `\ U+`, `\u+`, `\ u+`, `\M+`, `\ M+`, `\m+`, `\ m+`, "%%", "% %", "^", "^ ")

// escapeText makes any string a value of TEXT that shows as it was meant.
func escapeText(s string) string {
	s = sheet.Clean(s)
	for strings.Contains(s, "%%") {
		s = strings.ReplaceAll(s, "%%", "% %")
	}
	return apart.Replace(s)
}

var markup = strings.NewReplacer(`\`, `\\`, "{", `\{`, "}", `\}`)

// escapeLines makes lines the content of an MTEXT.
func escapeLines(lines []string) string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = markup.Replace(escapeText(l))
	}
	return strings.Join(out, `\P`)
}

// chunks cuts a string into pieces of at most so many bytes, never within a
// character and never between a backslash and what it stands before.
func chunks(s string, most int) []string {
	var out []string
	for len(s) > most {
		cut := most
		for s[cut]&0xC0 == 0x80 {
			cut--
		}
		if backslashes := cut - len(strings.TrimRight(s[:cut], `\`)); backslashes%2 == 1 {
			cut--
		}
		out = append(out, s[:cut])
		s = s[cut:]
	}
	return append(out, s)
}

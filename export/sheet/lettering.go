package sheet

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/go-gl/mathgl/mgl64"
)

// LinePitch is the distance of baselines in letter heights. It is the single
// spacing of DXF MTEXT and lies between the two pitches of ISO 3098 type B
// (15/10 without, 19/10 with accents on capitals).
const LinePitch = 5.0 / 3

// descent is how far letters such as g and p reach below the baseline, in
// letter heights (ISO 3098 type B: 3/10).
const descent = 0.3

// Characters by width in letter heights. Each width is the greatest of three:
// ISO 3098 type B (width plus spacing), and two common sans-serif faces, a narrow
// and a wide one, set so that 0.716 em is the letter height (widths in em from
// memory of their published metrics: i 0.28, t 0.39, a 0.61, O 0.79, m 0.97).
var widthClasses = []struct {
	characters string
	width      float64
}{
	{"ijl'", 0.40},
	{" .,:;!|/\\()[]-`ftrI·", 0.58},
	{"w+=<>~^#±×÷≤≥≈−", 1.18},
	{"mMWÆæŒœ%@&—…", 1.43},
}

// advances are the widths of the Latin letters and signs, which are asked for at
// every trial of a layout.
var advances = func() (out [0x250]float64) {
	for r := range out {
		out[r] = advanceOf(rune(r))
	}
	return out
}()

func advance(r rune) float64 {
	if r >= 0 && int(r) < len(advances) {
		return advances[r]
	}
	return advanceOf(r)
}

func advanceOf(r rune) float64 {
	for _, c := range widthClasses {
		if strings.ContainsRune(c.characters, r) {
			return c.width
		}
	}
	latin := r < 0x250
	switch {
	case latin && (unicode.IsDigit(r) || unicode.IsLower(r)), strings.ContainsRune("\"°_$*?", r):
		return 0.9
	case latin:
		return 1.12
	}
	return 1.5
}

// TextWidth is a cautious width of one line of lettering of the given height,
// in the unit of height.
func TextWidth(line string, height float64) float64 {
	return advanced(0, line) * height
}

// advanced is how far lettering of height 1 comes from a place on a line.
func advanced(from float64, text string) float64 {
	for _, r := range text {
		from += advance(r)
	}
	return from
}

// size is the block that lettering needs around its capitals and baselines,
// without the descent of the last line.
func (t Text) size() (width, height float64) {
	for _, l := range t.Lines {
		width = math.Max(width, TextWidth(l, t.Height))
	}
	return width, t.Height * (1 + LinePitch*float64(len(t.Lines)-1))
}

// Baselines gives, for lettering placed on paper, where the baseline of each
// line meets its horizontal anchor.
func (t Text) Baselines() []Point {
	_, h := t.size()
	top := [...]float64{h, h / 2, 0}[t.Anchor.Vertical()]
	up := mgl64.Rotate2D(mgl64.DegToRad(t.Angle)).Mul2x1(Point{0, 1})
	out := make([]Point, len(t.Lines))
	for i := range out {
		out[i] = t.At.Add(up.Mul(top - t.Height*(1+LinePitch*float64(i))))
	}
	return out
}

// Outline is the turned rectangle that lettering placed on paper covers, with
// the descent of its last line, in order, turning left.
func (t Text) Outline() []Point {
	w, h := t.size()
	x := -w / 2 * float64(t.Anchor.Horizontal())
	top := [...]float64{h, h / 2, 0}[t.Anchor.Vertical()]
	box := Box{Point{x, top - h - descent*t.Height}, Point{x + w, top}}
	turn := mgl64.Rotate2D(mgl64.DegToRad(t.Angle))
	corners := box.corners()
	for i, c := range corners {
		corners[i] = t.At.Add(turn.Mul2x1(c))
	}
	return corners
}

// Clean makes a string fit to be lettered on one line: line breaks and tabs
// become spaces, and what cannot be seen or is not text (control characters,
// marks that turn the direction of reading, broken UTF-8) is dropped or shown as U+FFFD.
func Clean(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r' || r == 0x85 || r == 0x2028 || r == 0x2029:
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r):
			return -1
		case r&0xFFFE == 0xFFFE, unicode.Is(unicode.Co, r), !utf8.ValidRune(r):
			return utf8.RuneError
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// cleanLines cleans every line, after breaking at line breaks.
func cleanLines(lines []string) []string {
	var out []string
	for _, l := range lines {
		for _, part := range strings.Split(strings.ReplaceAll(l, "\r\n", "\n"), "\n") {
			out = append(out, Clean(part))
		}
	}
	return out
}

package sheet

import (
	"strings"

	"boxwalk/model/units"
)

// Wrap breaks text into lines no wider than width at the given height, at
// spaces where there are any and inside a word where there are none; a length
// such as 4'-1 7/16" is one word.
func Wrap(text string, height, width float64) []string {
	var lines, line []string
	long := 0.0 // of the line, letter heights
	for _, word := range units.Words(Clean(text)) {
		for _, piece := range breakWord(word, height, width) {
			joined := advanced(advanced(long, " "), piece)
			if len(line) > 0 && joined*height <= width {
				line, long = append(line, piece), joined
				continue
			}
			if len(line) > 0 {
				lines = append(lines, strings.Join(line, " "))
			}
			line, long = append(line[:0], piece), advanced(0, piece)
		}
	}
	if len(line) > 0 {
		lines = append(lines, strings.Join(line, " "))
	}
	return lines
}

// breakWord cuts a word that alone is wider than width; every piece has at
// least one character.
func breakWord(word string, height, width float64) []string {
	var pieces []string
	start, sum := 0, 0.0
	for i, r := range word {
		w := advance(r) * height
		if sum+w > width && i > start {
			pieces = append(pieces, word[start:i])
			start, sum = i, 0
		}
		sum += w
	}
	return append(pieces, word[start:])
}

// fitHeights are the heights of ISO 3098 that a field may fall back to.
var fitHeights = []float64{5, 3.5, 2.5, 1.8}

// fitText finds the largest height, not above most, at which text fills no
// more than width x depth. At the least height what is too much is cut and
// ended by an ellipsis, which is why cautions do not go through here.
func fitText(text string, most, width, depth float64) (height float64, lines []string) {
	for _, height = range fitHeights {
		if height > most {
			continue
		}
		lines = Wrap(text, height, width)
		if letteringDepth(len(lines), height) <= depth {
			return height, lines
		}
	}
	room := max(1, int((depth/height-1-descent)/LinePitch)+1)
	if len(lines) > room {
		lines = append(lines[:room-1:room-1], ellipsis(lines[room-1], height, width))
	}
	return height, lines
}

func letteringDepth(lines int, height float64) float64 {
	return height * (1 + descent + LinePitch*float64(lines-1))
}

func ellipsis(line string, height, width float64) string {
	runes := []rune(line)
	for len(runes) > 0 && TextWidth(string(runes)+"…", height) > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

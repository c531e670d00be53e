package sheet

import "fmt"

const (
	notesPad      = 4.0  // mm between the rules and the lettering
	notesColumn   = 50.0 // letter heights; a wider area is split into columns that are easier to read
	headingHeight = 1.2  // letter heights
	numberRoom    = 3.2  // letter heights kept for the number of a caution
)

// notesBlock is the cautions and notes broken into lines and columns.
type notesBlock struct {
	columns [][]noteLine
	width   float64 // of a column, mm
	pitch   float64
	depth   float64 // of the whole block with its padding, mm
}

// noteLine is one line in the block; a heading is larger, a number hangs out.
// The zero value is an empty line.
type noteLine struct {
	number, text string
	heading      bool
}

// depthOf is the lines that a group takes where it follows another one: a heading
// is larger than the pitch and keeps a line's distance from what stands above.
func depthOf(group []noteLine) int {
	if headed(group) {
		return len(group) + 1
	}
	return len(group)
}

func headed(group []noteLine) bool { return len(group) > 0 && group[0].heading }

// notesBlock is the cautions and notes broken to fill an area of the given width.
func (s *Sheet) notesBlock(area float64) notesBlock {
	key := [2]float64{area, s.LetteringHeight()}
	b, ok := s.blocks[key]
	if !ok {
		if b = s.breakNotes(area); s.blocks != nil {
			s.blocks[key] = b
		}
	}
	return b
}

func (s *Sheet) breakNotes(area float64) notesBlock {
	h := s.LetteringHeight()
	inner := area - notesPad
	count := max(1, int(inner/(notesColumn*h)))
	b := notesBlock{width: inner/float64(count) - notesPad, pitch: h * LinePitch}
	groups := append(noteGroups("CAUTIONS", s.Cautions, h, b.width), noteGroups("NOTES", s.Notes, h, b.width)...)
	total := 0 // lines, at least: a heading may come to stand at the head of a column
	for _, g := range groups {
		total += len(g)
	}
	for rows := (total + count - 1) / count; ; rows++ {
		if b.columns = pour(groups, rows); len(b.columns) <= count {
			b.depth = 2*notesPad + float64(longest(b.columns))*b.pitch
			return b
		}
	}
}

// noteGroups makes one group of lines for each sentence; groups are not split
// over columns and the heading stays with the first.
func noteGroups(heading string, sentences []string, h, width float64) [][]noteLine {
	var groups [][]noteLine
	for i, sentence := range sentences {
		var g []noteLine
		if i == 0 {
			g = append(g, noteLine{text: heading, heading: true})
		}
		number := fmt.Sprintf("%d.", i+1)
		for _, line := range Wrap(sentence, h, width-numberRoom*h) {
			g = append(g, noteLine{number: number, text: line})
			number = ""
		}
		groups = append(groups, g)
	}
	return groups
}

// pour fills columns of so many rows; a group longer than that gets a column.
func pour(groups [][]noteLine, rows int) [][]noteLine {
	columns := [][]noteLine{nil}
	for _, g := range groups {
		last := &columns[len(columns)-1]
		if len(*last) > 0 && len(*last)+depthOf(g) > rows {
			columns = append(columns, nil)
			last = &columns[len(columns)-1]
		}
		if headed(g) && len(*last) > 0 {
			*last = append(*last, noteLine{})
		}
		*last = append(*last, g...)
	}
	return columns
}

func longest(columns [][]noteLine) int {
	n := 0
	for _, c := range columns {
		n = max(n, len(c))
	}
	return n
}

// items letters the block into its box.
func (b notesBlock) items(box Box, h float64) []Item {
	var out []Item
	for i, column := range b.columns {
		x := box.Min[0] + notesPad + float64(i)*(b.width+notesPad)
		for row, line := range column {
			y := box.Max[1] - notesPad - b.pitch*float64(row)
			out = append(out, line.items(Pt(x, y), h)...)
		}
	}
	return out
}

func (n noteLine) items(at Point, h float64) []Item {
	if n.text == "" {
		return nil
	}
	if n.heading {
		return []Item{Text{On: FrameText, At: at.Add(Pt(0, h/2)), Anchor: TopLeft, Height: headingHeight * h, Lines: []string{n.text}}}
	}
	out := []Item{Text{On: FrameText, At: at.Add(Pt(numberRoom*h, 0)), Anchor: TopLeft, Height: h, Lines: []string{n.text}}}
	if n.number != "" {
		out = append(out, Text{On: FrameText, At: at, Anchor: TopLeft, Height: h, Lines: []string{n.number}})
	}
	return out
}

package sheet

import (
	"fmt"
	"math"
)

const (
	viewGap       = 5.0  // least distance between views and to the frame, mm
	alignedExcess = 1.15 // how much higher a row may get for its views to stand on one level
)

// Arrange chooses one scale for all views that have none, the largest standard
// one at which everything fits, and sets the views out in rows and columns in
// their order. Views of one scale in a row stand on the same level where that
// costs little room. With NotesAuto it also settles where the notes stand. It
// fails when there is no room at a legible scale.
func (s *Sheet) Arrange() error {
	layouts := s.layouts()
	if len(layouts) == 0 {
		return ErrNoRoom
	}
	for _, n := range s.usefulScales() {
		cells := s.measureAll(n)
		for _, l := range layouts {
			if best, ok := bestGrid(cells, l.Views); ok {
				best.place(l.Views)
				s.NotesAt = l.place
				return nil
			}
		}
	}
	room := layouts[0].Views
	return fmt.Errorf("sheet: %d views do not fit %.0f x %.0f mm of paper %s at a legible standard scale; take a larger sheet or fewer views",
		len(s.Views), room.Width(), room.Height(), s.Paper.Name())
}

// leastDrawing is the least size on paper, mm, to which a scale may reduce the
// smallest view.
const leastDrawing = 25.0

// usefulScales are the scales at which every view without one stays legible.
// There is one to try, unused, when all views have theirs.
func (s *Sheet) usefulScales() []float64 {
	all := s.Units.Scales()
	if !s.anyFree() {
		return all[:1]
	}
	smallest := math.Inf(1)
	for _, v := range s.Views {
		if e := v.Extents(); v.Scale <= 0 && !e.Empty() {
			smallest = math.Min(smallest, math.Max(e.Width(), e.Height()))
		}
	}
	for i, n := range all {
		if i > 0 && smallest/n < leastDrawing {
			return all[:i]
		}
	}
	return all
}

func (s *Sheet) anyFree() bool {
	for _, v := range s.Views {
		if v.Scale <= 0 {
			return true
		}
	}
	return false
}

// gridCell is one view measured at its scale, with its caption.
type gridCell struct {
	view  *View
	scale float64
	box   Box // on paper, model origin at (0, 0), without the caption
	head  float64
	width float64 // of view or caption, whichever is wider
}

// grid is the views in rows of so many columns.
type grid struct {
	cells   []gridCell
	columns int
	widths  []float64
	rows    []rowMeasure
}

// rowMeasure is the height of a row; in an aligned row all model origins stand
// at the same level, below the top by rise.
type rowMeasure struct {
	height, rise float64
	aligned      bool
}

// measureAll measures every view, at scale n where it has none.
func (s *Sheet) measureAll(n float64) []gridCell {
	cells := make([]gridCell, len(s.Views))
	for i, v := range s.Views {
		cells[i] = s.measure(v, n)
	}
	return cells
}

// bestGrid tries every number of columns and takes the one that leaves most air.
func bestGrid(cells []gridCell, area Box) (best grid, ok bool) {
	most := -1.0
	for columns := 1; columns <= len(cells); columns++ {
		g := newGrid(cells, columns)
		x, y := g.slack(area)
		if air := math.Min(x/area.Width(), y/area.Height()); x >= 0 && y >= 0 && air > most {
			best, most, ok = g, air, true
		}
	}
	return best, ok
}

func (s *Sheet) measure(v *View, n float64) gridCell {
	if v.Scale > 0 {
		n = v.Scale
	}
	c := gridCell{view: v, scale: n, box: s.boxAt(v, n)}
	if c.box.Empty() {
		c.box = Box{}
	}
	c.width = c.box.Width()
	trial := *v
	trial.Scale = n
	if text := s.caption(&trial); text != "" {
		c.head = s.captionDepth()
		c.width = math.Max(c.width, TextWidth(text, s.viewCaptionHeight()))
	}
	return c
}

func newGrid(cells []gridCell, columns int) grid {
	g := grid{cells: cells, columns: columns, widths: make([]float64, columns)}
	for i, c := range cells {
		g.widths[i%columns] = math.Max(g.widths[i%columns], c.width)
	}
	for i := 0; i < len(cells); i += columns {
		g.rows = append(g.rows, measureRow(cells[i:min(i+columns, len(cells))]))
	}
	return g
}

func measureRow(cells []gridCell) rowMeasure {
	var m rowMeasure
	above, below, same := math.Inf(-1), math.Inf(-1), true
	for _, c := range cells {
		m.height = math.Max(m.height, c.box.Height()+c.head)
		above = math.Max(above, c.box.Max[1]+c.head)
		below = math.Max(below, -c.box.Min[1])
		same = same && c.scale == cells[0].scale
	}
	if same && len(cells) > 1 && above+below <= alignedExcess*m.height {
		return rowMeasure{above + below, above, true}
	}
	return m
}

// slack is the room left beyond the least gaps, negative when there is too little.
func (g grid) slack(area Box) (x, y float64) {
	x = area.Width() - viewGap*float64(len(g.widths)+1)
	for _, w := range g.widths {
		x -= w
	}
	y = area.Height() - viewGap*float64(len(g.rows)+1)
	for _, r := range g.rows {
		y -= r.height
	}
	return x, y
}

// place sets scale and shift of every view, the slack shared out evenly.
func (g grid) place(area Box) {
	x, y := g.slack(area)
	gapX := viewGap + x/float64(len(g.widths)+1)
	gapY := viewGap + y/float64(len(g.rows)+1)
	top := area.Max[1] - gapY
	for r, row := range g.rows {
		left := area.Min[0] + gapX
		for i := r * g.columns; i < min((r+1)*g.columns, len(g.cells)); i++ {
			w := g.widths[i%g.columns]
			g.cells[i].place(left+w/2, top, row)
			left += w + gapX
		}
		top -= row.height + gapY
	}
}

func (c gridCell) place(middle, top float64, row rowMeasure) {
	c.view.Scale = c.scale
	c.view.Shift[0] = middle - c.box.Centre()[0]
	if row.aligned {
		c.view.Shift[1] = top - row.rise
		return
	}
	air := (row.height - c.box.Height() - c.head) / 2
	c.view.Shift[1] = top - air - c.head - c.box.Max[1]
}

package plot

// Drawing is a plot laid out, in points, y down.
type Drawing struct {
	Title, Says   string
	Width, Height float64
	Items         []Item
	Told          []string // what stands in words below: the marks by their numbers
}

// Item is a Stroke, an Area, a Ring or Letters.
type Item interface{ item() }

// Pen is how a line is drawn.
type Pen struct {
	Width float64
	Grey  float64 // 0 black, 1 white
	Dash  []float64
	Alarm bool // in the colour of what must be seen: a limit
}

// Stroke is a line through points.
type Stroke struct {
	Points []Point
	Pen    Pen
}

// Area is a filled outline.
type Area struct {
	Points []Point
	Grey   float64
}

// Ring is a circle.
type Ring struct {
	At     Point
	Radius float64
	Pen    Pen
}

// Anchor is which end of letters stands at their place.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Letters are one line of text; At is on its base line.
type Letters struct {
	At     Point
	Text   string
	Size   float64
	Anchor Anchor
	Up     bool // reads upward
	Alarm  bool
}

func (Stroke) item()  {}
func (Area) item()    {}
func (Ring) item()    {}
func (Letters) item() {}

// Wide is about how wide a text is at a size: writers have fonts of their own, so it is
// on the wide side.
func Wide(text string, size float64) float64 {
	n := 0.0
	for _, r := range text {
		switch {
		case r == ' ' || r == '.' || r == ',' || r == 'i' || r == 'l' || r == 't' || r == 'f' || r == 'j':
			n += 0.32
		case r == 'm' || r == 'w' || r == 'M' || r == 'W':
			n += 0.92
		case r > 0x2e80:
			n += 1
		default:
			n += 0.6
		}
	}
	return n * size
}

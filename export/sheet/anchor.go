package sheet

// Anchor says which point of lettering lies at its place.
type Anchor uint8

const (
	BaseLeft Anchor = iota // on the baseline of the last line
	BaseCentre
	BaseRight
	MiddleLeft
	MiddleCentre
	MiddleRight
	TopLeft
	TopCentre
	TopRight
)

// Horizontal is 0 for left, 1 for centre, 2 for right.
func (a Anchor) Horizontal() int { return int(a % 3) }

// Vertical is 0 for baseline, 1 for middle, 2 for top of the capitals.
func (a Anchor) Vertical() int { return int(a / 3 % 3) }

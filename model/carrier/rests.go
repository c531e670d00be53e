package carrier

import "boxwalk/model/culvert"

// Rests is how the soffit comes down to the bents: strips of panels on stringers, and
// walls that hang on the headers or their arms at every bent. Both sides are alike;
// what lies on one side stands here for the left.
type Rests struct {
	Strips    []Strip
	Hung      []Hung
	Stringers []Seated // of the left side and the middle, from the centreline out
	Fillers   []Width  // at the soffit, which hang between two of what they lie beside
}

// Strip is a breadth of the soffit that one row of panels carries across to its
// stringers: y from the centreline, m, with what belongs to it beyond them. One of the
// middle reaches to both sides.
type Strip struct {
	Side     culvert.Side
	From, To float64
}

// Hung is a wall with what of the soffit lies on it, and where it bears on its bents.
// From and To are alike where it carries none.
type Hung struct {
	Side     culvert.Side
	At       float64
	On       Role // Header or Arm
	From, To float64
}

// Seated is where a stringer runs and what carries it at a bent: the header's tube,
// or an arm; nothing where On is empty.
type Seated struct {
	Side culvert.Side
	At   float64
	On   Role
}

// seated keeps where a stringer of the left side or the middle bears.
func (b *builder) seated(side culvert.Side, y float64, on seat) {
	if side != culvert.Right {
		b.c.Rests.Stringers = append(b.c.Rests.Stringers, Seated{side, y, on.on})
	}
}

// rests is how the kind's roof comes down.
func (b *builder) rests() {
	r := &b.c.Rests
	r.Strips, r.Hung = b.kind.rests(b)
	for _, w := range b.c.Widths() {
		if w.Name == "filler" {
			r.Fillers = append(r.Fillers, w)
		}
	}
}

// OnWall tells whether a part hangs with the walls, as panels, walers, ties and what
// moves with them do.
func (c *Carrier) OnWall(p Part) bool {
	switch p.Role {
	case WallPanel, Waler, Tie, Bracket, LinkBar, Lug:
		return true
	case CornerPanel:
		return c.onWallBody(p.Body)
	}
	return false
}

// onWallBody tells whether wall panels are of the body.
func (c *Carrier) onWallBody(body int) bool {
	for _, p := range c.Parts {
		if p.Role == WallPanel && p.Body == body {
			return true
		}
	}
	return false
}

package scene

// Style is what an object is made of or stands for; a writer turns it into
// line, tone or colour.
type Style uint8

// The styles. The zero value is concrete, which hides what is behind it.
const (
	Concrete    Style = iota // cast in place
	Kept                     // stays in place when the carrier leaves
	Steel                    // frame of the carrier
	RoofPanel                // facing under the roof
	WallPanel                // facing on a wall
	CornerPanel              // facing over a haunch
	Link                     // turnbuckle, brace, jack, tie: a bar of set length
	Filler                   // filler, removed before anything moves
	Wheel                    // what the carrier rolls on
	Ghost                    // another position of a part: hides nothing
	styleCount
)

package trace

import (
	"sync"

	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"
)

// Ground is the parent of a body that hangs on nothing that moves.
const Ground = sweep.Ground

// Zone is a zone of what stands around, and its words in a result.
type Zone struct{ Name, Words string }

// Body is a rigid body of a carrier. Kind is fixed, slide, turn or aim; Axis and
// Pin are in the carrier's coordinates as raised; Link is the place of the link
// that sets the joint, -1 for none.
type Body struct {
	Name      string
	Parent    int
	Kind      string
	Axis, Pin geom.Vec
	Link      int
}

// Link joins a pin of body A to one of body B.
type Link struct {
	A, B       int
	PinA, PinB geom.Vec
}

// Part is a convex solid of a carrier, in its coordinates as raised.
type Part struct {
	Mark     string
	Vertices []geom.Vec
	sweep.Part
}

// Drive is what the joint of a body is given over a step.
type Drive struct {
	Body     int
	From, To float64
}

// Level is the level frame that the way over grades is written in: turned by
// Tilt about y, its origin at Origin of the carrier's coordinates.
type Level struct {
	Origin geom.Vec
	Tilt   float64
}

// Line is a straight in plan: through At, at Heading from x toward y.
type Line struct {
	At      geom.Vec
	Heading float64
}

// Wheels is a wheel line, Ahead of the guide, and the plane its axle runs on:
// height Plane[2] + (Plane[0], Plane[1]).(x, y).
type Wheels struct {
	Ahead float64
	Plane geom.Vec
}

// Carry is the frame of a carrier that rolls on two wheel lines: Guide runs on
// the line On from From to To, and a guide Base ahead of it on the line Front.
type Carry struct {
	Level     Level
	Guide     geom.Vec
	Base      float64
	On        Line
	From, To  float64
	Front     Line
	Low, High Wheels
}

// Tip is the frame of a carrier whose Pivot goes straight from one place to
// another while it yaws and pitches evenly.
type Tip struct {
	Level           Level
	Pivot, From, To geom.Vec
	Yaw, Pitch      [2]float64
}

// Placed is a record that places a carrier's frame in a roll step: Carry or Tip.
type Placed interface{ write(r *records) }

// The kinds of step.
const (
	Strip = "strip"
	Raise = "raise"
	Roll  = "roll"
	End   = "end"
)

// Step is one step. Motion is what the search saw; parts are those of Parts,
// which for a roll round a bend stand as they are carried.
type Step struct {
	ID     int
	Kind   string
	Name   string
	Drives []Drive
	Frame  Placed // of a roll; nil where the carrier stands in its own coordinates
	Absent []int
	Motion sweep.Motion
	Parts  []sweep.Part

	// Rests tells whether a body keeps its place to a frame throughout.
	Rests func(frame, body int) bool

	present []int
	group   []int      // by body: the outermost that it rests on
	mu      sync.Mutex // of tables
	tables  tables
}

// Carrier is the bodies, parts and steps that bays have in common.
type Carrier struct {
	Bodies       []Body
	Links        []Link
	Parts        []Part
	Runs         [][2]int // bodies that run in each other though neither hangs on the other
	Pinned, Seam [][2]int // smaller part first
	Steps        []*Step

	pinned, seams [][]int // by part
}

// Solid is a convex piece of what stands around, in the place's coordinates.
// Scenes are the letters of the scenes it stands in: s while stripped, r while
// raised, a on the way ahead.
type Solid struct {
	Zone, Kind string
	Scenes     string
	Vertices   []geom.Vec
	Part       sweep.Part
}

// Contact is a set of parts that may touch a solid; Step is the last step in
// which they may for a face, the first for one that lands.
type Contact struct {
	Solid, Step int
	Parts       []int
}

// Place is a carrier at one pour of one cell. Shift is how far its solids stand
// ahead of the carrier's own coordinates.
type Place struct {
	Carrier       int
	Shift         float64
	Name          string
	Twins         []string
	Solids        []Solid
	Faces, Lands  []Contact
	Stands, Rolls []Contact
	Steps         []*Step // the roll

	faces, lands  map[[2]int]int
	stands, rolls map[[2]int]bool
	lows          *lows
}

// Input is a file that the result was worked out from.
type Input struct{ Name, SHA256 string }

// Proof is everything to be written.
type Proof struct {
	Notes    []string // sentences for whoever reads the file; they show nothing
	Inputs   []Input
	Result   string // sha256 of result.json
	Whole    bool
	Zones    []Zone
	Carriers []*Carrier
	Places   []*Place
	Claims   []*Claim
}

// Claim is what a set of parts keeps from a set of solids, or from each other,
// over one step. Place is -1 among the parts of Carrier themselves.
type Claim struct {
	Place, Carrier int
	Step           *Step
	Set            string // zone, or zone:kind
	Needs          []Need
	Each           []Each
}

// Need is a number of the result: every pair that may not touch (or, with Touch
// set, that may) keeps Lower. Less holds how many micrometres more than Lower
// are asked of some parts, fewer if negative.
type Need struct {
	ID    string
	Lower float64
	Far   bool
	Touch bool
	Less  map[int]int
	Near  *Witness // nil: nothing shows that anything comes so near
}

// Witness is a pair of points, of part One and of part or solid Other, that are
// at most Upper apart at S.
type Witness struct {
	Upper, S   float64
	One, Other int
	A, B       []sweep.Share
}

// Each is a number of its own for one part; -Inf is none.
type Each struct {
	Part        int
	Free, Touch float64
}

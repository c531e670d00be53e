package plot

// Point is a place in a plot's own units: across and up.
type Point [2]float64

// Curve is one line of a plot, in unbroken runs.
type Curve struct {
	Name string
	Runs [][]Point
	// Fill shades the area down to zero, as moments and pressures are drawn.
	Fill bool
}

// Level is a line across a plot, such as a limit.
type Level struct {
	Name string
	At   float64
}

// Mark is a point that is told beside the plot, by a number in a ring.
type Mark struct {
	At   Point
	Text string
}

// Stretch is a part of what runs across, with its name at the top.
type Stretch struct {
	From, To float64
	Name     string
}

// Plot is curves over one axis. Title and Says are for whoever cannot see it too.
type Plot struct {
	Title  string
	Says   string // what it shows, in a sentence
	Across string // what runs along the bottom, with its unit
	Up     string // what runs up the side, with its unit

	Curves    []Curve
	Levels    []Level
	Marks     []Mark
	Stretches []Stretch

	Most float64 // highest value shown, what is above is cut off; 0 shows all
}

// Bar is a stretch of time on a lane.
type Bar struct {
	From, To float64
	Name     string
	Tone     int // of Tones: bars of one kind have one
}

// Tones is how many tones bars may have; they differ in grey and hatch.
const Tones = 4

// Lane is who or what has bars: a cell, a gang.
type Lane struct {
	Name string
	Bars []Bar
}

// Chart is bars over time.
type Chart struct {
	Title  string
	Says   string
	Across string   // what runs along the bottom, with its unit
	Tones  []string // what each tone is, for the key below
	Lanes  []Lane
}

package sheet

import "math"

// Pattern is a kind of hatching.
type Pattern uint8

const (
	ConcretePattern Pattern = iota // reinforced concrete: full and broken lines in turn
	EarthPattern                   // ground
	SteelPattern                   // cut steel: close pairs of lines
	Tone                           // an even light grey
	Solid                          // full, in the colour of the layer: arrowheads
	patternCount
)

// Family is one set of parallel hatch lines, mm of paper.
type Family struct {
	Angle   float64   // degrees
	Base    Point     // a line of the family runs through here
	Shift   float64   // from one line to the next, along the line
	Spacing float64   // from one line to the next, to the left
	Dashes  []float64 // drawn, gap, drawn, gap …; nil is continuous
}

const patternSpacing = 2.0 // mm between lines; ISO 128-50 leaves it to the size of the area

// The shapes of the patterns are common practice, from memory.
var patternFamilies = [patternCount][]Family{
	ConcretePattern: {
		{Angle: 45, Spacing: 2 * patternSpacing},
		{Angle: 45, Base: Point{-patternSpacing * math.Sqrt2 / 2, patternSpacing * math.Sqrt2 / 2},
			Spacing: 2 * patternSpacing, Dashes: []float64{2.5, 1}},
	},
	EarthPattern: {
		{Angle: 45, Shift: 4, Spacing: 4, Dashes: []float64{4, 4}},
		{Angle: 45, Base: earthBase(0, 1.3), Shift: 4, Spacing: 4, Dashes: []float64{4, 4}},
		{Angle: 45, Base: earthBase(0, 2.6), Shift: 4, Spacing: 4, Dashes: []float64{4, 4}},
		{Angle: 135, Base: earthBase(4.6, 3.3), Shift: 4, Spacing: 4, Dashes: []float64{4, 4}},
		{Angle: 135, Base: earthBase(5.9, 3.3), Shift: 4, Spacing: 4, Dashes: []float64{4, 4}},
		{Angle: 135, Base: earthBase(7.2, 3.3), Shift: 4, Spacing: 4, Dashes: []float64{4, 4}},
	},
	SteelPattern: {
		{Angle: 45, Spacing: 2.2},
		{Angle: 45, Base: Point{-0.5, 0.5}, Spacing: 2.2},
	},
}

// earthBase turns a place in the unturned pattern by 45 degrees.
func earthBase(x, y float64) Point {
	return Point{(x - y) * math.Sqrt2 / 2, (x + y) * math.Sqrt2 / 2}
}

// Families gives the lines of the pattern; none for Tone and Solid.
func (p Pattern) Families() []Family {
	if p >= patternCount {
		return nil
	}
	return append([]Family(nil), patternFamilies[p]...)
}

// Filled reports whether the pattern is an even fill.
func (p Pattern) Filled() bool { return p == Tone || p == Solid }

// Name is the pattern's name in a DXF file. The file defines the pattern's lines;
// a reader that ignores them takes its own pattern of this name, so the names
// are ones that readers know.
func (p Pattern) Name() string {
	return [...]string{"GOST_FERROCONCRETE", "EARTH", "ANSI31", "SOLID", "SOLID", "SOLID"}[min(p, patternCount)]
}

// ToneColour is the grey of Tone.
var ToneColour = RGB{225, 225, 225}

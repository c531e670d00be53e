package sheet

import "strings"

// LineType is a kind of line after ISO 128-2.
type LineType uint8

const (
	Continuous      LineType = iota // 01: outlines (wide), dimensions and hatching (narrow)
	Dashed                          // 02.1: hidden outlines
	LongDashDot                     // 04: long-dashed dotted, centre lines and cutting planes
	LongDashTwoDots                 // 05.1: long-dashed double-dotted, other positions of moving parts
)

// Dashes gives the pattern in mm of paper: drawn, gap, drawn, gap …; nil is
// continuous. Lengths are those of ISO 128-2 (dash 12d, long dash 24d, gap 3d)
// for d = 0.35 mm, also for the narrower lines, so that all lines of a kind look
// alike. Dots are d long, not half of it: the collapsed outline must not pass for
// a hidden one on a screen or a copy.
func (t LineType) Dashes() []float64 {
	const d = 0.35
	switch t {
	case Dashed:
		return []float64{12 * d, 3 * d}
	case LongDashDot:
		return []float64{24 * d, 3 * d, d, 3 * d}
	case LongDashTwoDots:
		return []float64{24 * d, 3 * d, d, 3 * d, d, 3 * d}
	}
	return nil
}

// RGB is a screen colour.
type RGB struct{ R, G, B uint8 }

// LayerStyle is how a layer is drawn.
type LayerStyle struct {
	// Name follows ISO 13567: agent 2 characters (W contractor), element 6,
	// presentation 2 (E element, H hatching, D dimensions, T text, J marks).
	Name  string
	Type  LineType
	Width float64 // mm, from the ISO 128 series
	ACI   int     // colour number as DXF counts colours, 1..255
	RGB   RGB     // dark enough to print in black and white
}

// Layer says what an item stands for; its LayerStyle says how that is drawn.
type Layer uint8

const (
	General       Layer = iota
	Concrete            // concrete outlines, cut
	ConcreteHatch       // hatching of cut concrete
	Earth               // ground line
	EarthHatch          // hatching of ground
	Steel               // frame of the carrier: legs, headers, sills
	SteelHatch          // hatching of cut steel
	Panel               // facings and panels
	Hardware            // jacks, ties, hangers, wheels, braces
	Collapsed           // outline of the collapsed carrier
	Hidden              // hidden outlines
	Centre              // centre lines
	CuttingPlane        // where a section is taken
	Dimensioning        // dimensions
	Clearance           // governing clearances
	Notes               // text in views
	Loads               // loads and movement arrows
	StampMark           // NOT CLEARED
	Frame               // drawing frame, wide
	FrameFields         // grid fields, title block rules
	FrameText           // title block and notes text
	layerCount
)

var black, red = RGB{0, 0, 0}, RGB{190, 0, 0}

var layerStyles = [layerCount]LayerStyle{
	General:       {"W-GENER-E-", Continuous, 0.25, 7, black},
	Concrete:      {"W-CONCREE-", Continuous, 0.5, 7, black},
	ConcreteHatch: {"W-CONCREH-", Continuous, 0.18, 8, RGB{110, 110, 110}},
	Earth:         {"W-EARTH-E-", Continuous, 0.35, 32, RGB{110, 70, 20}},
	EarthHatch:    {"W-EARTH-H-", Continuous, 0.18, 32, RGB{110, 70, 20}},
	Steel:         {"W-STEEL-E-", Continuous, 0.35, 5, RGB{0, 40, 150}},
	SteelHatch:    {"W-STEEL-H-", Continuous, 0.18, 5, RGB{0, 40, 150}},
	Panel:         {"W-PANEL-E-", Continuous, 0.5, 94, RGB{0, 90, 20}},
	Hardware:      {"W-HARDW-E-", Continuous, 0.25, 6, RGB{120, 0, 120}},
	Collapsed:     {"W-COLLAPE-", LongDashTwoDots, 0.25, 1, red},
	Hidden:        {"W-HIDDENE-", Dashed, 0.25, 8, RGB{80, 80, 80}},
	Centre:        {"W-CENTREE-", LongDashDot, 0.18, 4, RGB{0, 80, 110}},
	CuttingPlane:  {"W-CUTPLAJ-", LongDashDot, 0.5, 7, black},
	Dimensioning:  {"W-DIMEN-D-", Continuous, 0.25, 7, black},
	Clearance:     {"W-CLEAR-D-", Continuous, 0.25, 1, red},
	Notes:         {"W-NOTES-T-", Continuous, 0.25, 7, black},
	Loads:         {"W-LOADS-J-", Continuous, 0.35, 30, RGB{170, 70, 0}},
	StampMark:     {"W-STAMP-T-", Continuous, 0.7, 1, red},
	Frame:         {"W-SHEET-E-", Continuous, 0.7, 7, black},
	FrameFields:   {"W-FIELD-E-", Continuous, 0.35, 7, black},
	FrameText:     {"W-SHEET-T-", Continuous, 0.25, 7, black},
}

// Layers lists every layer in the fixed order in which writers declare them.
func Layers() []Layer {
	all := make([]Layer, layerCount)
	for i := range all {
		all[i] = Layer(i)
	}
	return all
}

// Style is how the layer is drawn. An unknown layer is drawn as General.
func (l Layer) Style() LayerStyle {
	if l >= layerCount {
		l = General
	}
	return layerStyles[l]
}

// LayerName is the layer's name on this sheet: the office's own from
// LayerNames, made safe for DXF, or else the ISO 13567 style name.
func (s *Sheet) LayerName(l Layer) string {
	if name := safeLayerName(s.LayerNames[l]); name != "" {
		return name
	}
	return l.Style().Name
}

// safeLayerName drops what DXF symbol names may not hold.
func safeLayerName(name string) string {
	keep := func(r rune) rune {
		if strings.ContainsRune("<>/\\\":;?*|=`',^%", r) {
			return '_'
		}
		return r
	}
	name = strings.TrimSpace(strings.Map(keep, Clean(name)))
	if strings.EqualFold(name, "Defpoints") { // CAD programs never plot this layer
		return ""
	}
	if runes := []rune(name); len(runes) > 80 {
		name = string(runes[:80])
	}
	return name
}

package dxf

import (
	"math"

	"github.com/yofu/dxf/format"

	"boxwalk/export/sheet"
)

// hatch writes a HATCH with polyline boundaries. scale is mm of model space to
// the mm of paper in which patterns are given.
func hatch(h sheet.Hatch, scale float64) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbHatch")
		point(f, 10, sheet.Point{})
		f.WriteFloat(210, 0)
		f.WriteFloat(220, 0)
		f.WriteFloat(230, 1)
		f.WriteString(2, h.Pattern.Name())
		filled := 0
		if h.Pattern.Filled() {
			filled = 1
		}
		f.WriteInt(70, filled)
		f.WriteInt(71, 0)
		f.WriteInt(91, len(h.Loops))
		for i, loop := range h.Loops {
			boundary(f, loop, i == 0)
		}
		f.WriteInt(75, 0) // even-odd
		f.WriteInt(76, 1) // under a known name
		if filled == 0 {
			families(f, h.Pattern.Families(), scale)
		}
		f.WriteFloat(47, scale/10) // pixel size, only a hint
		f.WriteInt(98, 1)
		plane(f, 10, h.Loops[0][0])
	}
}

func boundary(f format.Formatter, loop []sheet.Point, external bool) {
	kind := 2 // polyline
	if external {
		kind |= 1
	} else {
		kind |= 16
	}
	f.WriteInt(92, kind)
	f.WriteInt(72, 0)
	f.WriteInt(73, 1)
	f.WriteInt(93, len(loop))
	for _, p := range loop {
		plane(f, 10, p)
	}
	f.WriteInt(97, 0)
}

// families writes the pattern's lines, scaled and turned as the format wants them.
func families(f format.Formatter, all []sheet.Family, scale float64) {
	f.WriteFloat(52, 0)
	f.WriteFloat(41, scale)
	f.WriteInt(77, 0)
	f.WriteInt(78, len(all))
	for _, l := range all {
		sin, cos := math.Sincos(l.Angle * math.Pi / 180)
		step := sheet.Pt(l.Shift*cos-l.Spacing*sin, l.Shift*sin+l.Spacing*cos)
		f.WriteFloat(53, l.Angle)
		f.WriteFloat(43, l.Base[0]*scale)
		f.WriteFloat(44, l.Base[1]*scale)
		f.WriteFloat(45, step[0]*scale)
		f.WriteFloat(46, step[1]*scale)
		f.WriteInt(79, len(l.Dashes))
		for i, d := range l.Dashes {
			f.WriteFloat(49, d*scale*float64(1-2*(i%2)))
		}
	}
}

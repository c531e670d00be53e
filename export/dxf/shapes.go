package dxf

import (
	"github.com/yofu/dxf/format"

	"boxwalk/export/sheet"
)

func line(l sheet.Line) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbLine")
		point(f, 10, l.A)
		point(f, 11, l.B)
	}
}

func polyline(p sheet.Polyline) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbPolyline")
		f.WriteInt(90, len(p.Points))
		closed := 0
		if p.Closed {
			closed = 1
		}
		f.WriteInt(70, closed|128) // 128: line types run on through the corners
		for _, q := range p.Points {
			plane(f, 10, q)
		}
	}
}

func circle(centre sheet.Point, radius float64) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbCircle")
		point(f, 10, centre)
		f.WriteFloat(40, radius)
	}
}

func arc(a sheet.Arc) func(format.Formatter) {
	round := circle(a.Centre, a.Radius)
	return func(f format.Formatter) {
		round(f)
		f.WriteString(100, "AcDbArc")
		f.WriteFloat(50, a.From)
		f.WriteFloat(51, a.To)
	}
}

// solid is a filled triangle: arrowheads.
func solid(t []sheet.Point) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbTrace")
		for i, p := range []sheet.Point{t[0], t[1], t[2], t[2]} {
			point(f, 10+i, p)
		}
	}
}

func dot(p sheet.Point) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbPoint")
		point(f, 10, p)
	}
}

// leader is the arrow of a note; its lettering is an entity of its own, so that
// readers without associative notes show it too.
func leader(l sheet.Leader, style string) func(format.Formatter) {
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbLeader")
		f.WriteString(3, style)
		f.WriteInt(71, 1) // with an arrowhead
		f.WriteInt(72, 0) // straight
		f.WriteInt(73, 3) // without an attached note
		f.WriteInt(74, 0)
		f.WriteInt(75, 0)
		f.WriteInt(76, 2)
		point(f, 10, l.Tip)
		point(f, 10, l.Knee)
	}
}

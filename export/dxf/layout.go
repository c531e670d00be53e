package dxf

import (
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/handle"
	"github.com/yofu/dxf/object"

	"boxwalk/export/sheet"
)

// dictionary is a DICTIONARY that keeps its order and knows its owner.
type dictionary struct {
	handle int
	owner  handle.Handler
	keys   []string
	values []handle.Handler
}

func (d *dictionary) IsObject() bool      { return true }
func (d *dictionary) Handle() int         { return d.handle }
func (d *dictionary) SetHandle(next *int) { d.handle = *next; *next++ }

// Format writes the dictionary.
func (d *dictionary) Format(f format.Formatter) {
	f.WriteString(0, "DICTIONARY")
	f.WriteHex(5, d.handle)
	f.WriteHex(330, d.owner.Handle())
	f.WriteString(100, "AcDbDictionary")
	f.WriteInt(281, 1)
	for i, k := range d.keys {
		f.WriteString(3, k)
		f.WriteHex(350, d.values[i].Handle())
	}
}

// owned writes the owner that the library leaves out of one of its dictionaries.
type owned struct {
	object.Object
	owner handle.Handler
}

// Format writes the library's object with its owner put in.
func (o owned) Format(f format.Formatter) { o.Object.Format(ownerFormatter{f, o.owner}) }

type ownerFormatter struct {
	format.Formatter
	owner handle.Handler
}

func (p ownerFormatter) WriteString(code int, s string) {
	if code == 100 && s == "AcDbDictionary" {
		p.Formatter.WriteHex(330, p.owner.Handle())
	}
	p.Formatter.WriteString(code, s)
}

// layout is a LAYOUT object; size zero stands for model space.
type layout struct {
	handle        int
	owner         handle.Handler
	name          string
	order         int
	record        *record
	width, height float64 // of the paper, mm
	extent        sheet.Point
	media         string
	viewport      handle.Handler
}

func (l *layout) IsObject() bool      { return true }
func (l *layout) Handle() int         { return l.handle }
func (l *layout) SetHandle(next *int) { l.handle = *next; *next++ }

// Format writes the layout: plot settings first, then the layout itself.
func (l *layout) Format(f format.Formatter) {
	f.WriteString(0, "LAYOUT")
	f.WriteHex(5, l.handle)
	f.WriteHex(330, l.owner.Handle())
	l.plot(f)
	f.WriteString(100, "AcDbLayout")
	f.WriteString(1, l.name)
	f.WriteInt(70, 1)
	f.WriteInt(71, l.order)
	plane(f, 10, sheet.Point{})
	plane(f, 11, l.extent)
	point(f, 12, sheet.Point{})
	point(f, 14, sheet.Point{})
	point(f, 15, l.extent)
	f.WriteFloat(146, 0)
	point(f, 13, sheet.Point{})
	point(f, 16, sheet.Pt(1, 0))
	point(f, 17, sheet.Pt(0, 1))
	f.WriteInt(76, 0)
	f.WriteHex(330, l.record.handle)
	if l.viewport != nil {
		f.WriteHex(331, l.viewport.Handle())
	}
}

func (l *layout) plot(f format.Formatter) {
	zero := func(codes ...int) {
		for _, c := range codes {
			f.WriteFloat(c, 0)
		}
	}
	f.WriteString(100, "AcDbPlotSettings")
	f.WriteString(1, "")
	f.WriteString(2, "none_device")
	f.WriteString(4, l.media)
	f.WriteString(6, "")
	zero(40, 41, 42, 43)
	f.WriteFloat(44, l.width)
	f.WriteFloat(45, l.height)
	zero(46, 47, 48, 49, 140, 141)
	f.WriteFloat(142, 1)
	f.WriteFloat(143, 1)
	flags := 688 // plot with styles and line widths, paper space first
	if l.width == 0 {
		flags = 1712 // and this is model space
	}
	f.WriteInt(70, flags)
	f.WriteInt(72, 1) // mm
	f.WriteInt(73, 0)
	f.WriteInt(74, 5) // plot the layout
	f.WriteString(7, "")
	f.WriteInt(75, 16) // 1:1
	f.WriteFloat(147, 1)
	zero(148, 149)
}

// viewport writes a VIEWPORT that covers a paper of the given size from its
// centre and shows model space around centre*scale. Number 1 is the paper itself.
func viewport(number int, width, height, scale float64) func(format.Formatter) {
	centre := sheet.Pt(width/2, height/2)
	return func(f format.Formatter) {
		f.WriteString(100, "AcDbViewport")
		point(f, 10, centre)
		f.WriteFloat(40, width)
		f.WriteFloat(41, height)
		f.WriteInt(68, number)
		f.WriteInt(69, number)
		plane(f, 12, centre.Mul(scale))
		plane(f, 13, sheet.Point{})
		plane(f, 14, sheet.Pt(10, 10))
		plane(f, 15, sheet.Pt(10, 10))
		plane(f, 16, sheet.Point{})
		f.WriteFloat(36, 1) // seen from above
		point(f, 17, sheet.Point{})
		f.WriteFloat(42, 50)
		f.WriteFloat(43, 0)
		f.WriteFloat(44, 0)
		f.WriteFloat(45, height*scale)
		f.WriteFloat(50, 0)
		f.WriteFloat(51, 0)
		f.WriteInt(72, 1000)
		flags := 32768 + 16384 // on, its scale locked
		if number == 1 {
			flags = 32768 + 64
		}
		f.WriteInt(90, flags)
		f.WriteString(1, "")
		f.WriteInt(281, 0)
		f.WriteInt(71, 1)
		f.WriteInt(74, 0)
		point(f, 110, sheet.Point{})
		point(f, 111, sheet.Pt(1, 0))
		point(f, 112, sheet.Pt(0, 1))
		f.WriteInt(79, 0)
		f.WriteFloat(146, 0)
	}
}

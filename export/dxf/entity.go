package dxf

import (
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/handle"
	"github.com/yofu/dxf/table"

	"boxwalk/export/sheet"
)

// drawn is an entity of any kind: what all kinds share is written here, the
// rest by body. It satisfies the library's entity.Entity.
type drawn struct {
	kind     string
	body     func(f format.Formatter)
	handle   int
	owner    handle.Handler // BLOCK_RECORD of the space or block it lies in
	layer    *table.Layer
	override override
	paper    bool
}

// override gives an entity a line type, colour and width of its own where its
// layer has other ones, because an office mapped several of our layers to one of
// its own. Zero values leave the layer's.
type override struct {
	lineType     string
	color, width int
}

func (o override) format(f format.Formatter) {
	if o.lineType != "" {
		f.WriteString(6, o.lineType)
	}
	if o.color != 0 {
		f.WriteInt(62, o.color)
	}
	if o.width != 0 {
		f.WriteInt(370, o.width)
	}
}

func (e *drawn) IsEntity() bool                  { return true }
func (e *drawn) Handle() int                     { return e.handle }
func (e *drawn) SetHandle(next *int)             { e.handle = *next; *next++ }
func (e *drawn) SetBlockRecord(h handle.Handler) { e.owner = h }
func (e *drawn) Layer() *table.Layer             { return e.layer }
func (e *drawn) SetLayer(l *table.Layer)         { e.layer = l }
func (e *drawn) SetLtscale(float64)              {}

// BBox is unused: the header's extents are those of the sheet.
func (e *drawn) BBox() ([]float64, []float64) { return []float64{0, 0, 0}, []float64{0, 0, 0} }

// Format writes the entity.
func (e *drawn) Format(f format.Formatter) {
	f.WriteString(0, e.kind)
	f.WriteHex(5, e.handle)
	f.WriteHex(330, e.owner.Handle())
	f.WriteString(100, "AcDbEntity")
	if e.paper {
		f.WriteInt(67, 1)
	}
	f.WriteString(8, e.layer.Name())
	e.override.format(f)
	e.body(f)
}

// point writes a place in the plane under the group codes code, +10 and +20.
func point(f format.Formatter, code int, p sheet.Point) {
	plane(f, code, p)
	f.WriteFloat(code+20, 0)
}

// plane writes a place under the group codes code and +10 only.
func plane(f format.Formatter, code int, p sheet.Point) {
	f.WriteFloat(code, p[0])
	f.WriteFloat(code+10, p[1])
}

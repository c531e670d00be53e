package dxf

import (
	"fmt"
	"math"
	"strings"

	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/handle"

	"boxwalk/export/sheet"
)

// dimStyle is a DIMSTYLE record: sizes in mm of paper, enlarged by scale, and
// the factor from what is measured in model space to what is lettered.
type dimStyle struct {
	name   string
	handle int
	owner  handle.Handler
	style  handle.Handler // text style
	scale  float64
	size   float64 // of the lettering, mm of paper
	factor float64
	units  sheet.Units
}

func (d *dimStyle) IsSymbolTable() bool       { return true }
func (d *dimStyle) Handle() int               { return d.handle }
func (d *dimStyle) SetHandle(next *int)       { d.handle = *next; *next++ }
func (d *dimStyle) SetOwner(h handle.Handler) { d.owner = h }
func (d *dimStyle) Name() string              { return d.name }

// variable is a dimension variable with its group code in a DIMSTYLE and its
// name in the header; whole says that it is an integer.
type variable struct {
	code  int
	name  string
	value float64
	whole bool
}

// variables are in rising order of group codes. The proportions are those of
// the drawn dimension in package sheet.
func (d *dimStyle) variables() []variable {
	unit, decimals, zeros := 2.0, float64(d.units.Decimals), 8.0
	if d.units.Imperial {
		unit, decimals, zeros = 4, 4, 3 // feet and inches, sixteenths, keep 0'
	}
	return []variable{
		{40, "$DIMSCALE", d.scale, false},
		{41, "$DIMASZ", d.size, false},
		{42, "$DIMEXO", 0.4 * d.size, false},
		{43, "$DIMDLI", 3 * d.size, false},
		{44, "$DIMEXE", 0.8 * d.size, false},
		{73, "$DIMTIH", 0, true},
		{74, "$DIMTOH", 0, true},
		{77, "$DIMTAD", 1, true}, // above the line
		{78, "$DIMZIN", zeros, true},
		{140, "$DIMTXT", d.size, false},
		{141, "$DIMCEN", 0, false},
		{144, "$DIMLFAC", d.factor, false},
		{147, "$DIMGAP", 0.4 * d.size, false},
		{172, "$DIMTOFL", 1, true}, // line between the extension lines always
		{271, "$DIMDEC", decimals, true},
		{277, "$DIMLUNIT", unit, true},
		{278, "$DIMDSEP", '.', true},
		{279, "$DIMTMOVE", 2, true}, // text that stands aside leaves the line in place
	}
}

// Format writes the record.
func (d *dimStyle) Format(f format.Formatter) {
	f.WriteString(0, "DIMSTYLE")
	f.WriteHex(105, d.handle)
	f.WriteHex(330, d.owner.Handle())
	f.WriteString(100, "AcDbSymbolTableRecord")
	f.WriteString(100, "AcDbDimStyleTableRecord")
	f.WriteString(2, d.name)
	f.WriteInt(70, 0)
	for _, v := range d.variables() {
		v.write(f, v.code)
	}
	f.WriteHex(340, d.style.Handle())
}

func (v variable) write(f format.Formatter, code int) {
	if v.whole {
		f.WriteInt(code, int(v.value))
		return
	}
	f.WriteFloat(code, v.value)
}

// measured is a dimension in model space with what its entity needs to say.
type measured struct {
	from, to, line, text sheet.Point // line: end of the dimension line at to
	angle                float64
	block, style, says   string
	aside                bool
}

// value is what a reader measures between the points, mm of model space.
func (m measured) value() float64 {
	sin, cos := math.Sincos(m.angle * math.Pi / 180)
	return math.Abs(m.to.Sub(m.from).Dot(sheet.Pt(cos, sin)))
}

// aligned reports whether the dimension measures the straight distance in a
// direction that is neither level nor upright.
func (m measured) aligned() bool {
	d := m.to.Sub(m.from)
	return math.Abs(d.Len()-m.value()) < 1e-9*d.Len() && math.Mod(m.angle, 90) != 0
}

func (m measured) entity(f format.Formatter) {
	kind := 32 // the block belongs to this dimension alone; rotated
	if m.aligned() {
		kind |= 1
	}
	if m.aside {
		kind |= 128 // the text keeps its place
	}
	f.WriteString(100, "AcDbDimension")
	f.WriteString(2, m.block)
	point(f, 10, m.line)
	point(f, 11, m.text)
	f.WriteInt(70, kind)
	f.WriteInt(71, 5)
	f.WriteInt(72, 2)
	f.WriteFloat(41, 1)
	f.WriteFloat(42, m.value())
	f.WriteString(1, m.says)
	f.WriteString(3, m.style)
	f.WriteString(100, "AcDbAlignedDimension")
	point(f, 13, m.from)
	point(f, 14, m.to)
	if !m.aligned() {
		f.WriteFloat(50, m.angle)
		f.WriteString(100, "AcDbRotatedDimension")
	}
}

// says is the text of a DIMENSION. Where every reader letters the measured
// value alike it is left to them, so that it follows when the drawing is
// stretched. Some readers ignore DIMLFAC of a style, and each letters feet and
// inches its own way: there the value stands in the file, so that all show the same.
func (d *document) says(dim sheet.Dimension, k float64) string {
	// A suffix must not bring in the value a second time.
	plain := func(s string) string { return strings.ReplaceAll(escapeLines([]string{s}), "<>", "< >") }
	if k != 1 || d.sheet.Units.Imperial {
		return plain(d.sheet.Label(dim))
	}
	if suffix := dim.PrintedSuffix(); suffix != "" {
		return "<>" + plain(suffix)
	}
	return ""
}

// dimension adds a dimension with the block that shows it. at carries the
// view's model into model space.
func (d *document) dimension(dim sheet.Dimension, v *sheet.View, k float64) {
	shown := d.sheet.Draw(dim, v.Scale)
	at := func(p sheet.Point) sheet.Point { return p.Mul(k).Add(v.Shift.Mul(d.scale)) }
	block := d.newBlock(fmt.Sprintf("*D%d", d.dimensions))
	d.dimensions++
	into := space{d, block}
	for _, i := range sheet.Placed(shown.Items(), k, v.Shift.Mul(d.scale)) {
		into.dimensionPart(i)
	}
	for _, p := range []sheet.Point{dim.From, dim.To, shown.End} {
		into.add("POINT", d.defpoints, override{}, dot(at(p)))
	}
	m := measured{from: at(dim.From), to: at(dim.To), line: at(shown.End), text: at(shown.Text.At), angle: dim.Angle,
		block: block.name, style: d.dimStyle(v).name, says: d.says(dim, k), aside: shown.Outside}
	layer, own := d.layer(dim.On)
	d.model().add("DIMENSION", layer, own, m.entity)
}

package dxf

import (
	"github.com/yofu/dxf/format"

	"boxwalk/export/sheet"
)

// header writes the HEADER section. Some readers draw dimensions from it and
// ignore dimension styles, so it repeats the sheet's style.
func (d *document) header(f format.Formatter, seed int) {
	w, h := d.sheet.Paper.Size()
	extent := sheet.Pt(w, h).Mul(d.scale)
	f.WriteString(0, "SECTION")
	f.WriteString(2, "HEADER")
	name := func(n string) { f.WriteString(9, n) }
	name("$ACADVER")
	f.WriteString(1, "AC1021") // text is UTF-8
	name("$DWGCODEPAGE")
	f.WriteString(3, "ANSI_1252")
	name("$INSBASE")
	point(f, 10, sheet.Point{})
	name("$EXTMIN")
	point(f, 10, sheet.Point{})
	name("$EXTMAX")
	point(f, 10, extent)
	name("$LIMMIN")
	plane(f, 10, sheet.Point{})
	name("$LIMMAX")
	plane(f, 10, extent)
	for _, v := range []struct {
		name  string
		value int
	}{
		{"$INSUNITS", 4}, {"$MEASUREMENT", 1}, {"$LUNITS", 2}, {"$LUPREC", 1}, {"$PSLTSCALE", 1}, {"$TILEMODE", 1}, {"$LWDISPLAY", 1},
	} {
		name(v.name)
		code := 70
		if v.name == "$LWDISPLAY" {
			code = 290
		}
		f.WriteInt(code, v.value)
	}
	name("$LTSCALE")
	f.WriteFloat(40, d.scale) // line types are given in mm of paper
	name("$DIMSTYLE")
	f.WriteString(2, d.dimStyles[0].name)
	for _, v := range d.dimStyles[0].variables() {
		name(v.name)
		code := 40
		if v.whole {
			code = 70
		}
		v.write(f, code)
	}
	name("$HANDSEED")
	f.WriteHex(5, seed)
	f.WriteString(0, "ENDSEC")
}

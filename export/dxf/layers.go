package dxf

import (
	"math"
	"strings"

	"github.com/yofu/dxf/color"
	"github.com/yofu/dxf/table"

	"boxwalk/export/sheet"
)

// layerEntry is a layer in the file with the first of our layers that it stands for.
type layerEntry struct {
	layer *table.Layer
	first sheet.Layer
}

// lineTypeName uses the names under which readers know these line types. The
// file defines them; readers that ignore that take their own, of which those
// ending in 2 have short dashes.
func lineTypeName(t sheet.LineType) string {
	return [...]string{"Continuous", "DASHED2", "CENTER2", "DIVIDE2"}[t]
}

var lineTypeShows = [...]string{"Solid line", "Dashed _ _ _ _", "Long-dashed dotted __ . __ . __", "Long-dashed double-dotted __ . . __ . . __"}

func (d *document) addLineTypes() {
	types := d.table(table.LTYPE)
	types.Add(table.NewLineType("ByLayer", ""))
	types.Add(table.NewLineType("ByBlock", ""))
	for t := sheet.Continuous; t <= sheet.LongDashTwoDots; t++ {
		lengths := t.Dashes()
		for i := 1; i < len(lengths); i += 2 {
			lengths[i] = -lengths[i] // gaps
		}
		types.Add(table.NewLineType(lineTypeName(t), lineTypeShows[t], lengths...))
	}
}

// addLayers adds every layer of the sheet, used or not, so that all sheets of a
// job have the same list.
func (d *document) addLayers() {
	d.layers = map[string]layerEntry{}
	d.layers["0"] = layerEntry{d.newLayer("0", sheet.General.Style()), sheet.General}
	d.defpoints = d.newLayer("Defpoints", sheet.General.Style())
	for _, l := range sheet.Layers() {
		key := strings.ToUpper(d.sheet.LayerName(l))
		if _, ok := d.layers[key]; !ok {
			d.layers[key] = layerEntry{d.newLayer(d.sheet.LayerName(l), l.Style()), l}
		}
	}
}

func (d *document) newLayer(name string, st sheet.LayerStyle) *table.Layer {
	found, err := d.table(table.LTYPE).Contains(lineTypeName(st.Type))
	if err != nil {
		panic(err) // every line type has been added
	}
	l := table.NewLayer(name, color.ColorNumber(st.ACI), found.(*table.LineType))
	l.SetPlotStyle(d.PlotStyle)
	l.SetLineWidth(hundredths(st.Width))
	d.table(table.LAYER).Add(l)
	return l
}

func hundredths(mm float64) int { return int(math.Round(mm * 100)) }

// layer is the file's layer for one of ours, and what it does not bring along.
func (d *document) layer(l sheet.Layer) (*table.Layer, override) {
	e := d.layers[strings.ToUpper(d.sheet.LayerName(l))]
	want, has := l.Style(), e.first.Style()
	want.Name, has.Name = "", ""
	if want == has {
		return e.layer, override{}
	}
	return e.layer, override{lineTypeName(want.Type), want.ACI, hundredths(want.Width)}
}

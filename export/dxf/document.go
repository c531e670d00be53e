package dxf

import (
	"io"
	"sync"

	"github.com/yofu/dxf/drawing"
	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/object"
	"github.com/yofu/dxf/table"

	"boxwalk/export/sheet"
)

// document is one file being put together.
type document struct {
	*drawing.Drawing
	sheet      *sheet.Sheet
	scale      float64 // mm of model space to the mm of paper
	blocks     *blocks
	modelSpace *block
	layers     map[string]layerEntry // by upper-case name; only looked up, never ranged over
	defpoints  *table.Layer
	style      *table.Style
	dimStyles  []*dimStyle
	dimensions int
}

// libraryLock guards the library's shared tables, which every new drawing of
// its writes to. A document then has tables of its own.
var libraryLock sync.Mutex

func newDrawing() *drawing.Drawing {
	libraryLock.Lock()
	defer libraryLock.Unlock()
	d := drawing.New()
	for _, t := range []table.TableType{table.LTYPE, table.LAYER, table.STYLE, table.BLOCK_RECORD} {
		tables(d)[t].Clear()
	}
	return d
}

func tables(d *drawing.Drawing) table.Tables { return d.Sections[drawing.TABLES].(table.Tables) }

func newDocument(s *sheet.Sheet) *document {
	d := &document{Drawing: newDrawing(), sheet: s, scale: mainScale(s), blocks: &blocks{}}
	d.Sections[drawing.BLOCKS] = d.blocks
	d.addLineTypes()
	d.addStyle()
	d.addLayers()
	d.addActiveViewport()
	d.addSpaces()
	d.dimStyles = []*dimStyle{d.newDimStyle("Standard", 1)}
	return d
}

func (d *document) table(t table.TableType) *table.Table { return tables(d.Drawing)[t] }

func (d *document) addStyle() {
	d.style = table.NewStyle(textStyle)
	d.style.LastHeightUsed = d.sheet.LetteringHeight() * d.scale
	d.table(table.STYLE).Add(d.style)
}

func (d *document) addActiveViewport() {
	w, h := d.sheet.Paper.Size()
	v := table.NewViewport("*ACTIVE")
	v.ViewDirection = []float64{0, 0, 1}
	v.UpperRight = []float64{1, 1}
	v.SnapSpacing = []float64{10, 10}
	v.GridSpacing = []float64{10, 10}
	v.ViewCenter = []float64{w / 2 * d.scale, h / 2 * d.scale}
	v.Height = h * d.scale
	v.AspectRatio = w / h
	d.table(table.VPORT).Add(v)
}

// newBlock adds an empty block.
func (d *document) newBlock(name string) *block {
	r := &record{name: name}
	d.table(table.BLOCK_RECORD).Add(r)
	b := &block{name: name, record: r}
	d.blocks.list = append(d.blocks.list, b)
	return b
}

// addSpaces adds model space and one paper space, each with its layout. The
// library's root dictionary stays; one of its children gets its missing owner.
func (d *document) addSpaces() {
	old := d.Sections[drawing.OBJECTS].(object.Objects)
	root := old[0].(*object.Dictionary)
	layouts := &dictionary{owner: root}
	if err := root.AddItem("ACAD_LAYOUT", layouts); err != nil {
		panic(err) // a new drawing has no layouts
	}
	w, h := d.sheet.Paper.Size()
	d.modelSpace = d.newBlock("*Model_Space")
	paper := d.newBlock("*Paper_Space")
	paper.paper = true
	model := &layout{owner: layouts, name: "Model", record: d.modelSpace.record}
	plot := &layout{owner: layouts, name: "Sheet", order: 1, record: paper.record, width: w, height: h, extent: sheet.Pt(w, h)}
	d.modelSpace.record.layout, paper.record.layout = model, plot
	layouts.keys = []string{model.name, plot.name}
	layouts.values = append(layouts.values, model, plot)
	d.Sections[drawing.OBJECTS] = object.Objects{old[0], old[1], old[2], owned{old[3], root}, layouts, model, plot}
	plot.viewport = d.addViewports(paper, w, h)
}

// addViewports puts the paper's own viewport and the one that shows the sheet
// into paper space, whose entities lie in the ENTITIES section.
func (d *document) addViewports(paper *block, w, h float64) *drawn {
	own := &drawn{kind: "VIEWPORT", owner: paper.record, layer: d.layers["0"].layer, paper: true, body: viewport(1, w, h, 1)}
	shown := &drawn{kind: "VIEWPORT", owner: paper.record, layer: d.defpoints, paper: true, body: viewport(2, w, h, d.scale)}
	d.AddEntity(own)
	d.AddEntity(shown)
	return own
}

// write numbers everything and writes it. The library's own writer is not
// used: its header and its precision are fixed.
func (d *document) write(w io.Writer) error {
	next := 1
	for _, s := range d.Sections[1:] {
		s.SetHandle(&next)
	}
	f := format.NewASCII()
	f.SetPrecision(precision)
	d.header(f, next)
	for _, s := range d.Sections[1:] {
		s.Format(f)
	}
	f.WriteString(0, "EOF")
	_, err := f.WriteTo(w)
	return err
}

// precision is the number of decimals of a millimetre. A coordinate of 100 km
// with eight decimals still has its sixteen digits.
const precision = 8

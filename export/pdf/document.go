package pdf

import (
	"bytes"
	"io"

	"github.com/go-pdf/fpdf"
)

// alarm is the colour of what must be seen, dark enough on white.
var alarm = [3]int{160, 0, 0}

// document is a PDF being written, in points.
type document struct {
	*fpdf.Fpdf
}

// newDocument begins a document of a title. It has no date of its own: what stands in it
// is that of a day far back, the same in every document, so that the same input gives
// the same bytes.
func newDocument(title, producer string) document {
	p := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", SizeStr: "A4"})
	onDay(p.SetCreationDate, "2000-01-01T00:00:00Z")
	onDay(p.SetModificationDate, "2000-01-01T00:00:00Z")
	p.SetCatalogSort(true)
	p.SetLang("en")
	p.SetTitle(printable(title), true)
	p.SetProducer(printable(producer), true)
	p.SetAutoPageBreak(false, 0)
	p.SetMargins(0, 0, 0)
	p.SetCellMargin(0)
	addFonts(p)
	p.SetFont(family, regular, 10)
	return document{p}
}

// onDay sets a date from its text, without a clock at hand.
func onDay[T any, P interface {
	*T
	UnmarshalText([]byte) error
}](set func(T), text string) {
	var day T
	if err := P(&day).UnmarshalText([]byte(text)); err != nil {
		panic("pdf: " + err.Error())
	}
	set(day)
}

// write ends the document.
func (d document) write(w io.Writer) error {
	var b bytes.Buffer
	if err := d.Output(&b); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

// letters sets a text with its base line at y.
func (d document) letters(x, y float64, text, style string, size float64) {
	d.SetFont(family, style, size)
	d.Text(x, y, printable(text))
}

// wide is how wide a text is.
func (d document) wide(text, style string, size float64) float64 {
	d.SetFont(family, style, size)
	return d.GetStringWidth(printable(text))
}

// ink sets the colour of letters, lines and areas.
func (d document) ink(rgb [3]int) {
	d.SetTextColor(rgb[0], rgb[1], rgb[2])
	d.SetDrawColor(rgb[0], rgb[1], rgb[2])
}

var black [3]int

// grey is a tone from 0, black, to 1.
func grey(v float64) [3]int { n := int(255*v + 0.5); return [3]int{n, n, n} }

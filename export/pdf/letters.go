package pdf

import (
	"strings"
	"sync"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// family is the name under which a document has the fonts.
const family = "Go"

// font styles, as fpdf names them.
const (
	regular = ""
	bold    = "B"
	italic  = "I"
)

func addFonts(p *fpdf.Fpdf) {
	p.AddUTF8FontFromBytes(family, regular, goregular.TTF)
	p.AddUTF8FontFromBytes(family, bold, gobold.TTF)
	p.AddUTF8FontFromBytes(family, italic, goitalic.TTF)
}

// regularFont tells which letters there are; the other styles have the same.
var regularFont = sync.OnceValue(func() *sfnt.Font {
	f, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		panic("pdf: the font cannot be read: " + err.Error())
	}
	return f
})

// printable is a text of letters that the fonts have, on one line.
func printable(text string) string {
	var b sfnt.Buffer
	f := regularFont()
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == 0xa0:
			return ' '
		case r < ' ' || r == 0x7f:
			return -1
		}
		if g, err := f.GlyphIndex(&b, r); err != nil || g == 0 || r > 0xffff {
			return '?'
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
}

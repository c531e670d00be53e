package align

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"boxwalk/model/diag"
)

// landXML is the namespace of LandXML 1.2, the only version that is read.
const landXML = "http://www.landxml.org/schema/LandXML-1.2"

// What is read of a file, all judgement: far more than any line needs, and
// little enough to be read in a second or two.
const (
	mostText     = 64 << 20 // bytes
	mostDepth    = 64       // of elements in each other
	mostWords    = 256      // bytes of a point
	mostProblems = 100
)

// ReadLandXML reads one alignment of a LandXML 1.2 file: the one of that name,
// or with an empty name the only one. The file name is used in places only.
//
// Points are northing, easting and, not looked at, elevation. Directions come
// from the points and from rot; the attributes dir, dirStart and dirEnd do not
// mean the same in every file and are not looked at. A curve that has a PI only
// lies between the tangents from the point before and to the point behind.
// Lengths and radii that are given besides are held against the points. The
// profile is that of the alignment's one ProfAlign; where it is shorter than
// the plan, a warning says so and the alignment ends with it.
//
// What would move the alignment and is not understood – spirals, chains of points,
// station equations, unsymmetrical and circular vertical curves, unknown
// elements – is an error with its place, never skipped; so are entities,
// another namespace, and text beyond bounds on size, depth and number. The
// alignment is nil if any problem is an error. Crossfall is not in the file:
// it is zero; set it with WithCrossfall.
func ReadLandXML(file string, text []byte, name string) (*Alignment, diag.Problems) {
	r := &reader{file: file, text: text, want: name}
	if len(text) > mostText {
		r.failAt(diag.Place{File: file}, fmt.Sprintf("the file has %d bytes", len(text)), fmt.Sprintf("at most %d are read: export the alignments alone, without surfaces", mostText))
		return nil, r.problems
	}
	r.document()
	chosen := r.choose()
	if chosen == nil {
		return nil, r.sorted()
	}
	a := r.build(chosen)
	if r.problems.HasErrors() {
		return nil, r.sorted()
	}
	return a, r.sorted()
}

// WithCrossfall is the same line with a crossfall, positive falling to the
// right, or the fault in it.
func (a *Alignment) WithCrossfall(fall float64) (*Alignment, diag.Problems) {
	var c checker
	if !c.within("crossfall", fall, -mostFall, mostFall, "%") {
		return nil, c.faults
	}
	other := *a
	other.crossfall = fall
	return &other, nil
}

// reader goes through one file token by token and keeps only what lies in its
// alignments.
type reader struct {
	file     string
	text     []byte
	want     string
	d        *xml.Decoder
	depth    int
	before   diag.Place // of the token last read
	metres   float64    // per unit of length; 0 until Units has been read
	names    []string
	found    []*rawAlignment
	problems diag.Problems
	dropped  int
	stopped  bool
}

func (r *reader) add(p diag.Problem) {
	if len(r.problems) >= mostProblems {
		r.dropped++
		return
	}
	r.problems = append(r.problems, p)
}

func (r *reader) failAt(at diag.Place, summary, fix string) {
	r.add(diag.Problem{Place: at, Summary: summary, Fix: fix})
}

func (r *reader) warnAt(at diag.Place, summary, fix string) {
	r.add(diag.Problem{Place: at, Severity: diag.Warning, Summary: summary, Fix: fix})
}

func (r *reader) sorted() diag.Problems {
	list := r.problems.Sorted()
	if r.dropped > 0 {
		list = append(list, diag.Problem{Place: diag.Place{File: r.file}, Summary: fmt.Sprintf("%d more problems are not listed", r.dropped), Fix: "fix the ones above first"})
	}
	return list
}

// next is the next token, or nil at the end and once reading has stopped.
func (r *reader) next() xml.Token {
	if r.stopped {
		return nil
	}
	r.before = r.place()
	t, err := r.d.Token()
	switch {
	case err == io.EOF:
		return nil
	case err != nil:
		r.stop(r.place(), "this is no well-formed XML: "+plainError(err), fixOf(r.text, err))
		return nil
	}
	switch t := t.(type) {
	case xml.StartElement:
		if r.depth++; r.depth > mostDepth {
			r.stop(r.before, fmt.Sprintf("elements lie in each other more than %d deep", mostDepth), "export the alignments alone")
			return nil
		}
	case xml.EndElement:
		r.depth--
	case xml.Directive:
		r.stop(r.before, "a document type or entity declaration ("+short(string(t))+") is not read", "take it out: LandXML needs none")
		return nil
	}
	return t
}

func (r *reader) stop(at diag.Place, summary, fix string) {
	r.stopped = true
	r.failAt(at, summary, fix)
}

// place is where the next token begins.
func (r *reader) place() diag.Place {
	line, column := r.d.InputPos()
	return diag.Place{File: r.file, Line: line, Column: r.characters(line, column)}
}

// characters turns a column in bytes into one in characters. On a line too
// long to be read by a person it stays one in bytes.
func (r *reader) characters(line, column int) int {
	end := int(r.d.InputOffset())
	from := end - (column - 1)
	if from < 0 || from > end || end > len(r.text) || column > 1<<12 {
		return column
	}
	return utf8.RuneCount(r.text[from:end]) + 1
}

// document reads the whole file.
func (r *reader) document() {
	r.d = xml.NewDecoder(bytes.NewReader(r.text))
	r.d.CharsetReader = latin
	root := false
	for t := r.next(); t != nil; t = r.next() {
		if text, ok := t.(xml.CharData); ok && r.depth == 0 {
			r.beside(text, root)
		}
		e, ok := t.(xml.StartElement)
		switch {
		case !ok:
			continue
		case !root:
			root = true
			r.root(e)
		case r.depth == 1:
			r.stop(r.before, "there is a second root element, <"+short(e.Name.Local)+">", "one file holds one <LandXML>: take out what follows its end")
		case e.Name.Local == "Units":
			r.units()
		case e.Name.Local == "Alignments" && r.own(e):
			r.alignments()
		default:
			r.pass()
		}
	}
	if !root && !r.stopped {
		r.stop(diag.Place{File: r.file}, "there is no XML element in the file", "give a LandXML 1.2 file, or write plan and profile in the job")
	}
}

// beside refuses text beside the root element, which XML has no room for (XML
// 1.0, production 1); a mark of the byte order may stand before everything.
func (r *reader) beside(text xml.CharData, behind bool) {
	if !behind && r.before.Line == 1 && r.before.Column == 1 {
		text = bytes.TrimPrefix(text, []byte("\ufeff"))
	}
	text = bytes.TrimLeft(text, whiteSpace)
	text, _, _ = bytes.Cut(text, []byte("\n"))
	switch {
	case len(text) == 0:
	case behind:
		r.stop(r.before, fmt.Sprintf("after the end of the root element stands %q", short(string(text))), "take it out: nothing follows </LandXML>")
	default:
		r.stop(r.before, fmt.Sprintf("before the root element stands %q", short(string(text))), "give a LandXML 1.2 file, or write plan and profile in the job")
	}
}

func (r *reader) root(e xml.StartElement) {
	switch {
	case e.Name.Local != "LandXML":
		r.stop(r.before, "the file is a "+short(e.Name.Local)+", no LandXML", "give a LandXML 1.2 file, or write plan and profile in the job")
	case e.Name.Space != landXML:
		space := "no namespace"
		if e.Name.Space != "" {
			space = "the namespace " + short(e.Name.Space)
		}
		r.stop(r.before, "the file has "+space+"; read is LandXML 1.2, "+landXML, "export it as LandXML 1.2")
	}
}

// own reports an element of another namespace.
func (r *reader) own(e xml.StartElement) bool {
	if e.Name.Space == landXML {
		return true
	}
	r.failAt(r.before, fmt.Sprintf("<%s> is of the namespace %s, not of LandXML 1.2", short(e.Name.Local), short(e.Name.Space)), "export the alignment as LandXML 1.2 alone")
	return false
}

// pass goes to the end of the element that has just begun.
func (r *reader) pass() {
	for depth := r.depth; r.depth >= depth; {
		if r.next() == nil {
			return
		}
	}
}

// children calls do for each element in the one that has just begun; do must
// read it to its end.
func (r *reader) children(do func(e xml.StartElement, at diag.Place)) {
	for depth := r.depth; r.depth >= depth; {
		t := r.next()
		if t == nil {
			return
		}
		if e, ok := t.(xml.StartElement); ok {
			do(e, r.before)
		}
	}
}

// words is the text in the element that has just begun, which must hold no
// other element.
func (r *reader) words() string {
	var text []byte
	at, long := r.before, false
	for depth := r.depth; r.depth >= depth; {
		switch t := r.next().(type) {
		case nil:
			return ""
		case xml.CharData:
			if long = long || len(text)+len(t) > mostWords; !long {
				text = append(text, t...)
			}
		case xml.StartElement:
			r.failAt(r.before, fmt.Sprintf("<%s> is not expected here", short(t.Name.Local)), "two or three numbers are")
			r.pass()
		}
	}
	if long {
		r.failAt(at, fmt.Sprintf("has more than %d characters; two or three numbers are expected", mostWords), "a point is northing, easting and, if wanted, elevation")
		return ""
	}
	return string(text)
}

// latin reads the one-byte encodings that files still come in; outside of ASCII
// they differ in names only.
func latin(charset string, in io.Reader) (io.Reader, error) {
	switch strings.ToLower(charset) {
	case "us-ascii", "ascii", "iso-8859-1", "iso-8859-15", "latin1", "windows-1252":
		return &bytewise{in: in}, nil
	}
	return nil, unreadEncoding(charset)
}

// bytewise takes each byte for the character of that number.
type bytewise struct {
	in   io.Reader
	rest []byte
}

func (b *bytewise) Read(p []byte) (int, error) {
	if len(b.rest) == 0 {
		var in [512]byte
		n, err := b.in.Read(in[:])
		for _, c := range in[:n] {
			b.rest = utf8.AppendRune(b.rest, rune(c))
		}
		if n == 0 {
			return 0, err
		}
	}
	n := copy(p, b.rest)
	b.rest = b.rest[n:]
	return n, nil
}

// short is a text fit for a message.
func short(text string) string {
	if runes := []rune(strings.ToValidUTF8(text, "?")); len(runes) > 80 {
		return string(runes[:80]) + "…"
	}
	return strings.ToValidUTF8(text, "?")
}

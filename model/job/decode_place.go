package job

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"boxwalk/model/diag"
	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// Decoded remembers where each value of a text stands. A path names a value by
// its keys, list items counted from zero: culvert.pours[2], set.gauge.
type Decoded struct {
	file   string
	system units.System
	spots  map[string]spot
	keys   map[string][]string
}

// spot is a marked piece of one line.
type spot struct {
	place  diag.Place
	width  int
	source string
	text   string
}

// System returns the units that numbers without one were read in.
func (d *Decoded) System() units.System { return d.system }

// Given tells whether the text itself has the value, rather than a default.
func (d *Decoded) Given(path string) bool {
	_, ok := d.spots[path]
	return ok
}

// Place returns where a value stands. A value that the text does not have has
// the place of the nearest group of keys around it; the file as a whole when
// there is none.
func (d *Decoded) Place(path string) diag.Place { return d.spot(path).place }

// Text returns a scalar value as it was written, "" for anything else.
func (d *Decoded) Text(path string) string { return d.spots[path].text }

// Keys returns the keys of a mapping in the order written, so that the entries
// of a Go map can be reported in order.
func (d *Decoded) Keys(path string) []string { return slices.Clone(d.keys[path]) }

// Put gives a problem the place in the text of the value that its key names, and
// says the key in front of what is wrong.
func (d *Decoded) Put(p diag.Problem) diag.Problem {
	return d.spot(p.Key).problem(p.Key, p.Summary, p.Detail, p.Fix)
}

func (s spot) problem(path, summary, detail, fix string) diag.Problem {
	if path != "" {
		summary = said(path) + ": " + summary
	}
	return diag.Problem{Place: s.place, Width: s.width, Source: s.source, Summary: summary, Detail: detail, Fix: fix}
}

func (d *Decoded) spot(path string) spot {
	for {
		if s, ok := d.spots[path]; ok {
			return s
		}
		if path == "" {
			return spot{place: diag.Place{File: d.file}}
		}
		path = parent(path)
	}
}

// parent cuts the last key or item off a path.
func parent(path string) string {
	return path[:max(0, strings.LastIndexAny(path, ".["))]
}

// joined appends a key to a path.
func joined(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// item appends the index of a list item, from zero, to a path.
func item(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }

// said is a path for people, who count items from one: culvert.pours #3.
func said(path string) string {
	var out strings.Builder
	for path != "" {
		open := strings.IndexByte(path, '[')
		length := strings.IndexByte(path[open+1:], ']')
		if open < 0 || length < 0 {
			break
		}
		index, err := strconv.Atoi(path[open+1 : open+1+length])
		if err != nil {
			break
		}
		out.WriteString(path[:open] + " #" + strconv.Itoa(index+1))
		path = path[open+length+2:]
	}
	return cut(out.String()+path, 80)
}

// record notes where a value stands. A block of keys or items has the place of
// its key, which says more than that of its first line.
func (d *Decoder) record(path string, n ast.Node) {
	if d.quiet {
		return
	}
	d.decoded.spots[path] = d.spotOf(n)
	var keys []string
	for _, pair := range pairsOf(n) {
		keys = append(keys, keyText(pair))
	}
	d.decoded.keys[path] = keys
}

// spotOf finds the place of a node.
func (d *Decoder) spotOf(n ast.Node) spot {
	text, scalar := scalarText(n)
	tk := firstToken(n)
	if !scalar && !bracketed(n) {
		if key, ok := d.keyOf[n]; ok {
			tk = key.GetToken()
		}
	}
	s := d.spotOfToken(tk)
	s.text = text
	return s
}

func (d *Decoder) spotOfToken(tk *token.Token) spot {
	place := d.placeOf(tk)
	s := spot{place: place, width: utf8.RuneCountInString(tk.Value), source: d.line(place.Line)}
	if isQuoted(tk) {
		s.width += 2
	}
	return s
}

// placeOf is where a token begins. The lexer is off by the blanks at the end of
// a line, and by more in a plain text of several lines; where the text does not
// stand at its position it is looked for behind the token before.
func (d *Decoder) placeOf(tk *token.Token) diag.Place {
	at := diag.Place{File: d.file, Line: tk.Position.Line, Column: tk.Position.Column}
	if isQuoted(tk) || strings.HasPrefix(from(d.line(at.Line), at.Column), tk.Value) {
		return at
	}
	first := firstWord(tk.Value)
	line, column := behind(tk.Prev)
	for ; line <= at.Line; line++ {
		rest := from(d.line(line), column)
		if found := strings.Index(rest, first); found >= 0 {
			return diag.Place{File: d.file, Line: line, Column: column + utf8.RuneCountInString(rest[:found])}
		}
		column = 1
	}
	return at
}

// behind is where the text after a token may begin at the earliest.
func behind(tk *token.Token) (line, column int) {
	switch {
	case tk == nil:
		return 1, 1
	case tk.Type == token.CommentType:
		return tk.Position.Line + 1, 1
	case tk.Type == token.DocumentHeaderType:
		return tk.Position.Line, tk.Position.Column + len("---")
	}
	return tk.Position.Line, tk.Position.Column + 1
}

// from is a line from a column on, in characters from one.
func from(line string, column int) string {
	for i := range line {
		if column--; column <= 0 {
			return line[i:]
		}
	}
	return ""
}

// firstToken is the token that a node begins with.
func firstToken(n ast.Node) *token.Token {
	if pairs := pairsOf(n); len(pairs) > 0 && !bracketed(n) {
		return pairs[0].Key.GetToken()
	}
	return n.GetToken()
}

// bracketed tells whether a node begins with a bracket of its own.
func bracketed(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.MappingNode:
		return n.IsFlowStyle
	case *ast.SequenceNode:
		return n.IsFlowStyle
	}
	return false
}

// firstWord is a text up to its first blank or line break.
func firstWord(text string) string {
	if end := strings.IndexAny(text, " \t\n"); end >= 0 {
		return text[:end]
	}
	return text
}

package job

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"boxwalk/model/diag"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// The bounds on a text, judgement: a large job has 500 lines and 5000 tokens.
// They also bound the time: the parser's time grows with the square of the
// tokens in one mapping and of the empty lines in one block text; a text that
// uses up each bound takes a few tenths of a second.
const (
	mostBytes  = 1 << 20
	mostLines  = 10000
	mostInLine = 20000 // characters
	mostTokens = 20000
	mostDepth  = 32
)

// tooLong is the fix for all of these.
const tooLong = "a large job has 500 lines: see whether this is the right file"

// load turns the text into a tree that is safe to walk, or reports why not and
// returns nil.
func (d *Decoder) load(text []byte) ast.Node {
	if len(text) > mostBytes {
		d.refuse(diag.Place{}, fmt.Sprintf("the file has more than %d bytes; no more are read", mostBytes), tooLong)
		return nil
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	d.lines = splitLines(string(text))
	if !d.plainText(text) || !d.linesFit() || !d.withoutTabs() {
		return nil
	}
	// the parser counts some CR LF endings twice, so it gets LF only
	tree, err := parsed(strings.Join(d.lines, "\n"), d.tokensAllowed)
	if err != nil {
		d.syntaxProblem(err)
		return nil
	}
	if tree == nil {
		return nil
	}
	return d.body(tree)
}

// splitLines splits at LF, CR LF and CR, the line endings of YAML.
func splitLines(text string) []string {
	return strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), "\n")
}

// linesFit refuses too many lines and lines that are too long.
func (d *Decoder) linesFit() bool {
	if len(d.lines) > mostLines {
		d.refuse(diag.Place{}, fmt.Sprintf("the file has %d lines; at most %d are read", len(d.lines), mostLines), tooLong)
		return false
	}
	for i, line := range d.lines {
		if n := utf8.RuneCountInString(line); n > mostInLine {
			d.refuse(diag.Place{Line: i + 1}, fmt.Sprintf("a line of %d characters; at most %d are read", n, mostInLine), tooLong)
			return false
		}
	}
	return true
}

// plainText refuses what is no UTF-8 text or hides something in it.
func (d *Decoder) plainText(text []byte) bool {
	at, why := firstBad(text)
	if why == "" {
		return true
	}
	before := splitLines(string(text[:at]))
	last := before[len(before)-1]
	d.refuse(diag.Place{Line: len(before), Column: utf8.RuneCountInString(last) + 1}, why, "save the file as plain UTF-8 text")
	return false
}

// withoutTabs refuses tabs outside comments: YAML forbids them in an indent, and
// the parser drops one inside a plain text, so that 3<tab>00 would be 300.
func (d *Decoder) withoutTabs() bool {
	before := d.count()
	for i, line := range d.lines {
		if at := strings.IndexByte(line, '\t'); at >= 0 && !inComment(line[:at]) {
			place := diag.Place{Line: i + 1, Column: utf8.RuneCountInString(line[:at]) + 1}
			d.refuse(place, "a tab stands in the text", "write blanks instead of tabs")
		}
	}
	return d.count() == before
}

// inComment tells whether a comment has begun by the end of a piece of a line.
func inComment(piece string) bool {
	return strings.HasPrefix(piece, "#") || strings.Contains(piece, " #")
}

// firstBad finds the first byte that is not UTF-8, or an invisible control
// character other than tab and line ending.
func firstBad(text []byte) (int, string) {
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRune(text[at:])
		switch {
		case r == utf8.RuneError && size == 1:
			return at, fmt.Sprintf("the byte %#02x is not UTF-8 text", text[at])
		case r < ' ' && r != '\t' && r != '\n' && r != '\r', r >= 0x7f && r <= 0x9f:
			return at, fmt.Sprintf("a control character (U+%04X) stands in the text", r)
		case r == '\u2028' || r == '\u2029' || (r == '\ufeff' && at > 0):
			return at, fmt.Sprintf("an invisible character (U+%04X) stands in the text", r)
		}
		at += size
	}
	return 0, ""
}

// parsed runs the YAML parser on text whose tokens are allowed; the tree is nil
// when they are not. The parser is a foreign one that has been seen to panic on
// odd input, so that a panic in it counts as text that cannot be read.
func parsed(text string, allowed func(token.Tokens) bool) (tree *ast.File, err error) {
	defer func() {
		if recover() != nil {
			tree, err = nil, errors.New("the text is not well formed")
		}
	}()
	tokens := lexer.Tokenize(text)
	if !allowed(tokens) {
		return nil, nil
	}
	return parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
}

// tokensAllowed refuses, before a tree is built, too much of anything and the
// parts of YAML that a job has no use for.
func (d *Decoder) tokensAllowed(tokens token.Tokens) bool {
	if len(tokens) > mostTokens {
		d.refuse(diag.Place{}, fmt.Sprintf("the file has %d words and signs; at most %d are read", len(tokens), mostTokens), tooLong)
		return false
	}
	before := d.count()
	var nest nesting
	content := false
	told := map[string]bool{} // each reason is told where it first applies
	for _, tk := range tokens {
		if why := unused(tk, content); why != "" && !told[why] {
			told[why] = true
			d.refuseToken(tk, why)
		}
		if decimalComma(tk) {
			d.refuseToken(tk, "a comma between two digits: between brackets it begins another entry; "+
				"write a point for a decimal sign, or a blank after the comma for another entry")
		}
		content = content || d.isContent(tk)
		if nest.enter(tk) > mostDepth {
			d.refuseToken(tk, tooDeep)
			break
		}
	}
	return d.count() == before
}

var tooDeep = fmt.Sprintf("nested deeper than %d levels; no key of a job or a gear lies deeper than eight", mostDepth)

// isContent tells whether a token belongs to a document rather than to what
// stands before it: comments, directives.
func (d *Decoder) isContent(tk *token.Token) bool {
	switch tk.Type {
	case token.CommentType, token.DocumentHeaderType:
		return false
	}
	return !strings.HasPrefix(d.line(tk.Position.Line), "%")
}

// unused says why a token is refused; content tells whether anything stood
// before it.
func unused(tk *token.Token, content bool) string {
	switch tk.Type {
	case token.AnchorType, token.AliasType:
		return "anchors and aliases (& and *) are not read; repeat the value, or put the text in quotes"
	case token.MergeKeyType:
		return "merge keys (<<) are not read; repeat the keys"
	case token.TagType:
		return "tags (!) are not read; leave the tag out, or put the text in quotes"
	case token.DirectiveType:
		return "directives (%) are not read; leave it out"
	case token.MappingKeyType:
		return "keys with a question mark are not read; write key: value"
	case token.DocumentHeaderType:
		if content {
			return "a second document (---) begins here; one file holds one document"
		}
	}
	return ""
}

// decimalComma tells whether a comma that parts two entries looks like a decimal
// sign: [8,5 m] would be read as 8 and 5 m.
func decimalComma(tk *token.Token) bool {
	if tk.Type != token.CollectEntryType || tk.Prev == nil || tk.Next == nil || isQuoted(tk.Prev) || isQuoted(tk.Next) {
		return false
	}
	before, after := tk.Prev.Value, tk.Next.Value
	if before == "" || after == "" || !isDigit(before[len(before)-1]) || !isDigit(after[0]) {
		return false
	}
	at, next := tk.Position, tk.Next.Position
	return at.Line == next.Line && at.Column+1 == next.Column
}

func isQuoted(tk *token.Token) bool {
	return tk.Type == token.DoubleQuoteType || tk.Type == token.SingleQuoteType
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// nesting follows how deep tokens stand: brackets, and columns of block keys
// and dashes. It never exceeds the true depth.
type nesting struct {
	flow    int
	columns []int
}

func (s *nesting) enter(tk *token.Token) int {
	switch tk.Type {
	case token.SequenceStartType, token.MappingStartType:
		s.flow++
	case token.SequenceEndType, token.MappingEndType:
		s.flow = max(0, s.flow-1)
	case token.SequenceEntryType:
		s.block(tk)
	case token.MappingValueType:
		if tk.Prev != nil {
			s.block(tk.Prev)
		}
	}
	return s.flow + len(s.columns)
}

func (s *nesting) block(tk *token.Token) {
	if s.flow > 0 {
		return
	}
	column := tk.Position.Column
	for len(s.columns) > 0 && s.columns[len(s.columns)-1] >= column {
		s.columns = s.columns[:len(s.columns)-1]
	}
	s.columns = append(s.columns, column)
}

// body returns the root node of the only document and indexes its keys.
func (d *Decoder) body(tree *ast.File) ast.Node {
	var root ast.Node
	for _, doc := range tree.Docs {
		if doc.Body != nil && root == nil {
			root = doc.Body
		}
	}
	if root == nil {
		d.refuse(diag.Place{}, "the file is empty", "write a job or a gear file; boxwalk schema prints the keys of both")
		return nil
	}
	if !d.index(root, 1) {
		return nil
	}
	return root
}

// index notes the key of every value and refuses a tree that is deeper than
// the tokens told.
func (d *Decoder) index(n ast.Node, depth int) bool {
	if depth > mostDepth+1 {
		d.refuseToken(n.GetToken(), tooDeep)
		return false
	}
	for _, pair := range pairsOf(n) {
		d.keyOf[pair.Value] = pair.Key
		if !d.index(pair.Value, depth+1) {
			return false
		}
	}
	for _, item := range itemsOf(n) {
		if !d.index(item, depth+1) {
			return false
		}
	}
	return true
}

// refuse reports a problem of the text as such.
func (d *Decoder) refuse(at diag.Place, summary, fix string) {
	at.File = d.file
	d.add(diag.Problem{Place: at, Summary: summary, Fix: fix, Source: d.line(at.Line)})
}

func (d *Decoder) refuseToken(tk *token.Token, why string) {
	summary, fix, _ := strings.Cut(why, "; ")
	d.refuse(diag.Place{Line: tk.Position.Line, Column: tk.Position.Column}, summary, fix)
}

// syntaxProblem reports that the text is no YAML, in the parser's words.
func (d *Decoder) syntaxProblem(err error) {
	var syntax yaml.Error
	if !errors.As(err, &syntax) || syntax.GetToken() == nil {
		d.refuse(diag.Place{}, "the file cannot be read as YAML: the text is not well formed", "see whether this is the right file, and that brackets and quotes are closed")
		return
	}
	message, _, _ := strings.Cut(syntax.GetMessage(), "\n")
	position := syntax.GetToken().Position
	at := diag.Place{Line: position.Line, Column: position.Column}
	d.refuse(at, "cannot be read as YAML: "+cut(message, 120), d.syntaxFix(at))
}

// syntaxFix guesses what the writer of a line stumbled over.
func (d *Decoder) syntaxFix(at diag.Place) string {
	line := d.line(at.Line)
	if strings.Count(line, `"`)%2 == 1 || strings.Count(line, "'")%2 == 1 {
		return `close the quotes; feet and inches stand in other quotes, as in '6 1/2"'`
	}
	return "check the indent, and that brackets and quotes are closed on this line and the one before"
}

// line returns a source line by number, or "".
func (d *Decoder) line(n int) string {
	if n < 1 || n > len(d.lines) {
		return ""
	}
	return d.lines[n-1]
}

// cut shortens a text to n characters.
func cut(text string, n int) string {
	if runes := []rune(text); len(runes) > n {
		return string(runes[:n]) + "…"
	}
	return text
}

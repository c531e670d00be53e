package proof

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Problem is why a proof is refused: the line of the file, its record, the
// claim it belongs to if any, and what is wrong.
type Problem struct {
	Line   int
	Record string // the first words of the line
	Claim  string // in words; empty outside claims
	Why    string
}

func (p *Problem) Error() string {
	if p.Claim == "" {
		return fmt.Sprintf("line %d, %q: %s", p.Line, p.Record, escaped(p.Why))
	}
	return fmt.Sprintf("line %d, %q, in the claim %s: %s", p.Line, p.Record, escaped(p.Claim), escaped(p.Why))
}

// The sizes of a file that this verifier takes on. A job of twenty pours in
// four cells needs less than a hundredth of each.
const (
	mostLine     = 1 << 20 // bytes
	mostLines    = 1 << 24
	mostVertices = 1 << 22
	mostThings   = 1 << 20 // parts, solids, steps, of each
	mostBodies   = 1 << 10 // of one carrier
	mostBytes    = 1 << 28
	mostNotes    = 100
)

// limits bound time and memory: work is vertices, pairs and the like looked at,
// kept is numbers held beyond what the file itself has.
type limits struct{ work, kept float64 }

// usual is a minute at most, and some hundred megabytes.
var usual = limits{work: 2e9, kept: 1 << 25}

// text reads lines and their words. The first failure stays.
type text struct {
	in    *bufio.Scanner
	line  int
	words []string
	name  string // the JSON string at the end of the line, if there is one
	named bool
	claim string
	bad   *Problem
	seen  int // vertices read
	bytes int
	used  limits
	most  limits
}

func newText(r io.Reader, most limits) *text {
	t := &text{in: bufio.NewScanner(r), most: most}
	t.in.Buffer(make([]byte, 1<<16), mostLine)
	t.in.Split(lineFeeds)
	return t
}

// lineFeeds splits at line feeds and nothing else: a carriage return is refused with
// the line that it stands in.
func lineFeeds(data []byte, end bool) (advance int, line []byte, err error) {
	if i := bytes.IndexByte(data, '\n'); i >= 0 {
		return i + 1, data[:i], nil
	}
	if end && len(data) > 0 {
		return len(data), data, nil
	}
	return 0, nil, nil
}

// fail remembers the first thing that is wrong. Words of the file are cut short.
func (t *text) fail(format string, args ...any) {
	if t.bad == nil {
		for i, a := range args {
			if s, ok := a.(string); ok {
				args[i] = cutShort(s)
			}
		}
		t.bad = &Problem{Line: t.line, Record: t.record(), Claim: t.claim, Why: fmt.Sprintf(format, args...)}
	}
}

// charge counts work.
func (t *text) charge(n int) {
	if t.used.work += float64(n); t.used.work > t.most.work {
		t.fail("the proof asks for more work than is taken on")
	}
}

// keep counts numbers that stay in memory.
func (t *text) keep(n int) {
	if t.used.kept += float64(n); t.used.kept > t.most.kept {
		t.fail("the proof asks for more memory than is taken on")
	}
}

func (t *text) record() string {
	s := strings.Join(t.words, " ")
	if len(s) > 60 {
		s = strings.ToValidUTF8(s[:60], "") + "..."
	}
	return s
}

// next reads a line; false at the end of the file or after a failure.
func (t *text) next() bool {
	if t.bad != nil {
		return false
	}
	t.words, t.name, t.named = nil, "", false
	if !t.in.Scan() {
		t.line++
		if err := t.in.Err(); err != nil {
			t.fail("the file cannot be read on: %v", err)
		}
		return false
	}
	if t.line++; t.line > mostLines {
		t.fail("the file has more than %d lines", mostLines)
		return false
	}
	s := t.in.Text()
	if t.bytes += len(s) + 1; t.bytes > mostBytes {
		t.fail("the file has more than %d bytes", mostBytes)
		return false
	}
	t.charge(1 + len(s)/16)
	if !utf8.ValidString(s) {
		t.fail("the line is no UTF-8")
		return false
	}
	name := ""
	if i := strings.Index(s, ` "`); i >= 0 {
		s, name, t.named = s[:i], s[i+1:], true
	}
	if t.words = strings.Split(s, " "); t.named {
		t.readName(name)
	}
	if slices.Contains(t.words, "") || strings.ContainsFunc(s, unicode.IsControl) {
		t.fail("an empty line, more than one blank between two words, or a control character")
	}
	return t.bad == nil
}

// readName reads the JSON string at the end of a line. One that stands for what
// is no text, such as half of a surrogate pair, is refused.
func (t *text) readName(s string) {
	err := json.Unmarshal([]byte(s), &t.name)
	if err != nil || strings.TrimSpace(s) != s || strings.ContainsRune(t.name, utf8.RuneError) {
		t.fail("the name at the end of the line is no JSON string")
	}
}

// is tells what record the line is.
func (t *text) is(kind string) bool { return len(t.words) > 0 && t.words[0] == kind }

// want holds the number of words, the record's own included; most < 0 is no
// limit. named says whether a name must follow.
func (t *text) want(least, most int, named bool) bool {
	switch {
	case len(t.words) < least || (most >= 0 && len(t.words) > most):
		t.fail("%d words where a record %s has another number of them", len(t.words), t.words[0])
	case named != t.named:
		t.fail("a record %s with a name missing or too many", t.words[0])
	}
	return t.bad == nil
}

// number reads a finite number.
func (t *text) number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsInf(v, 0) || strings.Trim(s, "+-.0123456789eE") != "" {
		t.fail("%q is no finite number", s)
		return 0
	}
	if math.Abs(v) > 1e6 {
		t.fail("%q is farther than 1000 km", s)
	}
	return v
}

// whole reads a whole number from lo to hi.
func (t *text) whole(s string, lo, hi int) int {
	v, err := strconv.Atoi(s)
	if err != nil || v < lo || v > hi || strconv.Itoa(v) != s {
		t.fail("%q is no whole number from %d to %d", s, lo, hi)
		return lo
	}
	return v
}

// vector reads three numbers joined by commas.
func (t *text) vector(s string) vec {
	p := strings.Split(s, ",")
	if len(p) != 3 {
		t.fail("%q is no vector of three numbers", s)
		return vec{}
	}
	return vec{t.number(p[0]), t.number(p[1]), t.number(p[2])}
}

// vertices reads the rest of a line.
func (t *text) vertices(words []string) []vec {
	if t.seen += len(words); t.seen > mostVertices {
		t.fail("the file has more than %d vertices", mostVertices)
		return nil
	}
	out := make([]vec, 0, len(words))
	for _, w := range words {
		out = append(out, t.vector(w))
	}
	return out
}

// ids reads a list such as 1-4,7: every member of the sorted set it covers.
// Each item must cover one at least, in rising order.
func (t *text) ids(s string, set []int) []int {
	t.charge(len(set))
	var out []int
	at, last := 0, -1
	for _, item := range strings.Split(s, ",") {
		from, to, span := strings.Cut(item, "-")
		lo := t.whole(from, 0, mostThings)
		hi := lo
		if span {
			hi = t.whole(to, lo+1, mostThings)
		}
		for at < len(set) && set[at] < lo {
			at++
		}
		if t.bad == nil && lo <= last {
			t.fail("%q is not in rising order", item)
		}
		last = hi
		if t.bad == nil && (at == len(set) || set[at] > hi) {
			t.fail("%q names nothing that is in the set", item)
		}
		for at < len(set) && set[at] <= hi && t.bad == nil {
			out = append(out, set[at])
			at++
		}
		if t.bad != nil {
			return nil
		}
	}
	return out
}

package dxf

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"boxwalk/export/sheet"
)

var hostile = []string{"<script>alert(1)</script>", "a\nb", "0\nEOF\n0", `\P{\H99x;big}`, `\U+0041 \u+0041 \M+1A440`, "%%c %%%%d", "^J ^M", "<>",
	"\x00\x1b", "\xff\xfe", "12\u202e34", strings.Repeat("very long name ", 60), `\\\\\\`, "}{"}

func hostileSheet(name string) *sheet.Sheet {
	s := small()
	s.Title.Title, s.Title.Owner, s.Footer, s.Views[0].Title = name, name, name, name
	s.Paper = sheet.A0
	s.Stamp, s.StampReason, s.Notes = "NOT CLEARED", name, []string{name}
	s.LayerNames = map[sheet.Layer]string{sheet.Concrete: name}
	s.Views[0].Text(sheet.Pt(0, 600), sheet.BaseLeft, name)
	s.Views[0].Text(sheet.Pt(0, 900), sheet.TopCentre, name, name)
	s.Views[0].Note(sheet.Pt(0, 0), sheet.Pt(1, 1), name)
	s.Views[0].Add(sheet.Dimension{On: sheet.Dimensioning, To: sheet.Pt(1000, 0), Suffix: name})
	return s
}

func TestHostileNamesStayLettering(t *testing.T) {
	want := kinds(parse(t, encode(t, hostileSheet("harmless"))))
	for _, name := range hostile {
		got := kinds(parse(t, encode(t, hostileSheet(name))))
		for _, kind := range []string{"EOF", "DIMENSION", "LEADER", "LAYER", "ENDSEC", "LWPOLYLINE"} {
			if got[kind] != want[kind] {
				t.Errorf("%q: %d %s, want %d", name, got[kind], kind, want[kind])
			}
		}
	}
}

func TestReadersFindNoCodesInLettering(t *testing.T) {
	for in, want := range map[string]string{
		`a\b {c}`: `a\\b \{c\}`, `\U+0041`: `\\ U+0041`, "%%c": "% %c", "%%%%d": "% % % %d", "^J": "^ J", "5 %": "5 %", "ø16 ≥ 2": "ø16 ≥ 2",
	} {
		if got := escapeLines([]string{in}); got != want {
			t.Errorf("%q becomes %q, want %q", in, got, want)
		}
	}
}

func TestASuffixCannotBringInTheValueTwice(t *testing.T) {
	s := hostileSheet("<> <>")
	for _, r := range parse(t, encode(t, s)) {
		if r.kind == "DIMENSION" && strings.Count(r.text(1), "<>") > 1 {
			t.Errorf("%q", r.text(1))
		}
	}
}

func TestPiecesNeverPartABackslashFromItsCharacter(t *testing.T) {
	for _, line := range []string{strings.Repeat(`\`, 500), "a" + strings.Repeat(`\`, 500), strings.Repeat(`{ø`, 400)} {
		whole := escapeLines([]string{line})
		rejoined := ""
		for _, piece := range chunks(whole, longestText) {
			rejoined += unescape(piece)
		}
		if rejoined != escapeText(line) {
			t.Errorf("%.20q… is read as %.40q…", line, rejoined)
		}
	}
}

func FuzzEscape(f *testing.F) {
	for _, h := range hostile {
		f.Add(h)
	}
	f.Fuzz(func(t *testing.T, s string) {
		text, lines := escapeText(s), escapeLines([]string{s})
		for _, out := range []string{text, lines} {
			if !utf8.ValidString(out) || strings.ContainsFunc(out, unicode.IsControl) || strings.Contains(out, "%%") {
				t.Fatalf("%q becomes %q", s, out)
			}
		}
		for _, code := range []string{`\U+`, `\u+`, `\M+`, `\m+`} {
			if strings.Contains(text, code) || strings.Contains(lines, code) {
				t.Fatalf("%q becomes %q, %q", s, text, lines)
			}
		}
		if got := unescape(lines); got != text {
			t.Fatalf("%q is read as %q", s, got)
		}
		pieces := chunks(lines, longestText)
		if strings.Join(pieces, "") != lines {
			t.Fatalf("%q is cut into %q", lines, pieces)
		}
		for _, p := range pieces {
			if len(p) > longestText || !utf8.ValidString(p) {
				t.Fatalf("piece %q", p)
			}
		}
	})
}

// unescape reads MTEXT as readers do; a code other than an escaped character fails.
func unescape(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) && strings.IndexByte(`\{}`, s[i+1]) >= 0 {
			i++
		} else if strings.IndexByte(`\{}`, s[i]) >= 0 {
			return "a code is left at " + s[i:]
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

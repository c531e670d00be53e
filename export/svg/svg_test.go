package svg

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/export/sheet"
)

var update = flag.Bool("update", false, "write the golden files anew")

// small is a sheet with one item of every kind.
func small() *sheet.Sheet {
	s := &sheet.Sheet{Paper: sheet.A4, Stamp: "NOT CLEARED", StampReason: "1 check fails: strip.clear", Footer: "boxwalk 0, input 0123"}
	s.Title = sheet.Title{Owner: "Contractor & Sons", Number: "J-1", Title: "Section <A>", Sheet: 1, Sheets: 2, Date: "2026-03-01", Revision: "A"}
	s.Cautions = []string{"Do not release until the strength is confirmed in writing."}
	v := sheet.NewView("A-A")
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, sheet.RectLoop(sheet.Pt(0, 0), sheet.Pt(3000, 300)))
	v.Rect(sheet.Concrete, sheet.Pt(0, 0), sheet.Pt(3000, 300))
	v.Hatch(sheet.Steel, sheet.Tone, sheet.RectLoop(sheet.Pt(500, 300), sheet.Pt(900, 1500)))
	v.Line(sheet.Centre, sheet.Pt(1500, -200), sheet.Pt(1500, 1600))
	v.Polyline(sheet.Collapsed, sheet.Pt(0, 500), sheet.Pt(3000, 500))
	v.Circle(sheet.Hardware, sheet.Pt(700, 400), 100)
	v.Add(sheet.Arc{On: sheet.Hidden, Centre: sheet.Pt(2000, 800), Radius: 300, From: 350, To: 100})
	v.Stack(sheet.Below, 0, sheet.Chain(sheet.Pt(0, 0), sheet.Pt(200, 0), sheet.Pt(3000, 0))...)
	v.Add(sheet.Dimension{On: sheet.Dimensioning, From: sheet.Pt(3000, 0), To: sheet.Pt(3000, 300), Angle: 90, Base: sheet.Pt(3000, 0), Offset: -10})
	v.Note(sheet.Pt(2300, 500), sheet.Pt(2600, 1200), "ø16 ≥ 2", "at 5°")
	if err := s.Add(v).Arrange(); err != nil {
		panic(err)
	}
	return s
}

func encode(t testing.TB, s *sheet.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Encode(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// texts parses the document strictly and gives the lettering in it.
func texts(t testing.TB, doc []byte) []string {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(doc))
	var out []string
	in := false
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatalf("not XML: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if !allowed[tok.Name.Local] {
				t.Fatalf("element <%s> is none of ours", tok.Name.Local)
			}
			if in = tok.Name.Local == "text" || tok.Name.Local == "title"; in {
				out = append(out, "")
			}
		case xml.CharData:
			if in {
				out[len(out)-1] += string(tok)
			}
		case xml.EndElement:
			in = false
		}
	}
}

var allowed = map[string]bool{"svg": true, "title": true, "style": true, "rect": true, "g": true, "line": true,
	"polyline": true, "polygon": true, "circle": true, "path": true, "text": true}

func TestASmallSheetIsWrittenAsBefore(t *testing.T) {
	got, file := encode(t, small()), filepath.Join("testdata", "small.svg")
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; look at it and run with -update", file)
	}
}

func TestTheSameSheetGivesTheSameBytes(t *testing.T) {
	for range 5 {
		if !bytes.Equal(encode(t, small()), encode(t, small())) {
			t.Fatal("two runs differ")
		}
	}
}

func TestTheViewBoxIsThePaperInMillimetres(t *testing.T) {
	if doc := string(encode(t, small())); !strings.Contains(doc, `width="297mm" height="210mm" viewBox="0 0 297 210"`) {
		t.Error(doc[:200])
	}
}

func TestAllLetteringIsText(t *testing.T) {
	all := strings.Join(texts(t, encode(t, small())), "\n")
	for _, want := range []string{"NOT CLEARED", "A-A (1:", "2800", "200", "300", "ø16 ≥ 2", "at 5°", "J-1", "Section <A>", "Contractor & Sons", "Do not release", "boxwalk 0"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not lettered", want)
		}
	}
}

func TestAnArcRunsAnticlockwise(t *testing.T) {
	c := newCanvas(sheet.Box{Max: sheet.Pt(100, 100)}, func(sheet.Layer) string { return "" })
	c.arc(sheet.Arc{Centre: sheet.Pt(50, 50), Radius: 10, From: 0, To: 90})
	c.arc(sheet.Arc{Centre: sheet.Pt(50, 50), Radius: 10, From: 90, To: 0})
	want := "<path d=\"M60 50A10 10 0 0 0 50 40\"/>\n<path d=\"M50 40A10 10 0 1 0 60 50\"/>\n"
	if got := c.String(); got != want {
		t.Errorf("got %s want %s", got, want)
	}
}

var hostile = []string{"<script>alert(1)</script>", "]]>", "a\nb", "&amp;", `"onload="x`, "\x00\x1b", "--> <!--", "\xff\xfe",
	strings.Repeat("very long name ", 120), "</style><script>", "12\u202e34"}

func TestHostileNamesStayLettering(t *testing.T) {
	for _, name := range hostile {
		s := small()
		s.Title.Title, s.Title.Owner, s.Footer, s.Views[0].Title = name, name, name, name
		s.Stamp, s.StampReason, s.Cautions = name[:min(len(name), 20)], name, []string{name}
		s.Paper = sheet.A0
		s.LayerNames = map[sheet.Layer]string{sheet.Concrete: name}
		s.Views[0].Text(sheet.Pt(0, 0), sheet.BaseLeft, name)
		s.Views[0].Scale = 100
		if s.Check() == nil {
			texts(t, encode(t, s))
		} else {
			t.Errorf("%q makes the sheet impossible", name)
		}
	}
}

func TestASheetThatCheckRefusesIsNotWritten(t *testing.T) {
	s := small()
	s.Views[0].Line(sheet.General, sheet.Pt(math.NaN(), 0), sheet.Pt(1, 1))
	var b bytes.Buffer
	if err := Encode(&b, s); err == nil || b.Len() > 0 {
		t.Errorf("error %v, %d bytes written", err, b.Len())
	}
}

func FuzzEscape(f *testing.F) {
	for _, h := range hostile {
		f.Add(h)
	}
	f.Fuzz(func(t *testing.T, s string) {
		doc := `<svg><text a="` + Escape(s) + `">` + Escape(s) + `</text></svg>`
		got := texts(t, []byte(doc))
		if len(got) != 1 || got[0] != sheet.Clean(s) {
			t.Fatalf("%q is read as %q", s, got)
		}
	})
}

func BenchmarkEncode(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			s := small()
			for i := range n {
				s.Views[0].Line(sheet.Steel, sheet.Pt(float64(i%3000), 0), sheet.Pt(float64(i%3000), 300))
			}
			b.ReportAllocs()
			for b.Loop() {
				encode(b, s)
			}
		})
	}
}

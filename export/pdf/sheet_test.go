package pdf

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/export/sheet"
)

func sample() *sheet.Sheet {
	s := &sheet.Sheet{Paper: sheet.A3, Title: sheet.Title{Number: "Q-1", Title: "Section", Owner: "Board"}, Cautions: []string{"Look first."}, Stamp: "NOT CLEARED", Footer: "boxwalk 1, job.yaml"}
	v := &sheet.View{Title: "A", Scale: 20, Shift: sheet.Pt(100, 150)}
	v.Line(sheet.Concrete, sheet.Pt(0, 0), sheet.Pt(2000, 1000))
	v.Circle(sheet.Steel, sheet.Pt(500, 500), 100)
	v.Hatch(sheet.ConcreteHatch, sheet.Tone, sheet.RectLoop(sheet.Pt(0, 0), sheet.Pt(300, 300)), sheet.RectLoop(sheet.Pt(100, 100), sheet.Pt(200, 200)))
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, sheet.RectLoop(sheet.Pt(400, 0), sheet.Pt(800, 300)))
	v.Add(sheet.Dimension{On: sheet.Dimensioning, From: sheet.Pt(0, 0), To: sheet.Pt(2000, 0), Base: sheet.Pt(0, 0), Offset: -10})
	v.Note(sheet.Pt(500, 500), sheet.Pt(800, 800), "note (1) \\ é 桥")
	return s.Add(v)
}

// 2000 x 1000 mm at 1:20 from (100, 150) mm of paper on A3, 420 x 297 mm, in points of
// 1/72 in with y up from the lower edge: (283.46, 425.20) to (566.93, 566.93).
func TestALineIsDrawnTrueToScale(t *testing.T) {
	d := newDocument("", "")
	d.SetCompression(false)
	d.sheets([]*sheet.Sheet{sample()})
	var b bytes.Buffer
	if err := d.write(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"/MediaBox [0 0 1190.55 841.89]", "283.46 425.20 m\n566.93 566.93 l\nS", "f*"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q", want)
		}
	}
}

func TestAnArcRunsAnticlockwiseAndCloseToItsCircle(t *testing.T) {
	for _, a := range []sheet.Arc{{Centre: sheet.Pt(1, 2), Radius: 50, From: 350, To: 20}, {Radius: 3, From: 0, To: 270}, {Radius: 1, From: 90, To: 91}} {
		points := arc(a)
		turned := 0.0
		for i, p := range points {
			if off := math.Abs(p.Sub(a.Centre).Len() - a.Radius); off > 1e-9 {
				t.Errorf("%v is %v off", p, off)
			}
			if i > 0 {
				q := points[i-1]
				turned += math.Atan2((q[0]-a.Centre[0])*(p[1]-a.Centre[1])-(q[1]-a.Centre[1])*(p[0]-a.Centre[0]), (q.Sub(a.Centre)).Dot(p.Sub(a.Centre)))
				if middle := q.Add(p).Mul(0.5).Sub(a.Centre).Len(); a.Radius-middle > 0.0201 {
					t.Errorf("a chord lies %v inside", a.Radius-middle)
				}
			}
		}
		if want := math.Mod(a.To-a.From+360, 360) * math.Pi / 180; math.Abs(turned-want) > 1e-9 {
			t.Errorf("it turns by %v, want %v", turned, want)
		}
	}
}

func TestASetIsTheSameBytesAndAPageEach(t *testing.T) {
	set := func() []byte {
		var b bytes.Buffer
		if err := Sheets(&b, []*sheet.Sheet{sample(), sample()}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	first := set()
	if !bytes.Equal(first, set()) {
		t.Error("two writings differ")
	}
	if n := bytes.Count(first, []byte("/Type /Page\n")); n != 2 {
		t.Errorf("%d pages", n)
	}
	for n := range 2 {
		want := ""
		for _, r := range fmt.Sprintf("%d Section", n+1) {
			want += "\x00" + string(r)
		}
		if !bytes.Contains(first, []byte(want)) {
			t.Errorf("no bookmark %d", n+1)
		}
	}
}

func TestWhatCannotBeDrawnIsRefused(t *testing.T) {
	bad := sample()
	bad.Views[0].Line(sheet.Steel, sheet.Pt(math.NaN(), 0), sheet.Pt(1, 1))
	for name, list := range map[string][]*sheet.Sheet{"none": nil, "no number": {sample(), bad}} {
		var b bytes.Buffer
		if err := Sheets(&b, list); err == nil || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", name, err, b.Len())
		}
	}
}

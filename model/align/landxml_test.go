package align

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"boxwalk/model/diag"
)

func readFile(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "landxml", name))
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// wrap makes a file of one alignment of the elements and the profile's points.
func wrap(elements, points string) []byte {
	return []byte(`<LandXML xmlns="` + landXML + `" version="1.2"><Units><Metric linearUnit="meter"/></Units><Alignments><Alignment name="a" staStart="0"><CoordGeom>` +
		elements + `</CoordGeom><Profile><ProfAlign name="p">` + points + `</ProfAlign></Profile></Alignment></Alignments></LandXML>`)
}

const level = `<PVI>0 10</PVI><PVI>1000 10</PVI>`

// read reads a file that must be sound; warnings are let pass.
func read(t *testing.T, text []byte) *Alignment {
	t.Helper()
	a, problems := ReadLandXML("a.xml", text, "")
	if problems.HasErrors() || a == nil {
		t.Fatal(problems)
	}
	return a
}

// refused reads a file that must not be, for a reason.
func refused(t *testing.T, text []byte, name, want string) {
	t.Helper()
	a, problems := ReadLandXML("a.xml", text, name)
	if a != nil || !problems.HasErrors() {
		t.Errorf("read without an error; want %q", want)
	}
	if !strings.Contains(problems.Error(), want) {
		t.Errorf("got\n%v\nwant %q", problems, want)
	}
}

func TestLandXMLWithABendAndAVerticalCurveIsTheLineItWasMadeFrom(t *testing.T) {
	a, problems := ReadLandXML("bend-and-curve.xml", readFile(t, "bend-and-curve.xml"), "CL-1")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s := a.Start()
	near1(t, "easting", s.Easting, 5000, 1e-8)
	near1(t, "northing", s.Northing, 8000, 1e-8)
	near1(t, "bearing", s.Bearing, 74*deg, 1e-9)
	near1(t, "elevation", s.Elevation, 182.4, 1e-12)
	near1(t, "length", a.Length(), 45.5, 1e-7)
	bends := a.AnglePoints(1e-6)
	if len(bends) != 1 {
		t.Fatalf("angle points %+v", bends)
	}
	near1(t, "bend", bends[0].Turn, 1*deg, 1e-9)
	near1(t, "its station", bends[0].Station, 17, 1e-8)
	curves, vertical := a.Curves(), a.VerticalCurves()
	if len(curves) != 1 || len(vertical) != 1 {
		t.Fatalf("%d curves, %d vertical ones", len(curves), len(vertical))
	}
	near1(t, "radius, to the right", curves[0].Radius, -300, 1e-9)
	near1(t, "its length", curves[0].Length(), 12, 1e-7)
	near1(t, "heading at the end", place(t, a, a.Length()).Heading, 1*deg-12.0/300, 1e-8)
	near1(t, "vertical curve from", vertical[0].From, 23, 1e-9)
	near1(t, "to", vertical[0].To, 29, 1e-9)
	near1(t, "elevation at 26", place(t, a, 26).Elevation, 182.01+(-0.03+0.015)*6/8, 1e-9)
}

func TestHostileLandXMLNamesEachElementItDoesNotKnow(t *testing.T) {
	text := readFile(t, "hostile.xml")
	a, problems := ReadLandXML("hostile.xml", text, "")
	if a != nil {
		t.Fatal("a line was made of it")
	}
	got := problems.Error()
	for _, want := range []string{
		"hostile.xml:6:4: error: a station equation (StaEquation)",
		"hostile.xml:9:5: error: <Spiral> (sineHalfWave, length 80)",
		"hostile.xml:10:5: error: <Curve> has rot=\"sideways\"",
		"hostile.xml:10:60: error: \"NaN\" is no number",
		"hostile.xml:11:5: error: <Line> is of the namespace http://example.org/other",
		"hostile.xml:12:5: error: <IrregularLine> in CoordGeom",
		"hostile.xml:13:11: error: has 1 numbers",
		"hostile.xml:13:27: error: \"1e300\" is no number",
		"hostile.xml:18:6: error: <UnsymParaCurve>",
		"hostile.xml:19:6: error: <CircCurve>",
		"hostile.xml:20:6: error: <ParaCurve> has length=\"\"",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	var out bytes.Buffer
	if err := problems.Render(&out, map[string][]byte{"hostile.xml": text}); err != nil || !strings.Contains(out.String(), `<Spiral length="80"`) {
		t.Errorf("rendered as\n%s", out.String())
	}
}

func TestEntitiesAreRefusedAtTheirDeclaration(t *testing.T) {
	_, problems := ReadLandXML("entities.xml", readFile(t, "entities.xml"), "")
	if len(problems) != 1 || problems[0].Line != 2 || !strings.Contains(problems[0].Summary, "entity declaration") {
		t.Errorf("got %v", problems)
	}
	refused(t, []byte(`<LandXML xmlns="`+landXML+`"><Project name="&b;"/></LandXML>`), "", "invalid character entity &b;")
}

func TestWrongNamespacesAndRootsAreNamed(t *testing.T) {
	for text, want := range map[string]string{
		`<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.0"/>`: "the namespace http://www.landxml.org/schema/LandXML-1.0; read is LandXML 1.2",
		`<LandXML/>`:                         "no namespace; read is LandXML 1.2",
		`<kml/>`:                             "the file is a kml, no LandXML",
		``:                                   "no XML element",
		`station: 0`:                         "before the root element stands",
		`<LandXML xmlns="` + landXML + `">`:  "it ends in the middle; the file was cut off",
		`<LandXML xmlns="` + landXML + `"/>`: "no <Alignment>",
		`<?xml version="1.0" encoding="UTF-16"?><a/>`:                    "the encoding UTF-16 is not read",
		strings.Repeat("<a>", 3):                                         "the file is a a, no LandXML",
		`<LandXML xmlns="` + landXML + `">` + strings.Repeat("<x>", 100): "more than 64 deep",
	} {
		refused(t, []byte(text), "", want)
	}
	latin := append([]byte(`<?xml version="1.0" encoding="ISO-8859-1"?><!-- `+"\xfcber -->"), wrap(`<Line><Start>0 0</Start><End>10 0</End></Line>`, level)...)
	read(t, latin)
}

// Lexical forms of xs:double: XML Schema part 2, 3.2.5.1. INF and NaN are among
// them and are no place.
func TestNumbersAreThoseOfXMLSchema(t *testing.T) {
	for text, want := range map[string]float64{
		"1e2": 100, "+1.5": 1.5, ".5": 0.5, "5.": 5, "-0": 0, "007": 7, "1E+2": 100, "12.50E-1": 1.25, "\t\r\n 10 \n": 10, "1e-400": 0,
	} {
		a := read(t, wrap(`<Line><Start>`+text+` 0</Start><End>10000 0</End></Line>`, `<PVI>0 10</PVI><PVI>90000 10</PVI>`))
		near1(t, text+" as a point", a.Start().Northing, want, 0)
		sta := bytes.Replace(wrap(`<Line><Start>0 0</Start><End>10 0</End></Line>`, `<PVI>-9 10</PVI><PVI>90000 10</PVI>`), []byte(`staStart="0"`), []byte(`staStart="`+text+`"`), 1)
		near1(t, text+" as an attribute", read(t, sta).Start().Station, want, 0)
	}
	for _, text := range []string{
		"INF", "-INF", "NaN", "Infinity", "inf", "nan", "0x10", "0x1p4", "0x_1p4", "1_000", "1,5", "1e", "e5", ".", "+", "--1", "1e5.5", "1d5", "1e400", "1m", "\u0661", "1\u00a0", "\u2212" + "1",
	} {
		refused(t, wrap(`<Line><Start>`+text+` 0</Start><End>10 0</End></Line>`, level), "", "is no number")
		refused(t, wrap(`<Line length="`+text+`"><Start>0 0</Start><End>10 0</End></Line>`, level), "", "is no number")
	}
	refused(t, wrap(`<Line length=""><Start>0 0</Start><End>10 0</End></Line>`, level), "", `length="" is no number`)
	refused(t, wrap("<Line><Start>0\u00a00</Start><End>10 0</End></Line>", level), "", "has 1 numbers")
}

func TestAFileHasOneRootAndNothingBesideIt(t *testing.T) {
	sound := string(wrap(`<Line><Start>0 0</Start><End>10 0</End></Line>`, level))
	for _, text := range []string{
		"\ufeff" + sound, "\n\t" + sound + "\r\n ", "<?xml version=\"1.0\"?>\n<!-- ours -->" + sound + "\n<!-- end --><?done?>\n",
	} {
		read(t, []byte(text))
	}
	for text, want := range map[string]string{
		sound + "\n" + sound:             "a.xml:2:1: error: there is a second root element, <LandXML>",
		sound + "\n\n <more/>":           "a.xml:3:2: error: there is a second root element, <more>",
		sound + "more":                   `after the end of the root element stands "more"`,
		sound + "\n\u00a0":               `after the end of the root element stands "\u00a0"`,
		sound + "<![CDATA[ 1 ]]>":        "after the end of the root element stands",
		"junk" + sound:                   `a.xml:1:1: error: before the root element stands "junk"`,
		" \ufeff" + sound:                "before the root element stands",
		sound + "</LandXML>":             "no well-formed XML",
		`<?xml version="1.0"?>1` + sound: "before the root element stands",
	} {
		refused(t, []byte(text), "", want)
	}
}

func TestUnitsScaleEveryLengthByTheirExactRatio(t *testing.T) {
	for unit, metres := range map[string]float64{"foot": 0.3048, "USSurveyFoot": 1200.0 / 3937, "inch": 0.0254} {
		text := bytes.Replace(wrap(`<Line length="3000"><Start>100 200</Start><End>3100 200</End></Line>`, `<PVI>0 600</PVI><ParaCurve length="600">1500 600</ParaCurve><PVI>3000 660</PVI>`),
			[]byte(`<Metric linearUnit="meter"/>`), []byte(`<Imperial linearUnit="`+unit+`"/>`), 1)
		a := read(t, text)
		near1(t, "length", a.Length(), 3000*metres, 1e-9)
		near1(t, "northing", a.Start().Northing, 100*metres, 1e-12)
		near1(t, "elevation", a.Start().Elevation, 600*metres, 1e-12)
		near1(t, "curve", a.VerticalCurves()[0].To-a.VerticalCurves()[0].From, 600*metres, 1e-9)
	}
	text := wrap(`<Line><Start>0 0</Start><End>10 0</End></Line>`, level)
	refused(t, bytes.Replace(text, []byte(`linearUnit="meter"`), []byte(`linearUnit="rod"`), 1), "", `linearUnit="rod" is not read`)
	refused(t, bytes.Replace(text, []byte(`<Units><Metric linearUnit="meter"/></Units>`), nil, 1), "", "no <Units>")
}

func TestDirIsNotLookedAtAndRotTellsTheHand(t *testing.T) {
	// a quarter circle of radius 100 from north-going to the west (ccw) or east (cw)
	for rot, east := range map[string]float64{"ccw": -100, "cw": 100} {
		text := wrap(fmt.Sprintf(`<Line dir="285.13"><Start>0 0</Start><End>50 0</End></Line>
			<Curve rot=%q radius="100"><Start>50 0</Start><End>150 %g</End></Curve>`, rot, east), level)
		a := read(t, text)
		end := a.GroundFromJob().Apply(a.Point(a.Length()))
		near1(t, "easting", end[0], east, 1e-9)
		near1(t, "northing", end[1], 150, 1e-9)
		near1(t, "length", a.Length(), 50+50*math.Pi, 1e-9)
		if n := len(a.AnglePoints(1e-9)); n != 0 {
			t.Errorf("%d angle points on a tangent curve", n)
		}
		// the same with a centre, and the long way round without a radius
		text = wrap(fmt.Sprintf(`<Line><Start>0 0</Start><End>50 0</End></Line>
			<Curve rot=%q><Start>50 0</Start><Center>50 %g</Center><End>50 %g</End></Curve>`, rot, east, 2*east), level)
		near1(t, "half a circle", read(t, text).Length(), 50+100*math.Pi, 1e-9)
	}
}

func TestCurvesWithAPIOnlyRoundTheCornersOfTheirTangents(t *testing.T) {
	const r = 300.0
	tan := r * math.Tan(math.Pi/8) // 45 degrees
	text := wrap(`<Line><Start>0 0</Start><End>500 0</End></Line>
		<Curve rot="cw" radius="300"><PI>1000 0</PI></Curve>
		<Curve rot="ccw" radius="300" length="235.6194"><PI>2000 1000</PI></Curve>
		<Line><Start>3000 1000</Start><End>3100 1000</End></Line>`, `<PVI>0 10</PVI><PVI>4000 10</PVI>`)
	a := read(t, text)
	want := 1000 - tan + r*math.Pi/4 + 1000*math.Sqrt2 - 2*tan + r*math.Pi/4 + 1000 - tan + 100
	near1(t, "length", a.Length(), want, 1e-8)
	end := a.GroundFromJob().Apply(a.Point(a.Length()))
	near1(t, "northing", end[1], 3100, 1e-7)
	near1(t, "easting", end[0], 1000, 1e-7)
	curves := a.Curves()
	if len(curves) != 2 || curves[0].Radius != -300 || curves[1].Radius != 300 {
		t.Fatalf("curves %+v", curves)
	}
	near1(t, "tangent length", curves[0].Tangent(), tan, 1e-9)
	refused(t, wrap(`<Curve rot="cw" radius="670"><PI>605 -706</PI></Curve><Line><Start>2000 0</Start><End>3000 0</End></Line>`, level), "", "has a PI only and there is no point before or behind it")
	refused(t, bytes.Replace(text, []byte(`"cw" radius="300"`), []byte(`"ccw" radius="300"`), 1), "", "which its rot denies")
	refused(t, bytes.Replace(text, []byte(`"cw" radius="300"`), []byte(`"cw" radius="30000"`), 1), "", "needs a tangent of")
}

func TestStoredLengthsAreHeldAgainstThePoints(t *testing.T) {
	// 554.894999 stored for 554.893070 was seen in an open file: within tolerance
	read(t, wrap(`<Line length="554.894999032"><Start>0 0</Start><End>554.893070333 0</End></Line>`, level))
	refused(t, wrap(`<Line length="55.5"><Start>0 0</Start><End>55 0</End></Line>`, level), "", "length is stored as 55.5 m, the points give 55 m")
	refused(t, wrap(`<Curve rot="cw" radius="90"><Start>0 0</Start><Center>0 100</Center><End>100 100</End></Curve>`, level), "", "radius is stored as 90 m, the points give 100 m")
	refused(t, wrap(`<Line><Start>0 0</Start><End>55 0</End></Line><Line><Start>55.5 0</Start><End>60 0</End></Line>`, level), "", "starts 0.5 m from where the one before ends")
	refused(t, wrap(`<Curve rot="cw" radius="10"><Start>0 0</Start><End>55 0</End></Curve>`, level), "", "does not span its chord")
}

func TestAProfileThatIsMissingOrShortIsTold(t *testing.T) {
	line := `<Line><Start>0 0</Start><End>100 0</End></Line>`
	refused(t, wrap(line, ""), "", "has no profile")
	refused(t, wrap(line, `<PVI>200 1</PVI><PVI>300 1</PVI>`), "", "does not lie on the plan")
	refused(t, wrap(line, `<PVI>0 1</PVI><PVI>50 1</PVI><PVI>30 1</PVI>`), "", "does not lie beyond")
	a, problems := ReadLandXML("a.xml", wrap(line, `<PVI>20 1</PVI><PVI>80 2</PVI>`), "")
	if a == nil || problems.HasErrors() || !strings.Contains(problems.Error(), "covers stations 20 m to 80 m") {
		t.Fatalf("got %v", problems)
	}
	near1(t, "start", a.Start().Station, 20, 1e-12)
	near1(t, "length", a.Length(), 60, 1e-9)
	near1(t, "northing", a.Start().Northing, 20, 1e-9)
}

func TestTheAlignmentIsChosenByName(t *testing.T) {
	text := wrap(`<Line><Start>0 0</Start><End>10 0</End></Line>`, level)
	two := bytes.Replace(text, []byte("</Alignments>"), []byte(`<Alignment name="b"><CoordGeom><Spiral/></CoordGeom></Alignment></Alignments>`), 1)
	if a, problems := ReadLandXML("a.xml", two, "a"); a == nil {
		t.Errorf("a problem of another alignment was told: %v", problems)
	}
	refused(t, two, "", `name one of "a", "b"`)
	refused(t, two, "c", `it has "a", "b"`)
	refused(t, two, "b", "<Spiral> (no type, length unknown)")
	refused(t, bytes.Replace(two, []byte(`"b"`), []byte(`"a"`), 1), "a", "two alignments named")
}

func TestMegabytesOfPointsAreReadInBoundedTimeAndMemory(t *testing.T) {
	pnts := strings.Repeat("<P id=\"1\">8000.123 5000.456 182.789</P>\n", 200e3) // 8 MB
	text := bytes.Replace(wrap(`<Line><Start>0 0</Start><End>10 0</End></Line>`, level),
		[]byte("<Alignments>"), []byte("<Surfaces><Surface><Definition><Pnts>"+pnts+"</Pnts></Definition></Surface></Surfaces><Alignments>"), 1)
	start := time.Now()
	read(t, text)
	if d := time.Since(start); d > 20*time.Second {
		t.Errorf("8 MB of surface took %v", d)
	}
	long := strings.Repeat("1 2 3 ", 500e3) // 3 MB of chain
	refused(t, wrap(`<IrregularLine><PntList2D>`+long+`</PntList2D></IrregularLine>`, level), "", "<IrregularLine> in CoordGeom is not read")
	refused(t, wrap(`<Line><Start>`+long+`</Start><End>10 0</End></Line>`, level), "", "has more than 256 characters")
	many := strings.Repeat("<Line><Start>0 0</Start><End>1 0</End></Line>", mostElements+10)
	refused(t, wrap(many, level), "", "more than 10000 elements")
	refused(t, wrap("", strings.Repeat("<PVI>0 0</PVI>", mostElements+10)), "", "more than 10000 points")
	_, problems := ReadLandXML("a.xml", wrap(strings.Repeat("<Spiral/>\n", 5000), level), "")
	if len(problems) > mostProblems+1 || !strings.Contains(problems.Error(), "more problems are not listed") {
		t.Errorf("%d problems", len(problems))
	}
	if _, problems := ReadLandXML("a.xml", make([]byte, mostText+1), ""); len(problems) != 1 {
		t.Errorf("got %v", problems)
	}
}

// The open sample line-clothoid-arc.xml (repository mac999/landxml_parser) is
// not ours to keep; BOXWALK_SAMPLES names the folder it is in.
func TestBothSpiralsOfTheOpenSampleAreNamed(t *testing.T) {
	folder := os.Getenv("BOXWALK_SAMPLES")
	if folder == "" {
		if os.Getenv("CI") != "" {
			t.Fatal("BOXWALK_SAMPLES is not set, and this is CI")
		}
		t.Skip("NOT TESTED: set BOXWALK_SAMPLES to the folder that holds line-clothoid-arc.xml")
	}
	text, err := os.ReadFile(filepath.Join(folder, "line-clothoid-arc.xml"))
	if err != nil {
		t.Fatal(err)
	}
	a, problems := ReadLandXML("line-clothoid-arc.xml", text, "Main Road CL")
	var spirals []int
	for _, p := range problems {
		if p.Severity == diag.Error && strings.Contains(p.Summary, "<Spiral> (clothoid, length 80.000000000000)") && p.Column == 5 {
			spirals = append(spirals, p.Line)
		}
	}
	if a != nil || len(spirals) != 2 || spirals[0] == spirals[1] {
		t.Errorf("spirals in lines %v of\n%v", spirals, problems)
	}
	// its arc alone, with the spirals taken out: the chord and tangent that it stores
	arc := string(text)
	from, to := strings.Index(arc, "<Curve"), strings.Index(arc, "</Curve>")
	a = read(t, wrap(arc[from:to]+"</Curve>", level))
	near1(t, "chord", a.Curves()[0].Chord(), 197.923167403618, 1e-9)
	near1(t, "tangent", a.Curves()[0].Tangent(), 102.136768488415, 1e-9)
	near1(t, "radius", a.Curves()[0].Radius, 400, 0)
}

func FuzzReadLandXML(f *testing.F) {
	for _, name := range []string{"bend-and-curve.xml", "hostile.xml", "entities.xml"} {
		f.Add(readFile(f, name))
	}
	f.Add(wrap(`<Line><Start>0 0</Start><End>500 0</End></Line><Curve rot="cw" radius="300"><PI>1000 0</PI></Curve><Line><Start>2000 1000</Start><End>2100 1100</End></Line>`, level))
	f.Fuzz(func(t *testing.T, text []byte) {
		a, problems := ReadLandXML("a.xml", text, "")
		if (a == nil) != problems.HasErrors() {
			t.Fatalf("line %v with problems %v", a != nil, problems)
		}
		if a == nil {
			return
		}
		for _, along := range []float64{0, a.Length() / 3, a.Length()} {
			p, err := a.At(along)
			if err != nil || math.IsNaN(p.Point.Len()+p.Heading+p.Grade+p.Elevation) {
				t.Fatalf("at %g: %+v, %v", along, p, err)
			}
		}
		if c, err := a.Chord(0, a.Length()); err == nil && math.IsNaN(c.Plan+c.Profile) {
			t.Fatal("a mid-ordinate is not a number")
		}
	})
}

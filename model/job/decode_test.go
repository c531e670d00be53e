package job

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"boxwalk/model/diag"
	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write the golden files")

// trial is a job in small that uses every kind of field.
type trial struct {
	Job     trialTitle              `yaml:"job" doc:"Name and units."`
	Culvert trialCulvert            `yaml:"culvert" doc:"The concrete."`
	Travel  trialTravel             `yaml:"travel" optional:"true" doc:"How the carrier moves."`
	Channel *trialChannel           `yaml:"channel" doc:"Low-flow channel."`
	Set     map[string]units.Length `yaml:"set" optional:"true" unit:"mm" min:"0 mm" doc:"Settings, bare numbers in mm or in."`
	Steps   []trialStep             `yaml:"steps" optional:"true" doc:"Steps."`
}

type trialTitle struct {
	Name   string `yaml:"name" doc:"Name of the job."`
	Number string `yaml:"number" default:"" doc:"Number of the job."`
	Units  string `yaml:"units" default:"metric" enum:"metric|imperial" doc:"Units."`
}

type trialCulvert struct {
	Cells    trialCells        `yaml:"cells" default:"1" doc:"How many cells, or a list."`
	Span     units.Length      `yaml:"span" above:"0 mm" max:"30 m" example:"3 m" doc:"Clear width, m or ft."`
	Roof     units.Length      `yaml:"roof" min:"100 mm" max:"5 m" doc:"Roof slab, m or ft."`
	Haunch   *units.Size2      `yaml:"haunch" min:"0 mm" max:"2 m" unit:"mm" doc:"Run x rise, mm or in."`
	Skew     units.Angle       `yaml:"skew" default:"0 deg" min:"-60 deg" max:"60 deg" doc:"Skew, deg."`
	Fall     units.Slope       `yaml:"fall" default:"0 %" doc:"Fall, %."`
	Pours    []units.Length    `yaml:"pours" min:"1 m" max:"30 m" minitems:"1" maxitems:"4" doc:"Lengths of the pours, m or ft."`
	Start    units.Station     `yaml:"start" default:"0+000" doc:"Station of the inlet."`
	Easting  units.Length      `yaml:"easting" default:"0 m" min:"-20000000 m" max:"20000000 m" doc:"Easting, m or ft."`
	Corner   [2]units.Length   `yaml:"corner" optional:"true" doc:"A point, m or ft."`
	Strength units.Pressure    `yaml:"strength" default:"30 MPa" above:"0 MPa" doc:"Strength, MPa or psi."`
	Warm     units.Temperature `yaml:"warm" default:"15 degC" min:"-10 degC" max:"60 degC" doc:"Temperature, degC or degF."`
}

type trialTravel struct {
	Capacity  units.Force  `yaml:"capacity" default:"20 kN" min:"1 kN" doc:"Pull, kN or kip."`
	Breakaway units.Number `yaml:"breakaway" default:"2" min:"1" max:"10" doc:"Starting over rolling."`
	Plate     *units.Size3 `yaml:"plate" max:"100 mm" doc:"Plate, m or ft."`
	Passes    int          `yaml:"passes" default:"3" min:"1" max:"9" doc:"How many passes."`
	Chocked   bool         `yaml:"chocked" default:"true" doc:"Whether wheels are chocked."`
}

type trialChannel struct {
	Width units.Length `yaml:"width" above:"0 mm" doc:"Width, m or ft."`
	Depth units.Length `yaml:"depth" above:"0 mm" doc:"Depth, m or ft."`
}

// Check holds that a channel is wider than deep.
func (c *trialChannel) Check(d *Decoder, path string) {
	if c.Depth > c.Width {
		d.FailAt(path+".depth", "the depth is more than the width", "", "write at most "+c.Width.Text(d.System()))
	}
}

type trialStep struct {
	Step string `yaml:"step" doc:"Name of the step."`
	Say  string `yaml:"say" default:"" doc:"What the crew does."`
}

// trialCells is a count or a list of spans.
type trialCells struct {
	Count int
	Spans []units.Length
}

func (c *trialCells) DecodeNode(d *Decoder, n ast.Node, path string) {
	if d.IsList(n) {
		d.ValueTagged(n, path, &c.Spans, `above:"0 mm" max:"30 m"`)
		c.Count = len(c.Spans)
		return
	}
	d.ValueTagged(n, path, &c.Count, `min:"1" max:"4"`)
}

func (trialCells) JSONSchemaNode() map[string]any {
	return map[string]any{
		"anyOf": []any{
			SchemaOf[int](`min:"1" max:"4"`),
			SchemaOf[[]units.Length](`above:"0 mm" max:"30 m"`),
		},
		"examples": []any{"2", "[3 m, 2.4 m]"},
	}
}

const good = `# a small job
job: {name: "Quarry Lane", number: 014, units: metric}
culvert:
  cells: 2
  span: 10'-6 1/2"     # feet and inches in a metric job
  roof: 300 mm  
  haunch:  # run x rise
    200 x 150   
  skew: 20°
  fall: 1:20
  pours: [8 m, 9, 7.5 m]
  start: 0+026
  easting: 500000 m
  corner: [1, 2 m]
set: {low brace: 590, 'jack': 330 mm}
channel:
  width: 600 mm
  depth: 100 mm
steps:
  - step: wall bottoms in
    say: >
      Turn the low braces
      to 590.
  - {step: ease down to break the bond}
`

func decodeGood(t *testing.T) (*trial, *Decoded) {
	t.Helper()
	got, decoded, problems := Decode[trial]("job.yaml", []byte(good), PeekSystem([]byte(good)))
	if len(problems) > 0 {
		t.Fatalf("the good text has problems:\n%v", problems)
	}
	return got, decoded
}

func TestGoodTextGivesItsValuesAndDefaults(t *testing.T) {
	got, _ := decodeGood(t)
	want := &trial{
		Job: trialTitle{Name: "Quarry Lane", Number: "014", Units: "metric"},
		Culvert: trialCulvert{
			Cells: trialCells{Count: 2}, Span: 126.5 * 0.0254, Roof: 0.3, Haunch: &units.Size2{X: 0.2, Y: 0.15},
			Skew: math.Pi / 9, Fall: 0.05, Pours: []units.Length{8, 9, 7.5}, Start: 26, Easting: 500000,
			Corner: [2]units.Length{1, 2}, Strength: 30000, Warm: 15,
		},
		Travel:  trialTravel{Capacity: 20, Breakaway: 2, Passes: 3, Chocked: true},
		Channel: &trialChannel{0.6, 0.1},
		Set:     map[string]units.Length{"low brace": 0.59, "jack": 0.33},
		Steps:   []trialStep{{"wall bottoms in", "Turn the low braces to 590."}, {"ease down to break the bond", ""}},
	}
	got.Culvert.Span = units.Length(math.Round(float64(got.Culvert.Span)*1e12) / 1e12)
	want.Culvert.Span = units.Length(math.Round(float64(want.Culvert.Span)*1e12) / 1e12)
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func TestImperialJobReadsBareNumbersInItsUnits(t *testing.T) {
	text := "job: {name: a, units: imperial}\nculvert: {span: 10, roof: 12 in, haunch: 8 x 6, pours: [30], start: 1+50, strength: 4000, warm: 59}\nset: {jack: 13}\n"
	system := PeekSystem([]byte(text))
	got, _, problems := Decode[trial]("job.yaml", []byte(text), system)
	if system != units.Imperial || len(problems) > 0 {
		t.Fatalf("system %v, problems %v", system, problems)
	}
	c := got.Culvert
	for _, pair := range [][2]float64{
		{float64(c.Span), 3.048}, {float64(c.Roof), 0.3048}, {float64(c.Haunch.X), 0.2032}, {float64(c.Start), 45.72},
		{float64(c.Warm), 15}, {float64(c.Strength), 4000 * 6.894757293168361}, {float64(got.Set["jack"]), 13 * 0.0254},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("got %v, want %v", pair[0], pair[1])
		}
	}
}

func TestPlaceOfEveryValueIsWhereItsTextStands(t *testing.T) {
	_, decoded := decodeGood(t)
	lines := strings.Split(good, "\n")
	for path, want := range map[string]string{
		"job.name": `"Quarry Lane"`, "culvert.span": `10'-6 1/2"`, "culvert.pours[2]": "7.5 m", "culvert.pours": "[8 m",
		"culvert.fall": "1:20", "set.low brace": "590", "set.jack": "330 mm", "steps[1].step": "ease down to break the bond",
		"channel": "channel:", "channel.depth": "100 mm", "steps[0].step": "wall bottoms in", "culvert": "culvert:",
		"culvert.roof": "300 mm", "culvert.haunch": "200 x 150", "culvert.skew": "20°", "culvert.cells": "2", "job": "{name",
	} {
		p := decoded.Place(path)
		if !decoded.Given(path) || p.File != "job.yaml" || p.Line < 1 {
			t.Errorf("%s: place %v, given %v", path, p, decoded.Given(path))
			continue
		}
		if rest := string([]rune(lines[p.Line-1])[p.Column-1:]); !strings.HasPrefix(rest, want) {
			t.Errorf("%s: at %v stands %q, want %q", path, p, rest, want)
		}
	}
	if got, want := decoded.Place("travel.capacity"), (diag.Place{File: "job.yaml", Line: 2, Column: 1}); decoded.Given("travel.capacity") || got != want {
		t.Errorf("a default: place %v, want %v", got, want)
	}
	if got, want := decoded.Place("channel.colour.x[3]"), decoded.Place("channel"); got != want {
		t.Errorf("below a group: place %v, want %v", got, want)
	}
	if got := decoded.Keys("set"); !reflect.DeepEqual(got, []string{"low brace", "jack"}) {
		t.Errorf("keys of set in order: %v", got)
	}
	if got := decoded.Text("culvert.span"); got != `10'-6 1/2"` {
		t.Errorf("text of the span: %q", got)
	}
}

// wrong holds one text for each golden message; base is put before those that
// begin with a plus.
const base = "job: {name: a}\nculvert:\n  span: 3 m\n  roof: 300 mm\n  pours: [8 m]\n"

var wrong = []struct{ name, text string }{
	{"unknown key", "job: {name: a}\nculvert:\n  spann: 3 m\n  span: 3 m\n  roof: 300 mm\n  pours: [8 m]\n"},
	{"unknown key far off", "+  colour: red\n"},
	{"key of another group", "+  capacity: 20 kN\n"},
	{"key of the top", "+  channel: {width: 1 m, depth: 1 m}\n"},
	{"duplicate key", "+  span: 4 m\n"},
	{"missing keys", "job: {}\nculvert:\n  cells: 2\n"},
	{"below least", "+  skew: -75 deg\n"},
	{"above most", "+travel: {breakaway: 12}\n"},
	{"not above", "job: {name: a}\nculvert: {span: 0 m, roof: 300 mm, pours: [8 m]}\n"},
	{"forgotten unit", "job: {name: a}\nculvert: {span: 3 m, roof: 300, pours: [8 m]}\n"},
	{"imperial limit", "job: {name: a, units: imperial}\nculvert: {span: 10', roof: 2 in, pours: [20']}\n"},
	{"wrong kind", "+travel: {capacity: 18 kg}\n"},
	{"comma", "job: {name: a}\nculvert: {span: '2,5 m', roof: 300 mm, pours: [8 m]}\n"},
	{"comma in a flow list", "job: {name: a}\nculvert: {span: 2,5 m, roof: 300 mm, pours: [8 m]}\n"},
	{"comma in a list", "job: {name: a}\nculvert: {span: 2 m, roof: 300 mm, pours: [8,5 m, 9 m]}\n"},
	{"not a number", "+  strength: .nan\n"},
	{"infinite", "+  strength: .inf\n"},
	{"absurd", "+  strength: 1e308\n"},
	{"list for a length", "+  skew: [1, 2]\n"},
	{"keys for a length", "+  skew: {inlet: 20 deg}\n"},
	{"length for a list", "job: {name: a}\nculvert: {span: 3 m, roof: 300 mm, pours: 8 m}\n"},
	{"length for a group", "+channel: 600 mm\n"},
	{"text for a table", "+set: low\n"},
	{"empty list", "job: {name: a}\nculvert: {span: 3 m, roof: 300 mm, pours: []}\n"},
	{"long list", "job: {name: a}\nculvert: {span: 3 m, roof: 300 mm, pours: [2, 2, 2, 2, 2]}\n"},
	{"wrong list item", "job: {name: a}\nculvert: {span: 3 m, roof: 300 mm, pours: [8 m, 200 mm, 9 kN]}\n"},
	{"wrong point", "+  corner: [1 m]\n"},
	{"key without value", "+  skew:\n"},
	{"required key without value", "job: {name: a}\nculvert:\n  span:\n  roof: 300 mm\n  pours: [8 m]\n"},
	{"enum", "job: {name: a, units: imperal}\nculvert: {span: 3 m, roof: 300 mm, pours: [8 m]}\n"},
	{"yes for true", "+travel: {chocked: yes}\n"},
	{"part of a pass", "+travel: {passes: 2.5}\n"},
	{"too many passes", "+travel: {passes: 12}\n"},
	{"size of one", "+  haunch: 200 mm\n"},
	{"size too large", "+  haunch: 200 mm x 3 m\n"},
	{"station", "+  start: 0+26\n"},
	{"union count", "+  cells: 7\n"},
	{"union item", "+  cells: [3 m, -1 m]\n"},
	{"list for true", "+travel: {chocked: [true], passes: {a: 1}, plate: [1]}\n"},
	{"plate", "+travel: {plate: 200 x 200 x 20 mm}\n"},
	{"too warm", "+  warm: 170 degF\n  start: -0+010\n"},
	{"too cold", "+  warm: -20\n"},
	{"list for a name", "job: {name: [a], units: {}}\n"},
	{"names in a table", "+set: {jack: 1, jack: 2, '': 3, \"a\\tb\": 4, gauge: }\n"},
	{"groups without a value", "job:\nculvert:\nset:\nsteps:\ntravel: {plate: , passes: , chocked: }\n"},
	{"step without a name", "+steps:\n  - say: pull\n  - 3\n"},
	{"long name", "job: {name: " + strings.Repeat("long ", 100) + "}\nculvert: {span: 3 m, roof: 300 mm, pours: [8 m]}\n"},
	{"turned text", "job: {name: \"a\\u202eb\"}\nculvert: {span: 3 m, roof: 300 mm, pours: [8 m]}\n"},
	{"invisible character", "job: {name: a\u2028b}\n"},
	{"question mark", "? job\n: {name: a}\n"},
	{"directive", "%YAML 1.2\n---\njob: {name: a}\n"},
	{"text for a file", "span 3 m\n"},
	{"rule between keys", "+channel: {width: 300 mm, depth: 400 mm}\nset: {jack: -1}\n"},
	{"empty name", "job: {name: ''}\nculvert: {span: 3 m, roof: 300 mm, pours: [8 m]}\n"},
	{"line break in a name", `job: {name: "a\nb"}` + "\nculvert: {span: 3 m, roof: 300 mm, pours: [8 m]}\n"},
	{"anchor and alias", "job: &a {name: a}\nculvert: *a\n"},
	{"merge key", "job: {name: a}\nculvert:\n  <<: {span: 3 m}\n"},
	{"tag", "job: !!str a\n"},
	{"two documents", "job: {name: a}\n---\njob: {name: b}\n"},
	{"open bracket", "job: {name: a\nculvert: 3\n"},
	{"tabs", "job:\n\tname: a  #\tb\nculvert: {span: 3\t00 mm}\n"},
	{"open quote", "job: {name: a}\nculvert:\n  span: \"10'\n  roof: 300 mm\n"},
	{"bad indent", "job: {name: a}\nculvert:\n  span: 3 m\n roof: 300 mm\n"},
	{"not UTF-8", "job:\n  name: Stra\xdfe\n"},
	{"control character", "job:\n  name: a\x1b[2J\n"},
	{"empty file", "# nothing\n"},
	{"a list as a file", "- a\n"},
	{"everything at once", "job: {nmae: a, units: metrik}\nculvert:\n  span: -3 m\n  roof: 300\n  skew: 20 mm\n  pours: [8 m, 90 m]\n  haunch: 200 x 200 x 200\ntravel: {passes: many}\n"},
}

func TestWrongTextsGetTheirMessages(t *testing.T) {
	var out bytes.Buffer
	for _, c := range wrong {
		text := strings.Replace(c.text, "+", base, 1)
		if !strings.HasPrefix(c.text, "+") {
			text = c.text
		}
		value, _, problems := Decode[trial]("job.yaml", []byte(text), PeekSystem([]byte(text)))
		if value != nil || !problems.HasErrors() {
			t.Errorf("%s: accepted", c.name)
		}
		fmt.Fprintf(&out, "== %s\n", c.name)
		if err := problems.Render(&out, nil); err != nil {
			t.Fatal(err)
		}
	}
	golden(t, "messages.golden", out.Bytes())
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "decode", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; run with -update and look at the change\n%s", path, got)
	}
}

func TestSystemIsFoundOrMetric(t *testing.T) {
	for text, want := range map[string]units.System{
		"job: {units: imperial}":       units.Imperial,
		"gear:\n  units: 'imperial'\n": units.Imperial,
		"job: {units: metric}":         units.Metric,
		"job: imperial":                units.Metric,
		"job: [":                       units.Metric,
		"":                             units.Metric,
	} {
		if got := PeekSystem([]byte(text)); got != want {
			t.Errorf("%q: got %v, want %v", text, got, want)
		}
	}
}

func TestNearestKeyIsASlipOfTheKeysAway(t *testing.T) {
	keys := []string{"span", "rise", "roof", "outer_wall", "strip.clear"}
	for text, want := range map[string]string{
		"spam": "span", "rsie": "rise", "outer-wall": "outer_wall", "OuterWall": "outer_wall", "strip_clear": "strip.clear",
		"colour": "", "x": "", "Roof": "roof", strings.Repeat("r", 100): "",
	} {
		if got := nearest(text, keys); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestEditsCountALetterEach(t *testing.T) {
	for pair, want := range map[[2]string]int{
		{"span", "span"}: 0, {"spam", "span"}: 1, {"sapn", "span"}: 1, {"", "abc"}: 3, {"kitten", "sitting"}: 3, {"ab", "ba"}: 1,
	} {
		if got := edits(pair[0], pair[1]); got != want {
			t.Errorf("%v: got %d, want %d", pair, got, want)
		}
	}
}

func TestProblemOfARuleStandsAtItsValue(t *testing.T) {
	_, decoded := decodeGood(t)
	got := decoded.Put(diag.Problem{Key: "culvert.pours[1]", Summary: "9 m is longer than the form, 8.5 m", Detail: "9 m - 8.5 m = 0.5 m", Fix: "write 8.5 m"}).Error()
	want := "job.yaml:11:16: error: culvert.pours #2: 9 m is longer than the form, 8.5 m (9 m - 8.5 m = 0.5 m); write 8.5 m"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestPathsAreSaidWithItemsCountedFromOne(t *testing.T) {
	for path, want := range map[string]string{
		"culvert.pours[2]": "culvert.pours #3", "a[0][1].b": "a #1 #2.b", "set.low [brace": "set.low [brace", "": "", "a[b]": "a[b]",
	} {
		if got := said(path); got != want {
			t.Errorf("%s: got %q, want %q", path, got, want)
		}
	}
}

// TestFixOfALengthOutOfItsLimitsWorks follows the advice of the message.
func TestFixOfALengthOutOfItsLimitsWorks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-200, 200).Draw(t, "span")
		unit := rapid.SampledFrom([]string{"", " m", " mm", " ft", "'", " kN", " furlong"}).Draw(t, "unit")
		system := rapid.SampledFrom([]units.System{units.Metric, units.Imperial}).Draw(t, "system")
		written := func(span string) []byte {
			return []byte("job: {name: a}\nculvert:\n  span: " + span + "\n  roof: 300 mm\n  pours: [8 m]\n")
		}
		got, _, problems := Decode[trial]("job.yaml", written(fmt.Sprintf("%.3f%s", value, unit)), system)
		if got != nil {
			if s := got.Culvert.Span; s <= 0 || s > 30 {
				t.Fatalf("a span of %v was accepted", s)
			}
			return
		}
		if len(problems) != 1 {
			t.Fatalf("%d problems: %v", len(problems), problems)
		}
		fix := strings.TrimSuffix(strings.TrimPrefix(problems[0].Fix, "write "), " if that is meant")
		fix = strings.TrimPrefix(fix, "for example ")
		if got, _, problems := Decode[trial]("job.yaml", written(fix), system); got == nil {
			t.Fatalf("%q does not work: %v", fix, problems)
		}
	})
}

func BenchmarkDecode(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if v, _, problems := Decode[trial]("job.yaml", []byte(good), units.Metric); v == nil {
			b.Fatal(problems)
		}
	}
}

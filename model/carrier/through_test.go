package carrier_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"boxwalk/clearance/certify"
	"boxwalk/clearance/check"
	"boxwalk/clearance/proof"
	"boxwalk/clearance/result"
	"boxwalk/export/dxf"
	"boxwalk/export/sheet"
	"boxwalk/export/svg"
	"boxwalk/export/table"
	"boxwalk/export/views"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// What follows takes roof_lid, a kind that stands in kind_lid_test.go alone,
// from the text of two files to everything that is made of them.

const lidGear = `
gear: {name: Lid 24, kind: roof_lid, units: metric}
form: {length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm, piece: 2.4 m}
wall:
  pressure: 70 kPa
  heights: [1950 mm, 1650 mm, 300 mm]
  depth: 100 mm
  mass: 55
  over_kicker: {min: 25 mm, max: 120 mm, prefer: 50 mm}
  walers: {section: 80 x 80 mm, above_foot: [250 mm], below_top: [1000 mm, 350 mm], mass: 10.0, moment: 10 kNm, shear: 60 kN}
corner: {haunch: 200 x 200 mm, return: 80 mm, depth: 100 mm, mass: 65, pressure: 40 kPa}
roof:
  pressure: 30 kPa
  mass: 60
  widths: [1300 mm]
  depth: 100 mm
  stringers: {section: 80 x 80 mm, from_filler: [320 mm], middle: true, mass: 10.0, moment: 5 kNm, shear: 40 kN, inertia: 260 cm4}
  seat: 10 mm
  filler: {min: 0 mm, max: 0 mm}
  filler_length: 1000 mm
  pocket: 220 x 220 x 20 mm
  seal: 10 mm
frame:
  side: 40 kN
  gauge: {min: 1400 mm, max: 2200 mm, increment: 100 mm, prefer: 1800 mm}
  leg:
    section: 120 mm
    axial: 95 kN
    outer_mass: 22.6
    inner_mass: 15.7
    length: {min: 1240 mm, max: 2040 mm, increment: 50 mm}
    outer: 1200 mm
    inner: 1100 mm
    overlap: 250 mm
  header:
    section: 120 x 140 mm
    moment: 30 kNm
    shear: 120 kN
    inertia: 2200 cm4
    length: 2440 mm
    mass: 26.4
    arm: {section: 100 x 120 mm, length: 700 mm, behind: 100 mm, overlap: 300 mm, mass: 20, moment: 18 kNm, shear: 90 kN, inertia: 1100 cm4}
  sill: 120 x 100 mm
  strut: 120 x 100 mm
  sill_mass: 18.8
  strut_mass: 18.8
jack: {reading: {min: 140 mm, max: 355 mm}, lower: 120 mm, plate: 150 x 150 x 15 mm, screw: 60 mm, capacity: 60 kN}
wheels: {diameter: 200 mm, tread: 100 mm, axle: 110 mm, at: [0.3 m, 2.1 m], capacity: 75 kN, side: 36 kN}
lifting: {pads: [0.45 m, 1.95 m], capacity: 60 kN, stroke: 200 mm}
ties: {spacing: 1.2 m, diameter: 15 mm, capacity: 90 kN}
capacities: {basis: permissible, source: made up}
pulls: {upper brace: 25 kN}
links:
  - name: upper brace
    drives: wall
    from: {body: frame, out: 560 mm, above_header: -120 mm}
    to: {body: wall, behind: 210 mm, below_top: 350 mm}
    length: {min: 620 mm, max: 770 mm}
    thickness: 50 mm
    axial: 90 kN
    mass: 3.9
    beside: -100 mm
  - name: low brace
    from: {body: frame, out: 560 mm, above_sill: 140 mm}
    to: {body: wall, behind: 210 mm, above_foot: 250 mm}
    length: {min: 570 mm, max: 745 mm}
    thickness: 50 mm
    axial: 90 kN
    mass: 3.9
    beside: 100 mm
steps:
  - step: ties out
    say: Outside panels slung or propped, draw the ties. Snug the hanger nuts.
    caution: A form freed of its ties can fall outward too.
    removes: [ties]
  - step: walls in
    say: Shorten all upper braces together; the low braces follow.
    caution: The lid stays up on the headers.
    drivers: {upper brace: 633 mm}
  - step: down to wheels
    say: Lower all jacks, both sides together, until the wheels carry.
    caution: Wheels chocked and restraint on before the wheels carry.
    drivers: {jack: wheels}
  - step: raise jack plates
    say: Check restraint and chocks, then raise all jack plates.
    caution: Restraint on and wheels chocked before jack plates leave the invert.
    drivers: {jack: wheels - 60 mm}
`

const lidJob = `
job: {name: cell under a lid, number: L-24}
culvert:
  cells: 1
  span: 3.0 m
  rise: 2.4 m
  roof: 300 mm
  invert: 300 mm
  outer_wall: 250 mm
  haunch: {top: 200 x 200 mm, bottom: 150 x 150 mm}
  kicker: 300 mm
  pours: [2.3 m]
left_in_place:
  hangers: {lines: [0 m], plate: 200 x 200 x 20 mm, rod: 25 mm, tail: 0 mm, rod_capacity: 80 kN, plate_stress: 160 MPa, beam: {moment: 60 kNm, shear: 60 kN, bears: 200 x 150 mm}}
ends: {outlet: {apron: 12 m}}
schedule: {invert_age: 7 d, walls_age: 4 d, roof_age: 4 d}
concrete: {strength: 30 MPa, cement: N, curing: 16 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}
stand: {wind: 0.3 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}
anchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}
release: {walls: {strength: 5 MPa}, roof: {strength: 15 MPa}}
travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}
capacities: {basis: permissible, source: plates of winch and restraint}
gear: gear.yaml
`

// readLid reads the made-up gear with more at its end.
func readLid(t *testing.T, more string) *job.Gear {
	t.Helper()
	g, _, problems := job.Decode[job.Gear]("gear.yaml", []byte(lidGear+more), units.Metric)
	if g == nil {
		t.Fatal(problems.Error())
	}
	return g
}

// lid is the study of the made-up carrier.
func lid(t *testing.T) *model.Study {
	t.Helper()
	g := readLid(t, "")
	j, _, problems := job.Decode[job.Job]("job.yaml", []byte(lidJob), units.Metric)
	if j == nil {
		t.Fatal(problems.Error())
	}
	if lacks := carrier.Lacks(g); len(lacks) > 0 {
		t.Fatal(lacks)
	}
	s, troubles := model.Build(j, g)
	if len(troubles) > 0 {
		t.Fatal(troubles)
	}
	return s
}

func TestAMadeUpKindOfCollapseGoesThroughCheckDrawingsPicturesAndProof(t *testing.T) {
	s := lid(t)
	e := check.Examine(s, check.Options{Version: "test", Proof: true})
	for _, c := range e.Result.Checks {
		if c.Verdict != result.Pass {
			t.Errorf("%s %s: %v: %s", c.ID, c.Subject, c.Verdict, c.Text)
		}
	}
	checkLidGaps(t, e.Result)
	checkLidDrawings(t, s, e.Result)
	checkLidProof(t, e)
}

// A kind states what it takes; what belongs to another is refused without either
// knowing of the other.
func TestAMadeUpKindRefusesWhatBelongsToOthers(t *testing.T) {
	lacks := carrier.Lacks(readLid(t, "hinge: {behind: 160 mm, above: 50 mm}\nslide: {draw: {min: 0 mm, max: 100 mm}, bracket: {from: 460 mm, above: 15 mm, depth: 65 mm}}\n"))
	if len(lacks) != 2 || lacks[0].Key != "hinge" || lacks[1].Key != "slide" || lacks[1].Summary != "roof_lid has no roller track" {
		t.Errorf("%+v", lacks)
	}
	g := readLid(t, "")
	g.Gear.Kind = "roof_halves" // which needs a hinge, and a driven half
	if lacks := carrier.Lacks(g); len(lacks) < 2 || lacks[0].Key != "gear.kind" {
		t.Errorf("%+v", lacks)
	}
}

// kindAsked is what source text has where it asks which kind of collapse it has
// to do with: the key, or a kind's name.
var kindAsked = regexp.MustCompile(`Gear\.Kind\b|roof_(halves|whole|lid)`)

// Names stand in a kind's own file, and in the descriptions of keys; the key is
// asked for where kinds are looked up.
func TestOnlyAKindsOwnFileAsksWhichKindItIs(t *testing.T) {
	asked := 0
	err := fs.WalkDir(os.DirFS("../.."), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile("../../" + path)
		found := kindAsked.FindAllString(string(text), -1)
		asked += len(found)
		if len(found) > 0 && !strings.HasPrefix(path, "model/carrier/kind") && path != "model/job/gear.go" {
			t.Errorf("%s has %q", path, found)
		}
		return err
	})
	if err != nil || asked < 10 {
		t.Error(asked, err)
	}
}

// checkLidGaps holds gaps by hand. The brace goes from (560, 2020) to (1290, 1850):
// 730 out at first, and sqrt(633^2 - 170^2) = 609.745 when it is 633 long, so that
// the walls are drawn in by 120.255. All comes down by 330 - 210 = 120: under the
// soffit that is the gap, and 120 / sqrt 2 = 84.853 square to the haunch. The foot
// of the wall's face comes to (1500 - 120.255, 250 - 120): from the bottom haunch,
// which runs from (1500, 150) to (1350, 0), (1350 - 1379.745 + 130) / sqrt 2 = 70.891.
func checkLidGaps(t *testing.T, r *result.Result) {
	t.Helper()
	for _, want := range []struct {
		step, role, zone string
		mm               float64
	}{
		{"walls in", "wall panel", "wall", 120.255}, {"walls in", "roof panel", "roof", 0}, {"walls in", "corner panel", "haunch_top", 0},
		{"down to wheels", "roof panel", "roof", 120}, {"down to wheels", "corner panel", "haunch_top", 84.853},
		{"down to wheels", "wall panel", "haunch_bottom", 70.891}, {"down to wheels", "wall panel", "wall", 120.255},
	} {
		low, high := math.Inf(1), math.Inf(1)
		for _, s := range r.Steps {
			for _, end := range s.End {
				if s.Name == want.step && end.Role == want.role && end.Against == want.zone {
					low, high = math.Min(low, 1e3*end.Value.Lower), math.Min(high, 1e3*end.Value.Upper)
				}
			}
		}
		if math.Abs(low-want.mm) > 0.001 || math.Abs(high-want.mm) > 0.001 {
			t.Errorf("%s: %s to %s %.4f to %.4f mm, by hand %.3f", want.step, want.role, want.zone, low, high, want.mm)
		}
	}
}

// checkLidDrawings draws everything and looks for what only the kind can tell.
func checkLidDrawings(t *testing.T, s *model.Study, r *result.Result) {
	t.Helper()
	list, err := views.Sheets(s, r)
	if err != nil {
		t.Fatal(err)
	}
	pictures, err := views.Pictures(s, r)
	if err != nil {
		t.Fatal(err)
	}
	var section, all bytes.Buffer
	for _, n := range append(list, pictures...) {
		for _, o := range sheet.Overlaps(n.Sheet) {
			t.Errorf("%s: %v", n.Name, o)
		}
		for _, write := range []func(io.Writer, *sheet.Sheet) error{svg.Encode, dxf.Encode} {
			if err := write(&all, n.Sheet); err != nil {
				t.Errorf("%s: %v", n.Name, err)
			}
		}
		if strings.HasSuffix(n.Name, "section-raised") {
			_ = svg.Encode(&section, n.Sheet)
		}
	}
	for _, want := range []string{"2600 lid", "Wall panel up the haunch", "upper brace", "header arm"} {
		if !strings.Contains(section.String(), want) {
			t.Errorf("the raised section does not say %q", want)
		}
	}
	for _, other := range []string{"Hinge ", "Fall of", "Filler width"} {
		if strings.Contains(section.String(), other) {
			t.Errorf("the raised section says %q", other)
		}
	}
	if len(pictures) < 2*len(s.Bays[0].Steps) {
		t.Errorf("%d pictures of %d steps", len(pictures), len(s.Bays[0].Steps))
	}
	for _, write := range []func() error{func() error { return table.Parts(&all, s, r) }, func() error { return table.Steps(&all, r, units.Metric) },
		func() error { return table.Settings(&all, r, units.Metric) }, func() error { return table.JSON(&all, r) }} {
		if err := write(); err != nil {
			t.Error(err)
		}
	}
}

// checkLidProof writes the proof and has it verified against its result.
func checkLidProof(t *testing.T, e *check.Examination) {
	t.Helper()
	result, err := json.Marshal(e.Result)
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := certify.Write(&text, e, certify.Options{Result: fmt.Sprintf("%x", sha256.Sum256(result))}); err != nil {
		t.Fatal(err)
	}
	report, err := proof.Verify(&text)
	if err == nil {
		err = report.Holds(bytes.NewReader(result))
	}
	if err != nil || !report.Whole || len(report.Unproved) > 0 {
		t.Errorf("%v: %+v", err, report)
	}
}

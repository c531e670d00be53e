package step

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/export/assembly"
	"boxwalk/model"
	"boxwalk/model/geom"
)

// A wheel touches the invert that it stands on, and a jack plate has stood on it: how far
// plates are up is another check, setup.rest.
var touching = [][2]string{{"wheel", "invert"}, {"jack plate", "invert"}}

// request is what the other kernel is asked, in mm; see testdata/measure.py.
type request struct {
	File     string      `json:"file"`
	Answer   string      `json:"answer"`
	Expected []solid     `json:"expected"`
	Touch    [][2]string `json:"touch"`
}

type solid struct {
	Mark   string   `json:"mark"`
	Role   string   `json:"role"`
	Zone   string   `json:"zone"`
	Volume float64  `json:"volume"`
	At     geom.Vec `json:"at"` // centroid
}

type answer struct {
	Solids      int                `json:"solids"`
	Invalid     int                `json:"invalid"`
	Open        int                `json:"open"`
	Unmatched   []string           `json:"unmatched"`
	WorstVolume float64            `json:"worst_volume"`
	Distance    map[string]float64 `json:"distance"`
	Common      map[string]float64 `json:"common"`
}

// expected are the solids of an assembly as the model has them.
func expected(a assembly.Assembly) []solid {
	var out []solid
	for _, g := range a.Groups {
		for _, p := range g.Pieces {
			for _, s := range p.Solids {
				e := solid{Mark: p.Mark, Role: string(p.Role), Zone: string(p.Zone), Volume: 1e9 * s.Volume(), At: g.Pose.Apply(s.Centroid()).Mul(1000)}
				if r := p.Round; r != nil {
					e.Volume = 1e9 * math.Pi * r.Radius * r.Radius * (r.To - r.From)
				}
				out = append(out, e)
			}
		}
	}
	return out
}

// kernel is the command of the other kernel; where it is missing the test says so
// loudly, and fails where it must not be skipped.
func kernel(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("freecadcmd")
	if err == nil {
		return path
	}
	if os.Getenv("CI") != "" {
		t.Fatal("freecadcmd is not installed, and this must not be skipped")
	}
	t.Skip("SKIPPED: freecadcmd is not installed; STEP files are read by no other kernel")
	return ""
}

// read asks the other kernel for what it finds in a written assembly.
func read(t *testing.T, command string, a assembly.Assembly) answer {
	t.Helper()
	dir := t.TempDir()
	q := request{File: filepath.Join(dir, "a.step"), Answer: filepath.Join(dir, "answer.json"), Expected: expected(a), Touch: touching}
	var text bytes.Buffer
	if err := Encode(&text, a, Head{Name: "a.step"}); err != nil {
		t.Fatal(err)
	}
	asked, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	put(t, q.File, text.Bytes())
	put(t, filepath.Join(dir, "job.json"), asked)
	c := exec.Command(command, "testdata/measure.py")
	c.Env = append(os.Environ(), "STEP_JOB="+filepath.Join(dir, "job.json"), "HOME="+dir)
	said, err := c.CombinedOutput()
	got, failed := os.ReadFile(q.Answer)
	if failed != nil {
		t.Fatalf("%v, %v: %s", err, failed, said)
	}
	var out answer
	if err := json.Unmarshal(got, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func put(t *testing.T, path string, text []byte) {
	t.Helper()
	if err := os.WriteFile(path, text, 0o666); err != nil {
		t.Fatal(err)
	}
}

// sound tells whether the other kernel has every solid, whole and of the same volume.
func sound(t *testing.T, name string, a assembly.Assembly, got answer) {
	t.Helper()
	if n := len(expected(a)); got.Solids != n || got.Invalid != 0 || got.Open != 0 || len(got.Unmatched) > 0 {
		t.Errorf("%s: %d solids of %d, %d invalid, %d open, not found: %q", name, got.Solids, n, got.Invalid, got.Open, got.Unmatched)
	}
	if got.WorstVolume > 1e-6 {
		t.Errorf("%s: a volume is off by %g of it", name, got.WorstVolume)
	}
}

// The whole chain from the outside: another kernel reads the file, finds every solid
// closed and of the model's volume, and measures from carrier to concrete, surface by
// surface, what the check brackets, within 0.1 mm.
func TestAnotherKernelMeasuresTheClearancesThatTheCheckFound(t *testing.T) {
	command := kernel(t)
	for i, name := range []string{"quarry-lane", "heron-creek", "pindle-beck", "skew-30", "four-cells", "thimblewick"} {
		if i%worked.Campaign(6, 1) != 0 {
			continue
		}
		s := worked.Job(t, name)
		b := &s.Bays[0]
		r := check.Run(s, check.Options{Brief: true})
		at := assembly.Collapsed(b)
		a := assembly.Of(b, at)
		got := read(t, command, a)
		sound(t, name, a, got)
		met := 0
		for _, e := range collapsed(b, r) {
			lower, upper := 1000*e.Value.Lower, 1000*e.Value.Upper
			if d := got.Distance[string(e.Subject.Zone)]; d < lower-0.1 || d > upper+0.1 {
				t.Errorf("%s, %s: the check has %.4f to %.4f mm, the other kernel %.4f", name, e.Subject, lower, upper, d)
			}
			met++
		}
		if met < 4 {
			t.Errorf("%s: %d surfaces were compared", name, met)
		}
	}
}

// collapsed are the travel clearances of a bay that are nearer than is looked for.
func collapsed(b *model.Bay, r *result.Result) []result.Entry {
	var out []result.Entry
	for _, e := range r.Checks {
		if e.ID == "strip.clear" && e.Where.Frame == b.Name() && e.Subject.Kind == result.Collapsed && e.Value != nil && !math.IsInf(e.Value.Upper, 1) {
			out = append(out, e)
		}
	}
	return out
}

// Arms drawn in before the roof is lowered run into concrete: so does the other kernel's
// carrier at the moment that governs, and by nothing when collapsed.
func TestAnotherKernelFindsTheOverlapOfAJobThatEntersConcrete(t *testing.T) {
	command := kernel(t)
	s := worked.Job(t, "arms-first")
	b := &s.Bays[0]
	r := check.Run(s, check.Options{Brief: true})
	at, ok := assembly.Governing(b, r)
	if !ok {
		t.Fatal("nothing governs")
	}
	a := assembly.Of(b, at)
	got := read(t, command, a)
	sound(t, "arms-first", a, got)
	most := 0.0
	for _, v := range got.Common {
		most = max(most, v)
	}
	if most < 1000 {
		t.Errorf("%s: the most that two solids share is %g mm3", at.Name, most)
	}
}

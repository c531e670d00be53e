package views

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"boxwalk/clearance"
	"boxwalk/export/dxf"
	"boxwalk/export/svg"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
)

var samples = flag.String("samples", "", "write drawings of the jobs as DXF and SVG to this folder")
var only = flag.String("jobs", "", "only this job")
var noCheck = flag.Bool("nocheck", false, "without checks")

// load builds the study of a job file.
func load(t testing.TB, path string) *model.Study {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	j, _, problems := job.Decode[job.Job](path, text, job.PeekSystem(text))
	if j == nil {
		t.Fatal(problems.Error())
	}
	gearPath := filepath.Join(filepath.Dir(path), j.Gear)
	text, err = os.ReadFile(gearPath)
	if err != nil {
		t.Fatal(err)
	}
	g, _, problems := job.Decode[job.Gear](gearPath, text, job.PeekSystem(text))
	if g == nil {
		t.Fatal(problems.Error())
	}
	if lacks := carrier.Lacks(g); len(lacks) > 0 {
		t.Fatal(lacks)
	}
	s, troubles := model.Build(j, g)
	if s == nil {
		t.Fatal(troubles)
	}
	return s
}

func TestSamples(t *testing.T) {
	if *samples == "" {
		t.Skip("no -samples folder")
	}
	jobs, _ := filepath.Glob("../../testdata/jobs/*/job.yaml")
	for _, path := range jobs {
		name := filepath.Base(filepath.Dir(path))
		if *only != "" && *only != name {
			continue
		}
		t0 := time.Now()
		s := load(t, path)
		r := &clearance.Result{Version: "dev"}
		if !*noCheck {
			r = clearance.Check(s, clearance.Options{Version: "dev", Inputs: []clearance.Input{{Name: "job.yaml", SHA256: "0123456789abcdef"}}})
		}
		t.Log(name, "checked", time.Since(t0), r.Verdict)
		t0 = time.Now()
		list, err := Sheets(s, r)
		if err != nil {
			t.Error(err)
		}
		t.Log("sheets", time.Since(t0))
		t0 = time.Now()
		pictures, err := Pictures(s, r)
		if err != nil {
			t.Error(err)
		}
		t.Log("pictures", time.Since(t0))
		for _, n := range append(list, pictures...) {
			base := filepath.Join(*samples, name+"-"+n.Name)
			var b bytes.Buffer
			if err := svg.Encode(&b, n.Sheet); err != nil {
				t.Error(n.Name, err)
			}
			os.WriteFile(base+".svg", b.Bytes(), 0o644)
			b.Reset()
			if err := dxf.Encode(&b, n.Sheet); err != nil {
				t.Error(n.Name, err)
			}
			os.WriteFile(base+".dxf", b.Bytes(), 0o644)
		}
	}
}

package views

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
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

// load builds the study of a job file, with another gear if one is given.
func load(t testing.TB, path string, gear ...string) *model.Study {
	fatal := func(v any) {
		if t == nil {
			panic(v)
		}
		t.Helper()
		t.Fatal(v)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		fatal(err)
	}
	j, _, problems := job.Decode[job.Job](path, text, job.PeekSystem(text))
	if j == nil {
		fatal(problems.Error())
	}
	gearPath := filepath.Join(filepath.Dir(path), j.Gear)
	if len(gear) > 0 {
		gearPath = gear[0]
	}
	if text, err = os.ReadFile(gearPath); err != nil {
		fatal(err)
	}
	g, _, problems := job.Decode[job.Gear](gearPath, text, job.PeekSystem(text))
	if g == nil {
		fatal(problems.Error())
	}
	if lacks := carrier.Lacks(g); len(lacks) > 0 {
		fatal(lacks)
	}
	s, troubles := model.Build(j, g)
	if s == nil {
		fatal(troubles)
	}
	return s
}

func TestSamples(t *testing.T) {
	if *samples == "" {
		t.Skip("no -samples folder")
	}
	jobs, _ := filepath.Glob("../../testdata/jobs/*/job.yaml")
	whole, _ := filepath.Glob("../../testdata/gear/roof-whole*.yaml")
	for _, path := range append(jobs, whole...) {
		name := filepath.Base(filepath.Dir(path))
		gear := []string{}
		if strings.Contains(path, "gear") {
			name, path, gear = filepath.Base(path), onePour, []string{path}
		}
		if *only != "" && *only != name {
			continue
		}
		t0 := time.Now()
		s := load(t, path, gear...)
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

package views

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/export/dxf"
	"boxwalk/export/sheet"
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

// Every job, and every gear with a roof in one piece on the job of one pour, is
// drawn and written. With -samples the files stay, to be looked at.
func TestEveryJobAndGearIsDrawnAndWritten(t *testing.T) {
	folder := *samples
	if folder == "" {
		folder = t.TempDir()
	}
	jobs, _ := filepath.Glob("../../testdata/jobs/*/job.yaml")
	whole, _ := filepath.Glob("../../testdata/gear/roof-whole*.yaml")
	if len(jobs) < 8 || len(whole) < 2 {
		t.Fatalf("%d jobs, %d gears", len(jobs), len(whole))
	}
	for i, path := range append(jobs, whole...) {
		kind, name, gear := "job ", filepath.Base(filepath.Dir(path)), []string{}
		if strings.Contains(path, "gear") {
			kind, name, path, gear = "gear ", filepath.Base(path), onePour, []string{path}
		}
		if *only != "" && *only != name || i%worked.Campaign(6, 1) != 0 {
			continue
		}
		t.Run(kind+name, func(t *testing.T) { drawnAndWritten(t, load(t, path, gear...), filepath.Join(folder, name)) })
	}
}

// drawnAndWritten draws a study and writes its sheets to files whose names begin so.
func drawnAndWritten(t *testing.T, s *model.Study, base string) {
	t.Helper()
	r := &result.Result{Version: "dev"}
	if !*noCheck {
		r = check.Run(s, check.Options{Version: "dev", Inputs: []result.Input{{Name: "job.yaml", SHA256: "0123456789abcdef"}}})
	}
	sheets, err := Sheets(s, r)
	if err != nil {
		t.Error(err)
	}
	pictures, err := Pictures(s, r)
	if err != nil {
		t.Error(err)
	}
	if len(sheets) < 5 || len(pictures) < 2 {
		t.Errorf("%d sheets, %d pictures", len(sheets), len(pictures))
	}
	for _, n := range append(sheets, pictures...) {
		written(t, base+"-"+n.Name, n.Sheet)
	}
}

// written puts a sheet into files of both kinds.
func written(t *testing.T, base string, s *sheet.Sheet) {
	t.Helper()
	for ending, encode := range map[string]func(io.Writer, *sheet.Sheet) error{".svg": svg.Encode, ".dxf": dxf.Encode} {
		var b bytes.Buffer
		if err := encode(&b, s); err != nil || b.Len() == 0 {
			t.Errorf("%s: %d bytes, %v", base+ending, b.Len(), err)
		}
		if err := os.WriteFile(base+ending, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

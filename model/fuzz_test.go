package model

import (
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/job"
)

const wrongFiles = "../testdata/bad"

func good(f *testing.F, name string) []byte {
	text, err := os.ReadFile(filepath.Join(wrongFiles, "good", name))
	if err != nil {
		f.Fatal(err)
	}
	return text
}

// seeded adds a good text and all wrong ones of its kind.
func seeded(f *testing.F, kind string, texts ...[]byte) {
	list, err := filepath.Glob(filepath.Join(wrongFiles, kind, "*.yaml"))
	if err != nil || len(list) < 30 {
		f.Fatal(len(list), err)
	}
	for _, path := range list {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		if len(text) < 4000 {
			f.Add(text)
		}
	}
	for _, text := range texts {
		f.Add(text)
	}
}

// built builds a study soon, or says that it cannot be; every solid of it has
// its corners in places.
func built(t *testing.T, j *job.Job, g *job.Gear) {
	began := time.Now()
	s, troubles := Build(j, g)
	if took := time.Since(began); took > 5*time.Second {
		t.Fatalf("took %v", took)
	}
	if (s == nil) != (len(troubles) > 0) {
		t.Fatalf("study %v with troubles %v", s != nil, troubles)
	}
	for _, x := range troubles {
		if x.Summary == "" || x.Fix == "" {
			t.Fatalf("a trouble without words: %+v", x)
		}
	}
	if s == nil {
		return
	}
	for _, b := range s.Bays {
		for _, p := range b.Carrier.Parts {
			finite(t, p.At(), p.Solid)
			if !(p.Mass.Low > 0 && p.Mass.Low <= p.Mass.High) {
				t.Fatalf("%s weighs %v", p.At(), p.Mass)
			}
		}
		for _, c := range b.Concrete {
			finite(t, string(c.Zone), c.Solid)
		}
	}
}

func finite(t *testing.T, name string, s *geom.Solid) {
	for _, v := range s.Vertices {
		for _, x := range v {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%s has a corner at %v", name, v)
			}
		}
	}
}

// FuzzGear: whatever can be read as a gear, with nothing lacking, is built.
func FuzzGear(f *testing.F) {
	seeded(f, "gear", good(f, "gear.yaml"), good(f, "gear-whole.yaml"))
	text := good(f, "job.yaml")
	j, _, problems := job.Decode[job.Job]("job.yaml", text, job.PeekSystem(text))
	if j == nil {
		f.Fatal(problems)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		g, _, problems := job.Decode[job.Gear]("gear.yaml", text, job.PeekSystem(text))
		if (g == nil) != problems.HasErrors() {
			t.Fatalf("gear %v with problems %v", g != nil, problems)
		}
		if g == nil || g.Form.Bents > 4 || len(carrier.Lacks(g)) > 0 {
			return
		}
		built(t, j, g)
	})
}

// FuzzJob: whatever can be read as a job is built.
func FuzzJob(f *testing.F) {
	seeded(f, "job", good(f, "job.yaml"))
	text := good(f, "gear.yaml")
	g, _, problems := job.Decode[job.Gear]("gear.yaml", text, job.PeekSystem(text))
	if g == nil {
		f.Fatal(problems)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		j, _, problems := job.Decode[job.Job]("job.yaml", text, job.PeekSystem(text))
		if (j == nil) != problems.HasErrors() {
			t.Fatalf("job %v with problems %v", j != nil, problems)
		}
		if j == nil || len(j.Culvert.Pours.Lengths()) > 6 || len(j.Culvert.Openings()) > 4 {
			return
		}
		if j.Alignment.LandXML != "" {
			return // read by the program, with a target of its own
		}
		built(t, j, g)
	})
}

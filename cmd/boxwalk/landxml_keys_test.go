package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A job on a LandXML line gives no alignment.start: the file's holds.
func TestSheetsHaveStationsAndBearingsOfTheLandXMLLine(t *testing.T) {
	heronLane(t, "")
	var out, errs bytes.Buffer
	if code := run([]string{"all", "job.yaml", "-o", "out"}, quiet(&out, &errs)); code != exitShort {
		t.Fatalf("exit code %d\n%s", code, errs.String())
	}
	list, err := filepath.Glob("out/drawings/*.svg")
	if err != nil || len(list) == 0 {
		t.Fatal(err)
	}
	var plan string
	for _, name := range list {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), "0+000") {
			t.Errorf("%s has a station 0+000; the line starts at 0+100", filepath.Base(name))
		}
		if strings.HasSuffix(name, "-plan.svg") {
			plan = string(text)
		}
	}
	for _, want := range []string{"0+100", "0+109", "0+118", "0+127", "Alignment ahead bears 74"} {
		if !strings.Contains(plan, want) {
			t.Errorf("the plan has no %q", want)
		}
	}
}

// A line that is given by its profile, or cut where a LandXML profile ends, has no
// last tangent to be made longer.
func TestLineThatEndsWithItsProfileIsFixedAtTheProfile(t *testing.T) {
	t.Run("job", func(t *testing.T) {
		site(t)
		save(t, "job.yaml", bytes.Replace(content(t, "job.yaml"), []byte("gear: gear.yaml"), []byte("alignment: {profile: [{station: 0+000, elevation: 0 m}, {station: 0+003, elevation: 0 m}]}\ngear: gear.yaml"), 1))
		if got := refused(t, nil, "check", "job.yaml"); !strings.Contains(got, "alignment.profile") || strings.Contains(got, "tangent") {
			t.Error(got)
		}
	})
	t.Run("file", func(t *testing.T) {
		onLine(t, "", []byte(lineOf("<Line><Start>0 0</Start><End>20 0</End></Line>", "<PVI>0 0</PVI><PVI>3 0</PVI>")))
		if got := refused(t, nil, "check", "job.yaml"); !strings.Contains(got, "alignment.landxml") || strings.Contains(got, "tangent") {
			t.Error(got)
		}
	})
}

// Start and grade beside a LandXML file, and a name without one, would be read and
// change nothing.
func TestKeysThatChangeNothingBesideALineFileAreRefused(t *testing.T) {
	for _, keys := range []string{", start: {station: 5+000, bearing: 30 deg}", ", grade: 9 %"} {
		t.Run(keys, func(t *testing.T) {
			onLine(t, keys, []byte(lineOf("<Line><Start>0 0</Start><End>20 0</End></Line>", "<PVI>0 0</PVI><PVI>20 0</PVI>")))
			refused(t, nil, "check", "job.yaml")
		})
	}
	t.Run("name", func(t *testing.T) {
		site(t)
		save(t, "job.yaml", bytes.Replace(content(t, "job.yaml"), []byte("gear: gear.yaml"), []byte("alignment: {name: CL, plan: [{tangent: 6 m}]}\ngear: gear.yaml"), 1))
		refused(t, nil, "check", "job.yaml")
	})
}

package main

import (
	"bytes"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"
)

func TestAnApprovalIsOfEverythingButTheGroupSheet(t *testing.T) {
	for text, want := range map[string]string{
		"job: {a: b}\nsheet: {owner: x}\nculvert:\n  cells: 1\n": "job: {a: b}\nculvert:\n  cells: 1\n",
		"sheet:\n  owner: x\n\n  approver: y\nculvert: {}\n":     "culvert: {}\n",
		"sheets: {a: b}\n":                 "sheets: {a: b}\n",
		"culvert:\n  sheet: 1\n":           "culvert:\n  sheet: 1\n",
		"sheet: {owner: x,\nculvert: y}\n": "culvert: y}\n",
		"sheet:\n  owner: x\n# of the culvert\nculvert: {}\nsheet : {date: z}\na: b": "# of the culvert\nculvert: {}\na: b",
	} {
		if got := string(withoutSheet([]byte(text))); got != want {
			t.Errorf("%q without its sheet is %q, want %q", text, got, want)
		}
	}
}

// hashSaid is what check tells to name as approved.
func hashSaid(t *testing.T) string {
	t.Helper()
	var out bytes.Buffer
	run([]string{"check", "job.yaml"}, quiet(&out, io.Discard))
	m := regexp.MustCompile(`approved:\s+([0-9a-f]{12})}`).FindStringSubmatch(out.String())
	if m == nil {
		t.Fatalf("check tells no hash:\n%s", out.String())
	}
	return m[1]
}

// drawnStatus is the raised section's words after draw.
func drawnStatus(t *testing.T) string {
	t.Helper()
	var errs bytes.Buffer
	if code := run([]string{"draw", "job.yaml", "-o", "out"}, quiet(io.Discard, &errs)); code > exitShort {
		t.Fatal(errs.String())
	}
	text, err := os.ReadFile("out/drawings/03-section-raised.svg")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestAChangedInputLosesItsApproval(t *testing.T) {
	// Pindle Beck is cleared and has no group sheet
	plain := bytes.Replace(content(t, "../../testdata/jobs/pindle-beck/job.yaml"), []byte("../../gear/"), nil, 1)
	gear := content(t, "../../testdata/gear/pindle-whole.yaml")
	t.Chdir(t.TempDir())
	save(t, "pindle-whole.yaml", gear)
	save(t, "job.yaml", plain)
	if text := drawnStatus(t); !strings.Contains(text, "For checking") {
		t.Fatal("a job that nobody approved does not say so")
	}
	signed := append([]byte("sheet: {approver: R. Reeve, approved: "+hashSaid(t)+"}\n"), plain...)
	save(t, "job.yaml", signed)
	if text := drawnStatus(t); strings.Contains(text, "For checking") || !strings.Contains(text, "R. Reeve") {
		t.Error("an approval of what is drawn is not taken")
	}
	save(t, "job.yaml", append(signed, "# one more thing\n"...))
	if text := drawnStatus(t); !strings.Contains(text, "For checking") || strings.Contains(text, "R. Reeve") {
		t.Error("an approval outlives a change of the job")
	}
	save(t, "job.yaml", bytes.Replace(signed, []byte("approved: "), []byte("approved: 0"), 1))
	if text := drawnStatus(t); strings.Contains(text, "R. Reeve") {
		t.Error("another hash is taken for an approval")
	}
	save(t, "job.yaml", regexp.MustCompile(`approved: [0-9a-f]{12}`).ReplaceAll(signed, []byte("approved: ''")))
	if text := drawnStatus(t); strings.Contains(text, "R. Reeve") {
		t.Error("no hash is taken for an approval")
	}
}

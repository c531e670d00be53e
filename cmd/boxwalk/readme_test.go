package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// The README shows a sheet of the demo; it must be the sheet that is drawn now.
func TestPictureInTheReadmeIsTheOneThatIsDrawn(t *testing.T) {
	out := t.TempDir()
	var said, wrong bytes.Buffer
	c := console{&bytes.Buffer{}, &said, &wrong, func(string) (string, bool) { return "", false }}
	if code := run([]string{"draw", "../../testdata/jobs/quarry-lane/job.yaml", "-o", out, "--root", "../.."}, c); code != exitPass {
		t.Fatalf("exit %d: %s", code, wrong.String())
	}
	got, err := os.ReadFile(filepath.Join(out, "drawings", "04-section-collapsed.svg"))
	if err != nil {
		t.Fatal(err)
	}
	picture := "../../testdata/readme/section-collapsed.svg"
	if *update {
		if err := os.WriteFile(picture, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(picture)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("the picture in testdata/readme is not the one drawn now; run go test ./cmd/boxwalk -update and look at it")
	}
}

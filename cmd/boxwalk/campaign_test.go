package main

import (
	"bytes"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// twoJobs makes two jobs that differ in every sheet the working directory's,
// and returns what boxwalk all writes of each, by name, and the time it takes.
func twoJobs(t *testing.T) (want []map[string]string, took time.Duration) {
	t.Helper()
	site(t)
	text := content(t, "job.yaml")
	other := bytes.Replace(text, []byte("name: "), []byte("name: Other "), 1)
	if bytes.Equal(text, other) {
		t.Fatal("the job has no name")
	}
	save(t, "other.yaml", other)
	for _, job := range []string{"job.yaml", "other.yaml"} {
		began := time.Now()
		if err := program(t, io.Discard, "boxwalk", "all", job, "-o", job+".out").Run(); ended(t, err) > exitShort {
			t.Fatal(err)
		}
		took = time.Since(began)
		want = append(want, relative(t, job+".out"))
	}
	return want, took
}

// relative is every file below a folder but a journal, by its name there.
func relative(t *testing.T, folder string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for name, text := range snapshot(t, folder) {
		name, err := filepath.Rel(folder, name)
		if err != nil {
			t.Fatal(err)
		}
		if text != "folder" && (!strings.HasPrefix(filepath.Base(name), ".boxwalk-") || name == manifest) {
			out[name] = text
		}
	}
	return out
}

// oneOf holds that every file in out is that of one job or the other and none
// is missing, and, where the folder is to be whole, that all are of one.
func oneOf(t *testing.T, want []map[string]string, whole bool) {
	t.Helper()
	have := relative(t, "out")
	same := make([]int, len(want))
	for name := range want[0] {
		known := false
		for i := range want {
			if have[name] == want[i][name] {
				same[i]++
				known = true
			}
		}
		if !known {
			t.Errorf("%s is missing or of neither job", name)
		}
	}
	if same[0] < len(have) && same[1] < len(have) && (whole || listed(t, "out")) {
		t.Errorf("%d and %d of %d files are of one job; the list says %v", same[0], same[1], len(have), listed(t, "out"))
	}
	if whole && len(snapshot(t, "out")) != len(snapshot(t, "job.yaml.out")) {
		t.Error("something is left beside the files")
	}
}

// The program itself, killed, raced and interrupted at any moment over a folder
// that holds the output of another job: 50 kills, 20 races and 16 signals
// with BOXWALK_CAMPAIGN=long.
func TestTheProgramKilledRacedAndInterruptedLosesNothing(t *testing.T) {
	if testing.Short() {
		return // as with the race detector, under which each run takes long
	}
	want, took := twoJobs(t)
	all := []string{"boxwalk", "all", "job.yaml", "-o", "out"}
	other := []string{"boxwalk", "all", "other.yaml", "-o", "out"}
	some := func() { time.Sleep(time.Duration((0.3 + 0.8*rand.Float64()) * float64(took))) }
	finish := func(args []string) {
		t.Helper()
		var said bytes.Buffer
		if c := program(t, &said, args...); ended(t, c.Run()) > exitShort {
			t.Fatal(said.String())
		}
		oneOf(t, want, true)
	}
	finish(all)
	for i := range campaign(1, 20) {
		c := program(t, io.Discard, [][]string{other, all}[i%2]...)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		some()
		c.Process.Kill()
		c.Wait()
		oneOf(t, want, false)
		finish([][]string{all, other}[i%2])
	}
	for range campaign(1, 8) {
		first, second := program(t, os.Stderr, all...), program(t, os.Stderr, other...)
		if err := first.Start(); err != nil {
			t.Fatal(err)
		}
		if ended(t, second.Run()) > exitShort || ended(t, first.Wait()) > exitShort {
			t.Error("one of two runs failed")
		}
		oneOf(t, want, true)
	}
	if runtime.GOOS == "windows" {
		return // which has no signals to send
	}
	codes := signals()
	order := slices.Sorted(maps.Keys(codes))
	for i := range campaign(1, 8) {
		s := order[(i+2)%len(order)] // the others are sent in TestSignalsUndoWhatWasBegunAndEndWithTheirCode
		c := program(t, io.Discard, [][]string{other, all}[i%2]...)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		some()
		c.Process.Signal(s)
		if got := ended(t, c.Wait()); got != codes[s] && got > exitShort { // or it was done before
			t.Errorf("exit code %d, want %d", got, codes[s])
		}
		oneOf(t, want, true)
	}
}

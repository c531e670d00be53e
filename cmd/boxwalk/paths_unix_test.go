//go:build unix

package main

import (
	"bytes"
	"io"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

// pipe makes a named pipe, which keeps everybody waiting who opens it.
func pipe(t *testing.T, name string) {
	t.Helper()
	if err := syscall.Mkfifo(name, 0o666); err != nil {
		t.Fatal(err)
	}
}

// atOnce runs the program, which must end by itself, and returns what it says.
func atOnce(t *testing.T, code int, args ...string) string {
	t.Helper()
	var errs bytes.Buffer
	ended := make(chan int, 1)
	go func() { ended <- run(args, quiet(io.Discard, &errs)) }()
	select {
	case got := <-ended:
		if got != code {
			t.Errorf("%v: exit code %d, want %d\n%s", args, got, code, errs.String())
		}
	case <-time.After(30 * time.Second * slowdown):
		t.Fatalf("%v waits for ever", args)
	}
	return errs.String()
}

func TestWhatIsNoOrdinaryFileIsRefusedAtOnce(t *testing.T) {
	site(t)
	pipe(t, "pipe")
	symlink(t, "pipe", "to-pipe")
	symlink(t, "nothing", "to-nothing")
	save(t, "file", []byte("mine"))
	if code := run([]string{"check", "job.yaml", "--proof", "proof"}, quiet(io.Discard, io.Discard)); code > exitShort {
		t.Fatal("no proof: exit code", code)
	}
	long := strings.Repeat("n", 300)
	for _, path := range []string{"pipe", "to-pipe", "to-nothing", "/dev/null", "/dev/zero", "/dev/tty", ".", "", long, "file/x", "nul\x00"} {
		atOnce(t, exitInput, "check", path)
		atOnce(t, exitInput, "verify", path)
		if path != "" { // which is as if it was not given
			atOnce(t, exitInput, "verify", "proof", "--result", path)
		}
	}
	for _, path := range []string{"pipe", "to-pipe", "to-nothing", "to-nothing/below", "pipe/below", "/dev/null", "file", "file/below", "-", long, "nul\x00"} {
		atOnce(t, exitInput, "all", "job.yaml", "-o", path)
		atOnce(t, exitInput, "check", "job.yaml", "--root", path)
	}
	for _, path := range []string{"pipe", "to-pipe", "to-nothing", "/dev/null", "/dev/full", "file", "job.yaml", ".", "nowhere/proof", "pipe/proof", "-", long, "nul\x00"} {
		atOnce(t, exitInput, "check", "job.yaml", "--proof", path)
	}
	if got := content(t, "file"); string(got) != "mine" {
		t.Errorf("the file is %q", got)
	}
	for _, name := range []string{"nothing", "-", "nowhere"} {
		if exists(name) {
			t.Errorf("%s was made", name)
		}
	}
}

func TestWhatTheJobNamesAndIsNoFileIsRefusedAtOnce(t *testing.T) {
	site(t)
	save(t, "job.yaml", bytes.Replace(content(t, "job.yaml"), []byte("gear: gear.yaml"), []byte("gear: pipe\nalignment: {landxml: pipe}"), 1))
	pipe(t, "pipe")
	if said := atOnce(t, exitInput, "check", "job.yaml"); strings.Count(said, "pipe is not a file") != 2 {
		t.Error(said)
	}
}

// What stands in an output folder under the names of ours and is no file of
// ours is told; nothing is read from it or written to it.
func TestPipesAndLinksInAnOutputFolderAreInTheWay(t *testing.T) {
	for name, make := range map[string]func(t *testing.T, name string){
		"pipe":             pipe,
		"link to a file":   func(t *testing.T, name string) { symlink(t, "mine", name) },
		"link to nothing":  func(t *testing.T, name string) { symlink(t, "nothing", name) },
		"file of the user": func(t *testing.T, name string) { save(t, name, []byte("mine\n")) },
		"folder":           func(t *testing.T, name string) { os.Mkdir(name, 0o777) },
		"link out of it":   func(t *testing.T, name string) { symlink(t, "../mine", name) },
		"link to a folder": func(t *testing.T, name string) { symlink(t, "aside", name) },
	} {
		for _, place := range []string{lockName, manifest, "drawings"} {
			t.Run(name+" as "+place, func(t *testing.T) {
				t.Chdir(t.TempDir())
				for _, dir := range []string{"out", "out/aside"} {
					if err := os.Mkdir(dir, 0o777); err != nil {
						t.Fatal(err)
					}
				}
				save(t, "mine", []byte("mine"))
				save(t, "out/mine", []byte("mine"))
				make(t, "out/"+place)
				before := listing(t)
				done := wroteAtOnce(t, "out", []product{{"drawings/01-plan.svg", []byte("ours")}})
				switch {
				case place == "drawings" && name == "folder", place == manifest && name == "file of the user":
					if done != nil { // which lists nothing of ours
						t.Error(done)
					}
				case told(io.Discard, done) != exitInput:
					t.Errorf("exit with %v", done)
				case listing(t) != before:
					t.Errorf("before:\n%safter:\n%s", before, listing(t))
				}
			})
		}
	}
}

// listing is what lies below the working directory, with kinds and sizes.
func listing(t *testing.T) string {
	t.Helper()
	var out strings.Builder
	var list func(folder string)
	list = func(folder string) {
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			info, err := e.Info()
			if err != nil {
				t.Fatal(err)
			}
			size := info.Size()
			if e.IsDir() {
				size = 0
			}
			out.WriteString(strings.Join([]string{folder, e.Name(), info.Mode().String(), string(rune('0' + size)), "\n"}, " "))
			if e.IsDir() {
				list(folder + "/" + e.Name())
			}
		}
	}
	list(".")
	return out.String()
}

func wroteAtOnce(t *testing.T, folder string, files []product) error {
	t.Helper()
	ended := make(chan error, 1)
	go func() {
		_, err := wrote(folder, files, false)
		ended <- err
	}()
	select {
	case err := <-ended:
		return err
	case <-time.After(30 * time.Second * slowdown):
		t.Fatal("it waits for ever")
	}
	return nil
}

package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"boxwalk/model/job"
)

// quiet is a console without terminal and environment.
func quiet(out, errs io.Writer) console {
	return console{strings.NewReader(""), out, errs, func(string) (string, bool) { return "", false }}
}

func TestAMistakeOfOursIsToldAndExitsWithThree(t *testing.T) {
	var out bytes.Buffer
	if code := guarded(&out, func() int { panic("no such thing") }); code != exitTool {
		t.Errorf("exit code %d", code)
	}
	for _, want := range []string{"no such thing", "mistake in boxwalk", "Nothing was decided"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	if strings.Contains(out.String(), "goroutine") {
		t.Error("the stack is shown unasked")
	}
}

// broken is a stream that takes nothing.
type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestAnAnswerThatCannotBePrintedExitsWithThree(t *testing.T) {
	for _, args := range [][]string{{"version"}, {"explain"}, {"limits"}, {"schema", "job"}, {"completion", "bash"},
		{"check", "--root", "../..", "../../testdata/jobs/one-pour/job.yaml"}} {
		if code := run(args, quiet(broken{}, io.Discard)); code != exitTool {
			t.Errorf("%v exits with %d", args, code)
		}
	}
}

func TestEveryCommandInTheHelpHasAnExampleAndRuns(t *testing.T) {
	root := newRoot(quiet(io.Discard, io.Discard))
	walk(root, func(c *cobra.Command) {
		if c.Name() == "help" || c.Hidden {
			return
		}
		if c.Example == "" || c.Short == "" {
			t.Errorf("%s has no example or no summary", c.CommandPath())
		}
		for _, line := range strings.Split(c.Example, "\n") {
			if !strings.Contains(line, c.CommandPath()) {
				t.Errorf("the example %q does not show %s", line, c.CommandPath())
			}
		}
		if c != root && c.RunE == nil {
			t.Errorf("%s does nothing", c.CommandPath())
		}
	})
}

func walk(c *cobra.Command, f func(*cobra.Command)) {
	f(c)
	for _, sub := range c.Commands() {
		walk(sub, f)
	}
}

func TestColourNeedsATerminalAndNobodyAgainstIt(t *testing.T) {
	terminal, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer terminal.Close()
	for _, c := range []struct {
		out  io.Writer
		env  map[string]string
		want bool
	}{
		{&bytes.Buffer{}, nil, false},
		{terminal, nil, onTerminal(terminal)},
		{terminal, map[string]string{"NO_COLOR": "1"}, false},
		{terminal, map[string]string{"NO_COLOR": ""}, onTerminal(terminal)},
		{terminal, map[string]string{"TERM": "dumb"}, false},
	} {
		a := &app{console: console{out: c.out, env: func(k string) (string, bool) { v, ok := c.env[k]; return v, ok }}}
		if got := a.colour(); got != c.want {
			t.Errorf("%v: colour %v", c.env, got)
		}
	}
}

func TestProgressIsOneLineThatIsClearedAtTheEnd(t *testing.T) {
	var out bytes.Buffer
	show, end := meter(&out)
	for i := range 1001 {
		show(i, 1000)
	}
	end()
	if strings.Contains(out.String(), "\n") || !strings.HasSuffix(out.String(), "\r\x1b[K") {
		t.Errorf("%q", out.String())
	}
	if n := strings.Count(out.String(), "checking"); n != 101 {
		t.Errorf("written %d times", n)
	}
}

func TestVersionNamesTheRevisionAndWhetherItWasChanged(t *testing.T) {
	rev := debug.BuildSetting{Key: "vcs.revision", Value: "0123456789abcdef0123"}
	for _, c := range []struct {
		modified, want string
	}{{"false", "+0123456789ab"}, {"true", "+0123456789ab.modified"}, {"", "+0123456789ab.modified"}} {
		if got := revision([]debug.BuildSetting{rev, {Key: "vcs.modified", Value: c.modified}}); got != c.want {
			t.Errorf("modified %q gives %q", c.modified, got)
		}
	}
	if got := revision(nil); got != "" {
		t.Errorf("no revision gives %q", got)
	}
}

// Every key of the job's set group can be given by --set: put panics on one it
// has no place for.
func TestEverySettingCanBeOverridden(t *testing.T) {
	text := []byte("jack: 1 m\nleg: 2 m\ngauge: 3 m\nfoot: 4 m\nfiller: 5 m\n")
	from, at, problems := job.Decode[job.Set]("set", text, 0)
	if from == nil {
		t.Fatal(problems)
	}
	var into job.Set
	put(&into, from, at)
	for i, v := range []any{into.Jack, into.Leg, into.Gauge, into.Foot, into.Filler} {
		if v == nil {
			t.Errorf("key %d is dropped", i)
		}
	}
	schema, err := job.Schema[job.Set]("set")
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(schema), `"description"`); n != len(at.Keys("")) {
		t.Errorf("the set group has %d keys, this test gives %d", n, len(at.Keys("")))
	}
}

// snapshot is every file and folder below a folder, with its bytes.
func snapshot(t *testing.T, folder string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			out[path] = "folder"
			return err
		}
		b, err := os.ReadFile(path)
		out[path] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func same(t *testing.T, before, after map[string]string) {
	t.Helper()
	for name, text := range before {
		if after[name] != text {
			t.Errorf("%s has changed", name)
		}
	}
	for name := range after {
		if _, ok := before[name]; !ok {
			t.Errorf("%s is left behind", name)
		}
	}
}

// wrote writes files into a folder as the commands do.
func wrote(folder string, files []product, force bool) (written, error) {
	return target{folder: folder, force: force}.write(files, io.Discard)
}

func TestWhenOneFileCannotBePlacedTheFolderIsAsBefore(t *testing.T) {
	dir := t.TempDir()
	if _, err := wrote(dir, []product{{"a", []byte("one")}, {"sub/b", []byte("two")}}, false); err != nil {
		t.Fatal(err)
	}
	before := snapshot(t, dir)
	cannot := func(files []product, remove ...string) {
		t.Helper()
		f, err := openFolder(dir)
		if err != nil {
			t.Fatal(err)
		}
		defer f.close()
		if err := f.acquire(io.Discard, 0); err != nil {
			t.Fatal(err)
		}
		if err := f.place(files, remove); err == nil {
			t.Fatal("it was placed")
		}
		f.release()
		same(t, before, snapshot(t, dir))
	}
	// the last of the new files stands where a file is in the place of a folder
	cannot([]product{{"a", []byte("new")}, {"c", []byte("new")}, {"new/d", []byte("new")}, {"a/e", []byte("new")}}, "sub/b")
	cannot([]product{{"a", []byte("new")}, {"new/d", []byte("new")}, {"../out", []byte("new")}}, "sub/b")
	// when files are in place already and one to remove cannot be, they go back
	cannot([]product{{"a", []byte("new")}, {"new/d", []byte("new")}}, "sub/b", "../out")
	cannot([]product{{"a", []byte("new")}, {"sub/b", []byte("new")}}, "sub/none")
}

func TestAFolderThatWasMadeForNothingIsTakenAway(t *testing.T) {
	dir := t.TempDir()
	before := snapshot(t, dir)
	if _, err := wrote(filepath.Join(dir, "x/y/z"), []product{{"a", nil}, {"a/b", nil}}, false); err == nil {
		t.Fatal("it was written")
	}
	same(t, before, snapshot(t, dir))
}

func TestAManifestCannotReachOutOfItsFolder(t *testing.T) {
	dir := t.TempDir()
	outside := filepath.Join(dir, "outside")
	if err := errors.Join(os.WriteFile(outside, []byte("mine"), 0o644), os.Mkdir(filepath.Join(dir, "out"), 0o755),
		os.WriteFile(filepath.Join(dir, "out", manifest), []byte(hash([]byte("mine"))+"  ../outside\n"+hash([]byte("mine"))+"  /etc/passwd\n"), 0o644)); err != nil {
		t.Fatal(err)
	}
	if _, err := wrote(filepath.Join(dir, "out"), []product{{"a", nil}}, true); err != nil {
		t.Fatal(err)
	}
	if b, err := os.ReadFile(outside); err != nil || string(b) != "mine" {
		t.Errorf("%q, %v", b, err)
	}
}

func TestALinkInPlaceOfAFileIsNotFollowed(t *testing.T) {
	dir := t.TempDir()
	outside := filepath.Join(dir, "outside")
	out := filepath.Join(dir, "out")
	if err := errors.Join(os.WriteFile(outside, []byte("mine"), 0o644), os.Mkdir(out, 0o755)); err != nil {
		t.Fatal(err)
	}
	symlink(t, outside, filepath.Join(out, "a"))
	if _, err := wrote(out, []product{{"a", []byte("ours")}}, false); err == nil {
		t.Error("the link was overwritten without force")
	}
	if _, err := wrote(out, []product{{"a", []byte("ours")}}, true); err != nil {
		t.Error(err)
	}
	if b, err := os.ReadFile(outside); err != nil || string(b) != "mine" {
		t.Errorf("%q, %v", b, err)
	}
}

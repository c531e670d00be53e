package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// long tells whether every job is tried, and runs are killed, raced and
// interrupted as often as it takes to trust it: as in .ci/run.
func long() bool { return os.Getenv("BOXWALK_CAMPAIGN") == "long" }

// campaign is how often something is tried.
func campaign(few, many int) int {
	if long() {
		return many
	}
	return few
}

// edition is a made-up output that tells its edition in every line, so that a
// file cut off or mixed shows. Odd editions have one file more.
func edition(n int) []product {
	names := []string{"result.json", "clearance.csv", "steps.txt", "views/raised.svg"}
	for i := range 4 {
		names = append(names, fmt.Sprintf("drawings/%02d-plan.dxf", i+1))
	}
	if n%2 == 1 {
		names = append(names, "drawings/13-parts-7.svg")
	}
	var out []product
	for _, name := range names {
		out = append(out, product{name, pageOf(n, name)})
	}
	return out
}

func pageOf(n int, name string) []byte {
	return bytes.Repeat(fmt.Appendf(nil, "%d %s\n", n, name), 500)
}

// rewrite FOLDER FROM TO is a program that writes one edition after the other.
func rewrite() {
	interrupted.watch()
	from, _ := strconv.Atoi(os.Args[2])
	to, _ := strconv.Atoi(os.Args[3])
	for n := from; n < to; n++ {
		if _, err := (target{folder: os.Args[1]}).write(edition(n), os.Stderr); err != nil {
			os.Exit(told(os.Stderr, err))
		}
	}
}

// program is this test as one of the programs that TestMain knows.
func program(t *testing.T, said io.Writer, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return &exec.Cmd{Path: self, Args: args, Stderr: said}
}

// editions holds that every file is whole, of one edition or another, and none
// is missing, and returns the editions. Of more than one the list of files says
// that they do not belong together.
func editions(t *testing.T, folder string) []int {
	t.Helper()
	var found []int
	for _, p := range edition(1) {
		text, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(p.name)))
		if errors.Is(err, os.ErrNotExist) && strings.Contains(p.name, "13-parts") {
			continue
		}
		var n int
		if _, scanned := fmt.Sscanf(string(text), "%d ", &n); err != nil || scanned != nil {
			t.Fatalf("%s is missing or not whole: %v", p.name, err)
		}
		if !bytes.Equal(text, pageOf(n, p.name)) {
			t.Errorf("%s is not whole", p.name)
		}
		if !slices.Contains(found, n) {
			found = append(found, n)
		}
	}
	odd := exists(filepath.Join(folder, "drawings", "13-parts-7.svg"))
	if listed(t, folder) && (len(found) != 1 || odd != (found[0]%2 == 1)) {
		t.Errorf("editions %v, and the list says that all is well", found)
	}
	return found
}

// listed holds a folder against its list, as anybody can: all files of it have
// their hash, and no other is there.
func listed(t *testing.T, folder string) bool {
	t.Helper()
	var list []string
	for _, line := range strings.Split(strings.TrimSpace(string(content(t, filepath.Join(folder, manifest)))), "\n") {
		if strings.HasPrefix(line, madeFrom) {
			continue
		}
		sum, name, _ := strings.Cut(line, "  ")
		text, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(name)))
		if err != nil || hash(text) != sum {
			return false
		}
		list = append(list, filepath.Join(folder, filepath.FromSlash(name)))
	}
	for name, text := range snapshot(t, folder) {
		if text != "folder" && !strings.HasPrefix(filepath.Base(name), ".boxwalk-") && !slices.Contains(list, name) {
			return false
		}
	}
	return true
}

// clean holds that a folder is one edition with nothing of a run beside it.
func clean(t *testing.T, folder string, n int) {
	t.Helper()
	if found := editions(t, folder); !slices.Equal(found, []int{n}) || !listed(t, folder) {
		t.Errorf("editions %v, want %d; the list says %v", found, n, listed(t, folder))
	}
	for name := range snapshot(t, folder) {
		if base := filepath.Base(name); strings.HasPrefix(base, ".boxwalk-") && base != manifest {
			t.Errorf("%s is left behind", base)
		}
	}
}

// begun is a folder of one edition, locked for the next.
func begun(t *testing.T, n int) (*folder, *journal, []func() error) {
	t.Helper()
	dir := t.TempDir()
	if _, err := wrote(dir, edition(n), false); err != nil {
		t.Fatal(err)
	}
	f, err := openFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.acquire(io.Discard, 0); err != nil {
		t.Fatal(err)
	}
	list, w, err := f.settled(edition(n+1), target{folder: dir})
	if err != nil {
		t.Fatal(err)
	}
	j, err := f.plan(list, w.goes())
	if err != nil {
		t.Fatal(err)
	}
	return f, j, f.steps(j, list)
}

// A run that is killed leaves no more than its steps so far. Whatever the last
// of them was, every file is whole, the list tells whether they belong together,
// and the next run has the folder as it was before, or as it is after.
func TestARunKilledAtAnyStepLosesNothing(t *testing.T) {
	for _, from := range []int{1, 2} { // a file goes, a file is new
		_, _, steps := begun(t, from)
		for last := range len(steps) + 1 {
			f, j, steps := begun(t, from)
			for _, step := range steps[:last] {
				if err := step(); err != nil {
					t.Fatal(err)
				}
			}
			f.lock.file.Close() // as the system does
			editions(t, f.name)
			next, err := openFolder(f.name)
			if err != nil {
				t.Fatal(err)
			}
			var said bytes.Buffer
			if err := next.acquire(&said, 0); err != nil {
				t.Fatal(err)
			}
			if told := strings.Contains(said.String(), fmt.Sprintf("process %d was ended", j.process)); told != (last > 0) {
				t.Errorf("after %d steps it says %q", last, said.String())
			}
			next.release()
			next.close()
			f.close()
			if want := from + last/len(steps); !t.Failed() {
				clean(t, f.name, want)
			}
		}
	}
}

// The same when the run itself ends after so many steps, and with a file system
// that has no second names.
func TestARunThatFailsAtAnyStepUndoesIt(t *testing.T) {
	_, _, steps := begun(t, 2)
	for last := range len(steps) {
		f, j, steps := begun(t, 2)
		for _, step := range steps[:last] {
			if err := step(); err != nil {
				t.Fatal(err)
			}
		}
		if err := j.settle(f); err != nil {
			t.Error(err)
		}
		f.release()
		f.close()
		clean(t, f.name, 2)
	}
}

// A change that somebody made to a file after a run was killed is not undone
// with what the run did.
func TestWhatWasChangedAfterAKillIsLeft(t *testing.T) {
	f, _, steps := begun(t, 2)
	for _, step := range steps[:len(steps)-1] {
		if err := step(); err != nil {
			t.Fatal(err)
		}
	}
	f.lock.file.Close()
	defer f.close()
	for _, name := range []string{"steps.txt", "drawings/13-parts-7.svg"} { // one that was there before and one that was not
		save(t, filepath.Join(f.name, filepath.FromSlash(name)), []byte("mine"))
	}
	if _, err := wrote(f.name, edition(4), false); err == nil || !strings.Contains(err.Error(), "steps.txt") {
		t.Errorf("it says %v", err)
	}
	for _, name := range []string{"steps.txt", "drawings/13-parts-7.svg"} {
		if got := content(t, filepath.Join(f.name, filepath.FromSlash(name))); string(got) != "mine" {
			t.Errorf("%s is %q", name, got)
		}
	}
}

func TestARunThatWaitsTooLongWritesNothingAndSaysForWhom(t *testing.T) {
	f, j, steps := begun(t, 2)
	if err := steps[0](); err != nil { // its journal says who it is
		t.Fatal(err)
	}
	second, err := openFolder(f.name)
	if err != nil {
		t.Fatal(err)
	}
	var said bytes.Buffer
	err = second.acquire(&said, 20*time.Millisecond)
	second.release()
	second.close()
	who := fmt.Sprintf("another run (process %d)", j.process)
	if told(io.Discard, err) != exitInput || !strings.Contains(err.Error(), who) || !strings.Contains(said.String(), "waiting for "+who) {
		t.Errorf("%v; %s", err, said.String())
	}
	if err := j.settle(f); err != nil {
		t.Error(err)
	}
	f.release()
	f.close()
	clean(t, f.name, 2)
}

// Whoever looks while files are replaced finds each of them, and whole.
func TestNoFileIsMissingWhileItIsReplaced(t *testing.T) {
	dir := t.TempDir()
	if _, err := wrote(dir, edition(2), false); err != nil {
		t.Fatal(err)
	}
	c := program(t, os.Stderr, "rewrite", dir, "3", "33")
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- c.Wait() }()
	for looks := 0; ; looks++ {
		select {
		case err := <-done:
			if err != nil || looks < 2 {
				t.Errorf("%v after %d looks", err, looks)
			}
			return
		default:
			for _, p := range edition(2) {
				n, text := 0, content(t, filepath.Join(dir, filepath.FromSlash(p.name)))
				if _, err := fmt.Sscanf(string(text), "%d ", &n); err != nil || !bytes.Equal(text, pageOf(n, p.name)) {
					t.Errorf("%s is not whole", p.name)
				}
			}
		}
	}
}

func TestKilledRunsLoseNothing(t *testing.T) {
	dir := t.TempDir()
	if _, err := wrote(dir, edition(1), false); err != nil {
		t.Fatal(err)
	}
	mixed, taken := 0, 0
	for i := range campaign(6, 80) {
		c := program(t, io.Discard, "rewrite", dir, strconv.Itoa(10000*i), "1000000000")
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(20+rand.IntN(60)) * time.Millisecond)
		c.Process.Kill()
		c.Wait()
		if len(editions(t, dir)) > 1 {
			mixed++
		}
		var said bytes.Buffer
		if err := program(t, &said, "rewrite", dir, "7", "8").Run(); err != nil {
			t.Fatalf("%v: %s", err, said.String())
		}
		if strings.Contains(said.String(), "lock was taken over") {
			taken++
		}
		clean(t, dir, 7)
	}
	t.Logf("%d folders mixed, %d locks taken over", mixed, taken)
}

// ended is the exit code of a program that ran.
func ended(t *testing.T, err error) int {
	t.Helper()
	var failed *exec.ExitError
	if err != nil && !errors.As(err, &failed) {
		t.Fatal(err)
	}
	if failed == nil {
		return 0
	}
	return failed.ExitCode()
}

// signals are those that end a run, with their codes.
func signals() map[syscall.Signal]int {
	out := map[syscall.Signal]int{syscall.SIGHUP: 129, syscall.SIGINT: 130, syscall.SIGQUIT: 131, syscall.SIGABRT: 134, syscall.SIGTERM: 143}
	for s := range out {
		// who starts the tests may have these ignored, as nohup and background jobs of
		// a shell do; a program that is started so never hears of them
		if signal.Ignored(s) {
			delete(out, s)
		}
	}
	return out
}

func TestSignalsUndoWhatWasBegunAndEndWithTheirCode(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // which has no signals to send
	}
	dir := t.TempDir()
	if _, err := wrote(dir, edition(1), false); err != nil {
		t.Fatal(err)
	}
	for i := range campaign(1, 8) {
		for s, code := range signals() {
			var said bytes.Buffer
			before := content(t, filepath.Join(dir, "result.json"))
			c := program(t, &said, "rewrite", dir, strconv.Itoa(10000*i), "1000000000")
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			for bytes.Equal(before, content(t, filepath.Join(dir, "result.json"))) { // it has not taken signals over yet
				time.Sleep(time.Millisecond)
			}
			time.Sleep(time.Duration(rand.IntN(20)) * time.Millisecond)
			c.Process.Signal(s)
			if got := ended(t, c.Wait()); got != code {
				t.Errorf("exit code %d, want %d: %s", got, code, said.String())
			}
			clean(t, dir, editions(t, dir)[0])
		}
	}
}

func TestRunsIntoOneFolderFollowEachOther(t *testing.T) {
	for range campaign(2, 10) {
		dir := filepath.Join(t.TempDir(), "new", "out") // made by whichever is first
		var runs []*exec.Cmd
		said := make([]bytes.Buffer, 3)
		for i := range said {
			c := program(t, &said[i], "rewrite", dir, strconv.Itoa(100*i), strconv.Itoa(100*i+10))
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			runs = append(runs, c)
		}
		for i, c := range runs {
			if err := c.Wait(); err != nil {
				t.Errorf("%v: %s", err, said[i].String())
			}
		}
		clean(t, dir, editions(t, dir)[0])
	}
}

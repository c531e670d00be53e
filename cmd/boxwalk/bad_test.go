package main

import (
	"bytes"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"
)

// The bounds on what wrong input may cost. Memory is all that is allocated on
// the way, which is more than what is ever held.
const (
	mostTime   = 2 * time.Second * slowdown
	mostMemory = 512 << 20
)

// wrongFiles are below testdata/bad: job/ and gear/ hold files that are those of
// good/ with one thing wrong, each with the message it gets beside it; made/
// holds the messages to what is made here.
const wrongFiles = "../../testdata/bad"

// fromHere makes a path that is good when the working directory changes.
func fromHere(t *testing.T, parts ...string) string {
	t.Helper()
	path, err := filepath.Abs(filepath.Join(append([]string{wrongFiles}, parts...)...))
	if err != nil {
		t.Fatal(err)
	}
	return path
}

func content(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func save(t *testing.T, path string, b []byte) {
	t.Helper()
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
}

// site makes an empty folder with a good job and a good gear the working
// directory until the test ends.
func site(t *testing.T) {
	t.Helper()
	good := fromHere(t, "good")
	t.Chdir(t.TempDir())
	for _, name := range []string{"job.yaml", "gear.yaml"} {
		save(t, name, content(t, filepath.Join(good, name)))
	}
}

// everyFile lists what lies below the working directory, with times.
func everyFile(t *testing.T) string {
	t.Helper()
	var out strings.Builder
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err == nil && !d.IsDir() {
			out.WriteString(path + " " + info.ModTime().String() + "\n")
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// refused runs the program in the working directory, holds that it refuses its
// input within the bounds and writes nothing, and returns what it says.
func refused(t *testing.T, in io.Reader, args ...string) string {
	t.Helper()
	before := everyFile(t)
	var out, errs bytes.Buffer
	c := quiet(&out, &errs)
	if in != nil {
		c.in = in
	}
	var start, end runtime.MemStats
	runtime.ReadMemStats(&start)
	began := time.Now()
	code := run(args, c)
	took := time.Since(began)
	runtime.ReadMemStats(&end)
	if code != exitInput {
		t.Errorf("exit code %d\n%s%s", code, out.String(), errs.String())
	}
	if out.Len() > 0 {
		t.Errorf("on standard output stands\n%s", out.String())
	}
	if took > mostTime {
		t.Errorf("took %v", took)
	}
	if used := end.TotalAlloc - start.TotalAlloc; used > mostMemory {
		t.Errorf("allocated %d MB", used>>20)
	}
	if after := everyFile(t); after != before {
		t.Errorf("files before:\n%safter:\n%s", before, after)
	}
	return errs.String()
}

// matches holds a message against its golden file.
func matches(t *testing.T, got, golden string) {
	t.Helper()
	helpful(t, got)
	if *update {
		save(t, golden, []byte(got))
		return
	}
	if want, err := os.ReadFile(golden); err != nil || string(want) != got {
		t.Errorf("differs from %s (%v); run with -update and look at the change\n%s", filepath.Base(golden), err, got)
	}
}

var (
	heading = regexp.MustCompile(`^(job|gear|stdin|nowhere|folder)[.a-z]*(:\d+)*: error: \S`)
	excerpt = regexp.MustCompile(`^ *\d* \| `)
	advice  = regexp.MustCompile(`^  \S`)
)

// helpful holds that a message names few problems, each with a place, an
// excerpt and at least one line of what to do, and drives no terminal.
func helpful(t *testing.T, message string) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(message, "\n"), "\n")
	if !strings.HasSuffix(lines[len(lines)-1], "; nothing was checked") {
		t.Errorf("no count at the end of\n%s", message)
	}
	heads, told := 0, true
	for _, line := range lines[:len(lines)-1] {
		switch {
		case heading.MatchString(line):
			if !told {
				t.Errorf("no advice before %q", line)
			}
			heads, told = heads+1, false
		case advice.MatchString(line):
			told = true
		case !excerpt.MatchString(line):
			t.Errorf("odd line %q", line)
		}
		if strings.ContainsFunc(line, func(r rune) bool { return r < ' ' || (r >= 0x7f && r < 0xa0) || (r >= 0x202a && r <= 0x202e) }) {
			t.Errorf("a control character in %q", line)
		}
	}
	if heads == 0 || heads > 4 || !told {
		t.Errorf("%d problems, advice at the last: %v\n%s", heads, told, message)
	}
}

func TestTheGoodFilesBesideTheWrongOnesAreChecked(t *testing.T) {
	for _, gear := range []string{"gear.yaml", "gear-whole.yaml"} {
		t.Run(gear, func(t *testing.T) {
			text := content(t, fromHere(t, "good", gear))
			site(t)
			save(t, "gear.yaml", text)
			var out, errs bytes.Buffer
			if code := run([]string{"check", "job.yaml"}, quiet(&out, &errs)); code != exitPass && code != exitShort {
				t.Errorf("exit code %d\n%s", code, errs.String())
			}
		})
	}
}

func TestWrongFilesAreRefusedWithWhatToDo(t *testing.T) {
	count := 0
	for _, kind := range []string{"job", "gear"} {
		list, err := filepath.Glob(fromHere(t, kind, "*.yaml"))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range list {
			count++
			t.Run(kind+"/"+strings.TrimSuffix(filepath.Base(path), ".yaml"), func(t *testing.T) {
				site(t)
				save(t, kind+".yaml", content(t, path))
				matches(t, refused(t, nil, "all", "job.yaml", "-o", "out"), strings.TrimSuffix(path, ".yaml")+".golden")
			})
		}
	}
	if count < 60 {
		t.Errorf("only %d wrong files", count)
	}
}

// endless is a stream of one text over and over.
type endless struct{ text string }

func (e endless) Read(p []byte) (int, error) {
	n := 0
	for n < len(p) {
		n += copy(p[n:], e.text)
	}
	return n, nil
}

// symlink makes one, where the machine lets us.
func symlink(t *testing.T, to, name string) {
	t.Helper()
	if err := os.Symlink(to, name); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip("NOT TESTED: ", err)
	}
}

// grown is a text over and over, of at least so many bytes.
func grown(text string, bytes int) []byte {
	return []byte(strings.Repeat(text, bytes/len(text)+1))
}

func TestWhatIsTooMuchOrOutOfReachIsRefused(t *testing.T) {
	job := string(content(t, fromHere(t, "good", "job.yaml")))
	remove := func(t *testing.T, name string) {
		if err := os.Remove(name); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		name string
		make func(t *testing.T)
		in   io.Reader
		job  string
	}{
		{"job-of-100-megabytes", func(t *testing.T) { save(t, "job.yaml", grown("# nothing\n", 100<<20)) }, nil, "job.yaml"},
		{"gear-of-100-megabytes", func(t *testing.T) { save(t, "gear.yaml", grown("a: {b: [1, 2]}\n", 100<<20)) }, nil, "job.yaml"},
		{"endless-standard-input", nil, endless{"job: {}\n"}, "-"},
		{"one-line-of-a-megabyte", func(t *testing.T) { save(t, "job.yaml", grown("[", 1<<20-10)) }, nil, "job.yaml"},
		{"too-many-lines", func(t *testing.T) { save(t, "job.yaml", grown("\n", 1<<20-10)) }, nil, "job.yaml"},
		{"too-many-keys", func(t *testing.T) { save(t, "job.yaml", grown("a: 1\n", 49000)) }, nil, "job.yaml"},
		{"too-many-pours", func(t *testing.T) {
			save(t, "job.yaml", []byte(strings.Replace(job, "[2.3 m, 2.3 m]", "["+string(grown("9 m,\n", 40000))+"]", 1)))
		}, nil, "job.yaml"},
		{"job-is-not-there", nil, nil, "nowhere.yaml"},
		{"job-is-a-folder", func(t *testing.T) {
			if err := os.Mkdir("folder", 0o755); err != nil {
				t.Fatal(err)
			}
		}, nil, "folder"},
		{"gear-is-a-link-out", func(t *testing.T) {
			remove(t, "gear.yaml")
			symlink(t, fromHereTo(t, "/etc"), "gear.yaml")
		}, nil, "job.yaml"},
		{"gear-is-a-link-to-itself", func(t *testing.T) {
			remove(t, "gear.yaml")
			symlink(t, "gear.yaml", "gear.yaml")
		}, nil, "job.yaml"},
		{"gear-is-a-link-to-nothing", func(t *testing.T) {
			remove(t, "gear.yaml")
			symlink(t, "nothing.yaml", "gear.yaml")
		}, nil, "job.yaml"},
		{"gear-below-a-link-out", func(t *testing.T) {
			save(t, "job.yaml", []byte(strings.Replace(job, "gear: gear.yaml", "gear: away/passwd", 1)))
			symlink(t, fromHereTo(t, "/etc"), "away")
		}, nil, "job.yaml"},
	} {
		golden := fromHere(t, "made", c.name+".golden")
		t.Run(c.name, func(t *testing.T) {
			site(t)
			if c.make != nil {
				c.make(t)
			}
			matches(t, refused(t, c.in, "all", c.job, "-o", "out"), golden)
		})
	}
}

// fromHereTo is the relative path to an absolute folder.
func fromHereTo(t *testing.T, folder string) string {
	t.Helper()
	here, err := filepath.Abs(".")
	if err != nil {
		t.Fatal(err)
	}
	rel, err := filepath.Rel(here, folder)
	if err != nil {
		t.Fatal(err)
	}
	return rel
}

// LandXML is wordier than a job: what is too long for one is read as the other.
func TestALineFileMayBeLongerThanAJob(t *testing.T) {
	site(t)
	save(t, "job.yaml", bytes.Replace(content(t, "job.yaml"), []byte("gear: gear.yaml"), []byte("gear: gear.yaml\nalignment: {landxml: line.xml}"), 1))
	save(t, "line.xml", append([]byte("<!-- "), append(grown("long ", 2<<20), []byte(`-->
<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.2"></LandXML>`)...)...))
	if said := refused(t, nil, "check", "job.yaml"); !strings.Contains(said, "there is no <Alignment>") {
		t.Errorf("the end of the file was not read:\n%s", said)
	}
}

package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"boxwalk/model/diag"
)

// mostBytes is as much as is taken from a file or from standard input: what
// reading allows and one byte more, so that reading says it is too much.
const mostBytes = 1<<20 + 1

// named is a kind of file that a job names: its word in messages, and as much
// of it as is taken.
type named struct {
	word string
	most int64
}

var (
	gearFile = named{"gear", mostBytes}
	lineFile = named{"line", 64<<20 + 1} // LandXML is wordy; reading allows 64 MB
	// a reading is a row of some twenty letters, and there are at most 20000
	temperatureFile = named{"temperature", mostBytes}
)

// stdin is the job's name when it comes from standard input.
const stdin = "stdin"

// text is one input file: the name messages give it, and its bytes.
type text struct {
	name  string
	bytes []byte
}

// readJob reads the job file, or standard input for "-", or tells why it cannot
// be used. The folder is the one its gear path starts from.
func (a *app) readJob(path string) (t text, folder string, no *diag.Problem) {
	if path == "-" {
		b, err := io.ReadAll(io.LimitReader(a.in, mostBytes))
		if err != nil {
			return text{name: stdin}, ".", &diag.Problem{Summary: "cannot be read: " + err.Error()}
		}
		return text{stdin, b}, ".", nil
	}
	t.name = path
	f, err := openInput(path)
	if err == nil {
		defer f.Close()
		t.bytes, err = readFile(f, mostBytes)
	}
	if err != nil {
		return t, "", &diag.Problem{Summary: "the job file cannot be read: " + reason(err), Fix: "give the path of a job file, for example boxwalk check jobs/bridge/job.yaml, or - for standard input"}
	}
	return t, filepath.Dir(path), nil
}

// readFile reads no more than so many bytes.
func readFile(f io.Reader, most int64) ([]byte, error) {
	return io.ReadAll(io.LimitReader(f, most))
}

// reason is an error without the path, which the message has in front.
func reason(err error) string {
	var at *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "permission denied"
	case errors.As(err, &at):
		return at.Err.Error()
	}
	return err.Error()
}

// readNamed reads a file that a job in a folder names. The path is cleaned
// against the folder and must stay below the root, links included.
func (a *app) readNamed(folder, written string, what named) (text, *diag.Problem) {
	t := text{name: filepath.ToSlash(filepath.Join(folder, filepath.FromSlash(written)))}
	if filepath.IsAbs(written) || filepath.VolumeName(written) != "" {
		return t, &diag.Problem{Summary: "the " + what.word + " path must not be absolute", Fix: "write it from the job file's folder, for example ../gear/halves.yaml"}
	}
	base, target, err := a.below(folder, written)
	if err != nil {
		return t, &diag.Problem{Summary: "the " + what.word + " path cannot be followed: " + reason(err)}
	}
	if !filepath.IsLocal(target) {
		return t, outside(a.root, written, what, "", holdsBoth(base, target))
	}
	return a.openNamed(t, base, target, written, what)
}

// below is the root's own place and, seen from there, the gear's.
func (a *app) below(folder, written string) (base, target string, err error) {
	if base, err = settled(a.root); err != nil {
		return "", "", err
	}
	from, err := settled(folder)
	if err != nil {
		return "", "", err
	}
	target, err = filepath.Rel(base, filepath.Join(from, filepath.FromSlash(written)))
	return base, target, err
}

// settled is a folder's absolute path with its links followed, so that two of
// them can be compared.
func settled(folder string) (string, error) {
	abs, err := filepath.Abs(folder)
	if err != nil {
		return "", err
	}
	return filepath.EvalSymlinks(abs)
}

// openNamed opens and reads below the root only; the system follows no link
// that leads out.
func (a *app) openNamed(t text, base, target, written string, what named) (text, *diag.Problem) {
	root, err := openRoot(base)
	if err != nil {
		return t, &diag.Problem{Summary: "the root folder " + a.root + " cannot be opened: " + reason(err), Fix: "name a folder with --root"}
	}
	defer root.Close()
	info, err := root.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist) && isLink(root, target):
		return t, &diag.Problem{Summary: t.name + " is a link to a file that is not there", Fix: "fix the link, or name the file itself"}
	case errors.Is(err, fs.ErrNotExist):
		return t, &diag.Problem{Summary: fmt.Sprintf("there is no file %s", t.name), Fix: others(root, target)}
	case err != nil && leadsOut(base, target):
		return t, outside(a.root, written, what, "it is a link that leads there", "")
	case err != nil:
		return t, &diag.Problem{Summary: fmt.Sprintf("%s cannot be read: %s", t.name, reason(err)), Fix: elsewhere}
	case !info.Mode().IsRegular():
		return t, &diag.Problem{Summary: t.name + " is not a file", Fix: others(root, target)}
	}
	f, err := openOrdinary(root.Stat, root.OpenFile, target, os.O_RDONLY)
	if err == nil {
		defer f.Close()
		t.bytes, err = readFile(f, what.most)
	}
	if err != nil {
		return t, &diag.Problem{Summary: fmt.Sprintf("%s cannot be read: %s", t.name, reason(err))}
	}
	return t, nil
}

// openRoot opens a folder; opening a pipe would wait for ever.
func openRoot(folder string) (*os.Root, error) {
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return nil, errors.Join(err, errors.New("it is no folder"))
	}
	return os.OpenRoot(folder)
}

// elsewhere is the fix for a path that nothing can be said about.
const elsewhere = "write the path of a file, from the job file's folder, for example ../gear/halves.yaml"

// isLink tells whether there is a link of that name, wherever it leads.
func isLink(root *os.Root, target string) bool {
	info, err := root.Lstat(target)
	return err == nil && info.Mode()&fs.ModeSymlink != 0
}

// leadsOut tells whether following the links of a path ends outside the root.
func leadsOut(base, target string) bool {
	real, err := filepath.EvalSymlinks(filepath.Join(base, target))
	if err != nil {
		return false
	}
	return !isBelow(base, real)
}

func outside(root, written string, what named, why, instead string) *diag.Problem {
	fix := "keep the " + what.word + " below it, or name a folder that holds both with --root"
	if instead != "" {
		fix += ", for example --root " + instead
	}
	return &diag.Problem{Summary: fmt.Sprintf("%q leads out of the root folder %s", written, root), Detail: why, Fix: fix}
}

// holdsBoth is the nearest folder around the root that holds a file outside it,
// seen from the working directory; "" where there is no such file or no folder
// one would want to open up.
func holdsBoth(base, target string) string {
	file := filepath.Join(base, target)
	if info, err := os.Stat(file); err != nil || !info.Mode().IsRegular() {
		return ""
	}
	around := filepath.Dir(base)
	for !isBelow(around, file) {
		around = filepath.Dir(around)
	}
	if around == filepath.Dir(around) {
		return ""
	}
	here, err := settled(".")
	if rel, problem := filepath.Rel(here, around); err == nil && problem == nil && len(rel) < len(around) {
		return rel
	}
	return around
}

// isBelow tells whether a path lies below a folder; both are absolute.
func isBelow(folder, path string) bool {
	rel, err := filepath.Rel(folder, path)
	return err == nil && filepath.IsLocal(rel)
}

// others lists the YAML files beside one that cannot be had.
func others(root *os.Root, target string) string {
	names, err := fs.Glob(root.FS(), filepath.ToSlash(filepath.Dir(target))+"/*.yaml")
	if filepath.Dir(target) == "." {
		names, err = fs.Glob(root.FS(), "*.yaml")
	}
	if err != nil || len(names) == 0 {
		return elsewhere
	}
	const most = 8
	more := ""
	if len(names) > most {
		names, more = names[:most], ", …"
	}
	for i, n := range names {
		names[i] = n[strings.LastIndex(n, "/")+1:]
	}
	return "in that folder are " + strings.Join(names, ", ") + more
}

package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/align"
	"boxwalk/model/carrier"
	"boxwalk/model/diag"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// The whole way from files to an answer:
//
//	files → job.Decode → model.Build → check.Check → Result

// reading is a job on its way to a study: what was read and everything wrong
// with it.
type reading struct {
	app      *app
	sources  map[string][]byte
	inputs   []result.Input
	unsigned string // hash of the job without who approves it, see basis
	problems diag.Problems
	job      *job.Job
	jobAt    *job.Decoded
	gear     *job.Gear
	gearAt   *job.Decoded
	line     *align.Alignment // from a LandXML file
}

// study reads a job and its gear and assembles them. Every problem of both is
// printed; with an error among them there is no study.
func (a *app) study(path string, overrides []string) (*model.Study, *reading, error) {
	r := &reading{app: a, sources: map[string][]byte{}}
	folder, ok := r.readJob(path)
	if ok {
		r.override(overrides)
		r.readGear(folder)
		r.readLine(folder)
		r.readTemperatures(folder)
	}
	s := r.build()
	return s, r, r.told()
}

// take remembers an input by its base name and hash, and its text for excerpts.
// Of the name it keeps what can be printed: it stands on sheets and in proofs.
func (r *reading) take(t text, name string) {
	sum := sha256.Sum256(t.bytes)
	r.sources[t.name] = t.bytes
	name = strings.Map(func(c rune) rune {
		if job.Printable(c) {
			return c
		}
		return '?'
	}, strings.ToValidUTF8(name, "?"))
	r.inputs = append(r.inputs, result.Input{Name: name, SHA256: hex.EncodeToString(sum[:])})
}

// readJob decodes the job; ok tells whether there was a text at all.
func (r *reading) readJob(path string) (folder string, ok bool) {
	t, folder, no := r.app.readJob(path)
	if no != nil {
		no.File = t.name
		r.problems = append(r.problems, *no)
		return "", false
	}
	r.take(t, filepath.Base(t.name))
	r.unsigned = hash(withoutSheet(t.bytes))
	var problems diag.Problems
	r.job, r.jobAt, problems = job.Decode[job.Job](t.name, t.bytes, job.PeekSystem(t.bytes))
	if has(r.jobAt, "form", "steps") {
		problems = diag.Problems{r.jobAt.Put(diag.Problem{Summary: "this is a gear file", Detail: "a job file says what is built, with the keys job, culvert and gear", Fix: "give the path of the job file that names this gear"})}
	}
	r.problems = append(r.problems, problems...)
	return folder, true
}

// readGear decodes the gear that the job names, even where the job has errors
// of its own: one run shows them all.
func (r *reading) readGear(folder string) {
	written := r.jobAt.Text("gear")
	if written == "" || !job.Fits(written) {
		return // told when the job was read
	}
	t, no := r.app.readNamed(folder, written, gearFile)
	if no != nil {
		r.put(r.jobAt, "gear", *no)
		return
	}
	r.take(t, filepath.Base(t.name))
	var problems diag.Problems
	r.gear, r.gearAt, problems = job.Decode[job.Gear](t.name, t.bytes, job.PeekSystem(t.bytes))
	if has(r.gearAt, "job", "culvert") {
		r.put(r.jobAt, "gear", diag.Problem{Summary: fmt.Sprintf("%s is a job file", t.name), Detail: "a gear file says what the yard owns, with the keys gear, form, wall and so on", Fix: "write the path of a gear file"})
		return
	}
	r.problems = append(r.problems, problems...)
	if r.gear == nil {
		return
	}
	r.put(r.gearAt, "", carrier.Lacks(r.gear)...)
}

// has tells whether a file has all of these keys at its left margin.
func has(at *job.Decoded, keys ...string) bool {
	for _, k := range keys {
		if !slices.Contains(at.Keys(""), k) {
			return false
		}
	}
	return true
}

// readLine reads the LandXML file that a job names, which lies below the root
// as the gear does.
func (r *reading) readLine(folder string) {
	written := r.jobAt.Text("alignment.landxml")
	if written == "" || !job.Fits(written) {
		return // told when the job was read
	}
	t, no := r.app.readNamed(folder, written, lineFile)
	if no != nil {
		r.put(r.jobAt, "alignment.landxml", *no)
		return
	}
	r.take(t, filepath.Base(t.name))
	line, problems := align.ReadLandXML(t.name, t.bytes, r.jobAt.Text("alignment.name"))
	r.line, r.problems = line, append(r.problems, problems...)
}

// readTemperatures reads the files of temperatures that a job names, each once; they lie
// below the root as the gear does.
func (r *reading) readTemperatures(folder string) {
	read := map[string][]job.Spell{}
	for _, key := range job.CuringKeys() {
		written := r.curingFile(key)
		if written == "" {
			continue
		}
		if _, once := read[written]; !once {
			read[written] = r.temperatures(folder, key, written)
		}
		if at := r.job; at != nil {
			at.CuringAt(key).Spells = read[written]
		}
	}
}

// curingFile is the file that a key of temperatures names; "" where it names none, or
// one that was told of when the job was read.
func (r *reading) curingFile(key string) string {
	written := r.jobAt.Text(key)
	if !job.NamesTemperatures(written) || !job.Fits(written) {
		return ""
	}
	return written
}

// temperatures reads one file; nil where it cannot be used, which is told.
func (r *reading) temperatures(folder, key, written string) []job.Spell {
	t, no := r.app.readNamed(folder, written, temperatureFile)
	if no != nil {
		r.put(r.jobAt, key, *no)
		return nil
	}
	r.take(t, filepath.Base(t.name))
	spells, problems := job.ReadTemperatures(t.name, t.bytes)
	r.problems = append(r.problems, problems...)
	return spells
}

// build assembles the study unless something is wrong already.
func (r *reading) build() *model.Study {
	if r.job != nil {
		r.put(r.jobAt, "", check.UnknownCovers(r.job)...)
	}
	if r.problems.HasErrors() || r.job == nil || r.gear == nil {
		return nil
	}
	build := model.Build
	if r.line != nil {
		build = func(j *job.Job, g *job.Gear) (*model.Study, diag.Problems) { return model.BuildOn(j, g, r.line) }
	}
	s, problems := build(r.job, r.gear)
	for _, p := range problems {
		r.put(map[string]*job.Decoded{model.JobFile: r.jobAt, model.GearFile: r.gearAt}[p.File], "", p)
	}
	return s
}

// put adds problems where their keys, below one of the file's, stand in it.
func (r *reading) put(at *job.Decoded, key string, problems ...diag.Problem) {
	for _, p := range diag.Problems(problems).Below("", key) {
		r.problems = append(r.problems, at.Put(p))
	}
}

// told prints all problems; the error is nil when none of them is one.
func (r *reading) told() error {
	if err := r.problems.Render(r.app.err, r.sources); err != nil {
		return failed(err)
	}
	if !r.problems.HasErrors() {
		return nil
	}
	count := 0
	for _, p := range r.problems.Sorted() {
		if p.Severity == diag.Error {
			count++
		}
	}
	plural := "s"
	if count == 1 {
		plural = ""
	}
	fmt.Fprintf(r.app.err, "%d error%s; nothing was checked\n", count, plural)
	return stop{code: exitInput}
}

// check holds a study against the checks asked for.
func (a *app) check(s *model.Study, r *reading, only []string) *result.Result {
	return a.examine(s, r, check.Options{Only: only}).Result
}

// examine is check with what it measured, of the files read, with progress.
func (a *app) examine(s *model.Study, r *reading, o check.Options) *check.Examination {
	show, done := a.progress()
	defer done()
	o.Version, o.Inputs, o.Basis, o.Progress = version(), r.inputs, r.basis(), show
	return check.Examine(s, o)
}

// system is the units of the job.
func system(j *job.Job) units.System {
	if j.Job.Units == units.Imperial.String() {
		return units.Imperial
	}
	return units.Metric
}

// verdict is the exit code of a result.
func verdict(r *result.Result) error {
	switch {
	case r.Cleared():
		return nil
	case r.PartHolds():
		return stop{code: exitPart}
	}
	return stop{code: exitShort}
}

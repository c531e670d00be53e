package table

import (
	"slices"
	"strings"

	"boxwalk/clearance/result"
)

// next is what to do about what does not pass.
func (t *terminal) next() {
	ids := t.troubled()
	if len(ids) == 0 {
		return
	}
	t.print("\n" + t.paint.in(bold, "Next") + "\n")
	for _, a := range t.advised(ids) {
		t.print(hung("  - ", strings.Join(a.ids, ", ")+": "+a.text, t.width))
	}
	t.print(hung("  - ", "`boxwalk explain ID` gives a check's formula, limit and source.", t.width))
	if t.open() {
		t.print(hung("  - ", "An open check is not a pass: it could not be decided. Fix what stops it and check again.", t.width))
	}
	if t.result.Fixes == nil && t.result.Scope == nil {
		t.print(hung("  - ", "`boxwalk check JOB --fixes` looks for changes of one dimension with which the whole job passes, or one check of it.", t.width))
	}
}

// troubled lists the ids that have anything but passes.
func (t *terminal) troubled() []string {
	var out []string
	for _, e := range t.result.Checks {
		if e.Verdict != result.Pass && !slices.Contains(out, e.ID) {
			out = append(out, e.ID)
		}
	}
	return out
}

func (t *terminal) open() bool {
	return slices.ContainsFunc(t.result.Checks, func(e result.Entry) bool { return e.Verdict == result.Open })
}

// advice is a remedy and the checks it is of.
type advice struct {
	ids  []string
	text string
}

// advised are the remedies of the checks, each told once.
func (t *terminal) advised(ids []string) []advice {
	var out []advice
	for _, id := range ids {
		for _, text := range t.advice(id) {
			if n := slices.IndexFunc(out, func(a advice) bool { return a.text == text }); n >= 0 {
				out[n].ids = append(out[n].ids, id)
				continue
			}
			out = append(out, advice{[]string{id}, text})
		}
	}
	return out
}

// mostAdvice is how many different remedies of one check are told: those of the
// entries that govern.
const mostAdvice = 3

// advice is what usually mends a check, the entry that governs first.
func (t *terminal) advice(id string) []string {
	var out []string
	for _, e := range t.result.Checks {
		if e.ID == id && e.Verdict != result.Pass && e.Remedy != "" && !slices.Contains(out, e.Remedy) && len(out) < mostAdvice {
			out = append(out, e.Remedy)
		}
	}
	return out
}

package check

import (
	"testing"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/worked"

	"boxwalk/model"
)

// A chain runs job and gear text, with some of it replaced, through reading,
// building and checking, as the command line does.
type chain struct {
	gear  string                   // file under testdata/gear
	job   string                   // text of the job; empty is cell24
	whole bool                     // the form as long as in its file
	swap  [][2]string              // replaced in the gear text; each must occur
	jobs  [][2]string              // replaced in the job text; each must occur
	vary  func(gear string) string // what is done to the gear text last; may be nil
}

const cell24, cell43 = worked.Cell24, worked.Cell43

// travels adds to the travel group of a worked job.
func travels(text string) [2]string {
	return [2]string{"travel: {capacity: 20 kN, hold_back: {capacity: 10 kN}", "travel: {capacity: 20 kN, hold_back: {capacity: 10 kN}, " + text}
}

var short = worked.Short

func replaced(t *testing.T, what, text string, swap [][2]string) []byte {
	t.Helper()
	return worked.Replaced(t, what, text, swap)
}

func (c chain) texts() worked.Chain {
	return worked.Chain{Gear: c.gear, Job: c.job, Whole: c.whole, Swap: c.swap, Jobs: c.jobs, Vary: c.vary}
}

// read decodes and builds.
func (c chain) read(t *testing.T) *model.Study {
	t.Helper()
	return c.texts().Study(t)
}

// built decodes and builds, or tells why it cannot.
func (c chain) built(t *testing.T) (*model.Study, string) {
	t.Helper()
	return c.texts().Built(t)
}

// built is the study of two texts, or why there is none.
func built(gearText, jobText []byte) (*model.Study, string) { return worked.Read(gearText, jobText) }

// with another gear.
func (c chain) with(gear string) chain {
	c.gear = gear
	return c
}

// jobFile is a job of testdata with some of its text replaced.
func jobFile(t *testing.T, name string, swap ...[2]string) *model.Study {
	t.Helper()
	return worked.Job(t, name, swap...)
}

// inspected is a bay of a study with what it takes to judge it.
func inspected(s *model.Study, at int) *bay {
	return worded(measure.Inspect(&s.Bays[at], s.Job, allow.Of(s.Job)), s.Job, LimitsOf(s.Job))
}

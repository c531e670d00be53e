package check

import (
	"testing"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/worked"

	"boxwalk/model"
)

type chain = worked.Chain

const cell24, cell43 = worked.Cell24, worked.Cell43

var short = worked.Short

func replaced(t *testing.T, what, text string, swap [][2]string) []byte {
	t.Helper()
	return worked.Replaced(t, what, text, swap)
}

// built is the study of two texts, or why there is none.
func built(gearText, jobText []byte) (*model.Study, string) { return worked.Read(gearText, jobText) }

// jobFile is a job of testdata with some of its text replaced.
func jobFile(t *testing.T, name string, swap ...[2]string) *model.Study {
	t.Helper()
	return worked.Job(t, name, swap...)
}

// inspected is a bay of a study with what it takes to judge it.
func inspected(s *model.Study, at int) *bay {
	return worded(measure.Inspect(&s.Bays[at], s.Job, allow.Of(s.Job)), s.Job, LimitsOf(s.Job))
}

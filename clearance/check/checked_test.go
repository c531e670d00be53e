package check

import (
	"testing"

	"boxwalk/clearance/result"
)

func checked(t *testing.T, c chain) *result.Result {
	t.Helper()
	return Run(c.Study(t), Options{Version: "test"})
}

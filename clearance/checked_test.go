package clearance

import (
	"testing"

	"boxwalk/clearance/result"
)

func checked(t *testing.T, c chain) *result.Result {
	t.Helper()
	return Check(c.read(t), Options{Version: "test"})
}

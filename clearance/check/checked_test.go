package check

import (
	"fmt"
	"slices"
	"sync"
	"testing"

	"boxwalk/clearance/result"
)

// checked is the whole result of a chain; tests read it and leave it as it is.
func checked(t *testing.T, c chain) *result.Result {
	t.Helper()
	if c.Vary != nil {
		return Run(c.Study(t), Options{Version: "test"})
	}
	return lately(fmt.Sprintf("%q %q %v %q %q", c.Gear, c.Job, c.Whole, c.Swap, c.Jobs), func() *result.Result {
		return Run(c.Study(t), Options{Version: "test"})
	})
}

// late are the last few results: tests that stand beside each other often ask about one
// job.
var late struct {
	sync.Mutex
	keys    []string
	results []*result.Result
}

// lately is the result under a key, worked out unless it was lately.
func lately(key string, find func() *result.Result) *result.Result {
	late.Lock()
	defer late.Unlock()
	if i := slices.Index(late.keys, key); i >= 0 {
		return late.results[i]
	}
	r := find()
	if len(late.keys) == 6 {
		late.keys, late.results = late.keys[1:], late.results[1:]
	}
	late.keys, late.results = append(late.keys, key), append(late.results, r)
	return r
}

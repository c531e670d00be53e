package views

import (
	"errors"
	"runtime"
	"sync"
	"sync/atomic"
)

// Each does n things that write to places of their own, on every core. It returns all
// errors in order; a panic is told again where it can be caught.
func Each(n int, do func(i int) error) error {
	errs, broken := make([]error, n), make([]any, n)
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				func() {
					defer func() { broken[i] = recover() }()
					errs[i] = do(i)
				}()
			}
		})
	}
	all.Wait()
	for _, reason := range broken {
		if reason != nil {
			panic(reason)
		}
	}
	return errors.Join(errs...)
}

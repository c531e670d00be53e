package measure

import (
	"runtime"
	"sync"
)

// workers run tasks that write to places of their own.
type workers struct {
	tasks    []func()
	then     []func()
	progress func(done, of int)
	count    int
}

// NewWorkers are so many, or one for each core.
func NewWorkers(n int, progress func(done, of int)) *workers {
	if n <= 0 {
		n = runtime.GOMAXPROCS(0)
	}
	return &workers{progress: progress, count: n}
}

func (w *workers) Add(f func()) { w.tasks = append(w.tasks, f) }

// after is done in order when all tasks are.
func (w *workers) after(f func()) { w.then = append(w.then, f) }

// now does what is queued before anything else is, and tells nobody.
func (w *workers) now() {
	quiet := workers{tasks: w.tasks, count: w.count}
	quiet.Each()
	w.tasks = nil
}

// Run does all tasks, and then what is to be done after them.
func (w *workers) Run() {
	w.Each()
	for _, f := range w.then {
		f()
	}
}

// Each does all tasks.
func (w *workers) Each() {
	batch := max(1, min(16, len(w.tasks)/(8*w.count))) // few big tasks one by one
	var wg sync.WaitGroup
	var mu sync.Mutex
	next := 0
	take := func() []func() {
		mu.Lock()
		defer mu.Unlock()
		from := next
		next = min(len(w.tasks), next+batch)
		if w.progress != nil {
			w.progress(from, len(w.tasks))
		}
		return w.tasks[from:next]
	}
	var broken any // what a task panicked with; told again where it can be caught
	for range w.count {
		wg.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					mu.Lock()
					defer mu.Unlock()
					broken, next = r, len(w.tasks)
				}
			}()
			for list := take(); len(list) > 0; list = take() {
				for _, f := range list {
					f()
				}
			}
		})
	}
	wg.Wait()
	if broken != nil {
		panic(broken)
	}
}

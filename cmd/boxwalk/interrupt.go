package main

import (
	"errors"
	"os"
	"os/signal"
	"sync"
	"syscall"
)

// exitSignal plus the number of a signal is the exit code of a run that it
// ended, as shells have it: 129 hang-up, 130 interrupt, 131 quit,
// 134 abort, 143 terminate. Quit and abort would else end with 2, which is that of a
// wrong input, in the middle of what was begun.
const exitSignal = 128

// interrupts is where signals that end a run arrive: at once, or, while files
// are being put in place, after what was begun has been undone.
type interrupts struct {
	mu   sync.Mutex
	held bool
	code int // 0 as long as no signal came
	exit func(code int)
}

// interrupted is that of this process; signals are sent to it as a whole.
var interrupted = &interrupts{exit: os.Exit}

// watch takes signals over. One that the run was started to ignore, as nohup
// does with the hang-up, stays ignored.
func (i *interrupts) watch() {
	came := make(chan os.Signal, 1)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT, syscall.SIGABRT} {
		if !signal.Ignored(s) {
			signal.Notify(came, s)
		}
	}
	go func() {
		for s := range came {
			i.take(s)
		}
	}()
}

func (i *interrupts) take(s os.Signal) {
	i.mu.Lock()
	defer i.mu.Unlock()
	number, _ := s.(syscall.Signal)
	i.code = exitSignal + int(number)
	if !i.held {
		i.exit(i.code)
	}
}

// hold keeps signals waiting until release, which tells whether one came.
func (i *interrupts) hold() (release func() error) {
	i.mu.Lock()
	defer i.mu.Unlock()
	i.held = true
	return func() error {
		err := i.err()
		i.mu.Lock()
		defer i.mu.Unlock()
		i.held = false
		return err
	}
}

// err is the end of a run that a signal asks for, nil without one.
func (i *interrupts) err() error {
	i.mu.Lock()
	defer i.mu.Unlock()
	if i.code == 0 {
		return nil
	}
	return stop{i.code, errors.New("interrupted")}
}

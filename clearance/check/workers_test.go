package check

import (
	"testing"

	"boxwalk/clearance/measure"
)

func TestPanicOfATaskReachesTheCaller(t *testing.T) {
	defer func() {
		if recover() != "broken" {
			t.Error("the panic was lost")
		}
	}()
	w := measure.NewWorkers(4, nil)
	for i := range 100 {
		w.Add(func() {
			if i == 37 {
				panic("broken")
			}
		})
	}
	w.Run()
	t.Error("run returned")
}

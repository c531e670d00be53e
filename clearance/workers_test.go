package clearance

import "testing"

func TestPanicOfATaskReachesTheCaller(t *testing.T) {
	defer func() {
		if recover() != "broken" {
			t.Error("the panic was lost")
		}
	}()
	w := newWorkers(4, nil)
	for i := range 100 {
		w.add(func() {
			if i == 37 {
				panic("broken")
			}
		})
	}
	w.run()
	t.Error("run returned")
}

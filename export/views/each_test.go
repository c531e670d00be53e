package views

import (
	"errors"
	"testing"
)

func TestEachTellsErrorsInOrderAndPanicsWhereTheyCanBeCaught(t *testing.T) {
	one, two := errors.New("one"), errors.New("two")
	err := Each(8, func(i int) error { return map[int]error{2: one, 5: two}[i] })
	if err == nil || err.Error() != "one\ntwo" {
		t.Errorf("errors are %v", err)
	}
	defer func() {
		if recover() != "broken" {
			t.Error("the panic of a worker was lost")
		}
	}()
	Each(8, func(i int) error {
		if i == 3 {
			panic("broken")
		}
		return nil
	})
}

//go:build !race

package sweep

import "testing"

// The race detector makes pools forget on purpose, so that what is pooled
// allocates there.

func TestCertifyingAJobDoesNotAllocateOnceWarm(t *testing.T) {
	for name, j := range map[string]*job{"quarry-lane": sceneJob(t, "quarry-lane"), "four-cells": sceneJob(t, "four-cells"), "arms-first": sceneJob(t, "arms-first")} {
		if n := testing.AllocsPerRun(5, func() { j.certify(DefaultEpsilon) }); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
		take := func(int, int, Bracket) {}
		if n := testing.AllocsPerRun(5, func() { j.certifyEveryPart(DefaultEpsilon, take) }); n != 0 {
			t.Errorf("%s: %v allocations for every part", name, n)
		}
	}
}

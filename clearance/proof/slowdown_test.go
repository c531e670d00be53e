//go:build !race

package proof

// slowdown is how much longer than without it everything takes under the race
// detector.
const slowdown = 1

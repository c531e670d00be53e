//go:build race

package proof

// slowdown is how much longer everything takes under the race detector: the
// detector's documentation says 2 to 20 times.
// Source: go.dev/doc/articles/race_detector, "Runtime overhead".
const slowdown = 10

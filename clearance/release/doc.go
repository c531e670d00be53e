// Package release works out how strong a part of the concrete is at an age, how much of
// the time since casting counts, and when what a specification asks for is reached:
// numbers and what is missing, no limit, no verdict, no prose.
package release

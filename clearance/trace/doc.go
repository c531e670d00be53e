// Package trace writes the proof of a result's clearances: for every claim a
// tree that splits the pairs of two sets, and where needed the interval, until
// one plane keeps each branch apart. The format, and what is checked of it, is
// clearance/proof/FORMAT.md.
//
// A branch is only closed by a plane that shows what is asked with something to
// spare, for the verifier bounds curvature in a way of its own: see caution and
// spare.
package trace

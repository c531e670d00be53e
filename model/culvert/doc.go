// Package culvert is the concrete of a job as convex solids, pour by pour and
// zone by zone, and what stays in place in it.
//
// Solids are given in the frame of one cell and one pour: origin on the cell's
// centreline at the top of the invert where the pour's rear end crosses it, x
// ahead along the grade, y left, z up (square to the grade). Solids overlap
// inside the concrete, so that a face that is buried is no way out when the
// depth of a dig is measured.
package culvert

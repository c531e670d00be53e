// Package geom holds the value types that every layer above shares: poses,
// axis-parallel boxes, convex solids, and the bound on a moving body.
//
// Lengths are metres, angles radians. Frames are right-handed with x ahead
// along the cell, y left and z up. A Pose is named aFromB: it takes
// coordinates in frame b to coordinates in frame a.
package geom

// Package motion moves a carrier: bodies that hang on each other by joints,
// and links of adjustable length that drive or follow them.
//
// All bodies share one coordinate system, the carrier frame as raised: at
// raised every joint coordinate is zero and every pose is the identity. A Path
// is one step: every driver goes from one reading to another while s runs from
// 0 to 1. For any body and any interval of s a Path gives the pose (to
// rounding) and a bound on curvature that encloses the whole motion, derived
// with interval arithmetic on (value, first, second derivative).
//
// A carrier that rolls round bends and over grade breaks is a Ride: a rigid body
// whose two guides run along a Track in plan and which stands on its planes.
package motion

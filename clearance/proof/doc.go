// Package proof checks a written proof of clearances. It is independent of
// everything that computes them: it imports nothing of this module, and has its
// own kinematics, its own bounds on how a point curves and its own interval
// arithmetic. FORMAT.md is the format and the whole of what is checked.
//
// A proof shows the search, not the model: that the solids are those of the
// site, that the adjusters run as listed, and that the declared contacts are
// meant is assumed, not proved, and listed in the Report.
package proof

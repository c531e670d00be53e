// Package views turns a study and its result into drawing sheets: cross-sections
// raised and collapsed, the sequence, a longitudinal section, a plan, and
// hidden-line pictures of every step.
//
// Cross-sections look ahead along the cell: left on paper is left in the cell.
// The same study and result always give the same sheets.
package views

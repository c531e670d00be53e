// Package assembly is a carrier at one pour of one cell as other programs take it:
// body by body in one moment of its collapse, with the concrete round it and what stays
// there, every part under its mark. Metres, in the frame of cell and pour; no I/O.
package assembly

// Package scene holds placed parts: the 3D twin of a sheet. A Scene is a list
// of convex solids in one frame, each told apart by its group and its style; a
// Camera says how it is looked at and where it is cut open.
//
// Lengths are metres, masses kilograms. The frame is right-handed with x ahead
// along the cell, y left and z up. Nothing here draws or writes.
package scene

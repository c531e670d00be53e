// Package lineart turns a scene and a camera into the lines that are seen:
// exact hidden-line removal for convex solids, on the types of
// github.com/fogleman/ln/ln.
//
// What hides a part of an edge is found without sampling. The strip from the
// edge to the viewer (a triangle to the eye in a perspective) is cut by the
// half-spaces of every convex solid before it; what is left of the strip is
// the hidden interval. Ties go to the line: one that lies in the surface of
// another solid, or up to Tie under it, is seen, and of lines that coincide one
// is drawn.
//
// Inside, lengths are millimetres in the view frame: x right, y up, z to the
// viewer. Where solids pass through each other, the line in which their
// surfaces meet is not an edge of either and is not drawn.
package lineart

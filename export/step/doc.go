// Package step writes an assembly as ISO 10303-21 with the schema of AP214, millimetres:
// every convex solid a closed one of plane faces, wheels true cylinders; parts of one
// shape are one product that is placed as often as it stands; names, colours, bodies and
// marks are kept. The file has no date but the one given: the same assembly gives the
// same bytes.
package step

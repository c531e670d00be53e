// Package gltf writes an assembly as a binary glTF 2.0 file (ISO/IEC 12113): a node for
// each body and in it one for each piece under its mark, one mesh for each shape, a
// material for each colour, and the motions of the assembly as animations by name. Metres;
// the format has y up, so that the root turns z up to it. The same assembly gives the same
// bytes.
package gltf

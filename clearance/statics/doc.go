// Package statics is what the pour, the roof and what stands free load the carrier with:
// numbers and places, no limit, no prose.
//
// Everything is in the frame of a bay: metres, kN, kPa; x ahead, y left, z up.
package statics

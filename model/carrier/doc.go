// Package carrier builds an inner form carrier from a gear file, sets it to a
// section, and lays out how it collapses.
//
// Everything is given in the frame of one cell and one pour, as raised (see
// package culvert). A kind of collapse is data: which bodies there are, how
// they hang on each other, which adjusters drive them and which parts they
// hold; nothing outside the kind's own file asks which kind it is.
package carrier

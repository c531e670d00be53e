// Package load holds the formulas by which a form carrier is loaded, released
// and rolled: pressure of fresh concrete, strength gain, stripping times,
// bearing on young concrete, pull and restraint, wheel loads, vertical loads
// and jack screws.
//
// Every function is pure. Each doc comment gives the formula, its units, the
// range in which it holds, its source, and how far that source was read; the
// results carry the same as a [Source]. Outside its range a function returns
// an error that wraps [ErrRange]; it never returns a number that is NaN or
// infinite without an error, and beside an error the value is the zero value.
//
// Arguments and results are in SI (m, kN, kPa, s, degrees Celsius). A formula
// that was published in other units works in those inside. Values that
// fall within one part in 10⁹ of a limit of a published table count as on that
// limit, so that a converted 140 pcf is 140 pcf.
package load

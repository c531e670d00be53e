// Package table writes a result for people and for spreadsheets: the table on
// a terminal, the step list for the crew, and CSV files (RFC 4180: comma,
// CR LF, quotes doubled, units in the header). It opens no file and knows no
// terminal; callers hand it a writer, a width and whether to colour.
//
// Numbers are rounded toward the worse side: a printed clearance or margin is
// never larger than the one that was proved, a printed slide never smaller.
// Readings that a crew sets are rounded to the nearest step they can read.
package table

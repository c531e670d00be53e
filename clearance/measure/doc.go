// Package measure takes a carrier through its collapse, its raising and its advance and
// tells gaps, slides, overlaps and where they are: numbers in metres and places, by
// part. It knows no limit, no unit and no word for a user.
package measure

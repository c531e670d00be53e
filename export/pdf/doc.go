// Package pdf writes reports and sheets as PDF: fonts embedded, text that can be
// searched, bookmarks, pages numbered n of m, and the same bytes for the same input.
//
// Letters are the Go fonts of Bigelow & Holmes (golang.org/x/image/font/gofont, a
// licence of the BSD kind, FONTS.txt, which lets them be embedded); what they have no letter for
// is printed as a question mark.
package pdf

// Package page writes a report as one HTML file that needs no network and runs no
// script: for a screen, for a screen reader, and for paper.
package page

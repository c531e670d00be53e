// Package report says what a result says as a report that an engineer signs: the
// verdict and what it answers for, what went in, each check from its formula to its
// verdict, diagrams along the way, what is not checked, cautions, boxes for signatures.
// It is one description, chapter by chapter, for writers of pages and of PDF; it knows
// neither.
package report

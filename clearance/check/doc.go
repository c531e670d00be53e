// Package clearance holds a study against every check and gives the result: a
// verdict for each check and subject, with the number, the limit, the place
// and a sentence that says what it means.
//
// Numbers come as brackets from certified searches (package sweep); the rule
// that turns a bracket into a verdict stands in verdict.go and nowhere else.
package check

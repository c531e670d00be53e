// Package result is what a check found: data, the words of a subject, and the one
// rule that turns numbers into verdicts. It measures nothing.
package result

package views

import "os"

// campaign says to draw one of so many jobs: by default few are drawn, with
// BOXWALK_CAMPAIGN=long, as .ci/run has it, all.
func campaign(few, many int) int {
	if os.Getenv("BOXWALK_CAMPAIGN") == "long" {
		return many
	}
	return few
}

package worked

import "os"

// Campaign is how many cases a test has: few, which find a defect again that was
// found once, or with BOXWALK_CAMPAIGN=long, as .ci/run has it, many.
func Campaign(few, many int) int {
	if os.Getenv("BOXWALK_CAMPAIGN") == "long" {
		return many
	}
	return few
}

package clearance

import (
	"fmt"
	"math"

	"boxwalk/clearance/allow"
	"boxwalk/model/job"
)

// CautionsOf a job stand on every drawing, card and report. Whatever number is
// in them is the one the checks take for granted. Without a job, where only a
// proof is at hand, they point to its drawings.
func CautionsOf(j *job.Job) []string {
	level := "the difference printed on the drawings"
	if j != nil {
		level = levelWords(j)
	}
	return []string{
		"Check before use by a qualified engineer. Local codes, the project specification and the engineer of record govern; these numbers do not replace them.",
		"Do not release until the strength or time shown has been confirmed in writing.",
		"Before the wheels carry: only named persons at marked stations, outside panel swing and filler drop; one signaller; no screw jack ahead of any other by more than " + level + ".",
		"Filler pieces are secured before they are unbolted.",
		"Wall panels press inward once the bond breaks: never pull the last brace pin.",
		"Hold-back on and wheels chocked before jack plates leave the invert.",
		"While rolling: nobody between carrier and concrete or in the line's snap-back zone.",
		"Inspect before, during and after placing.",
	}
}

// levelWords is the difference between jacks that the checks are made with, in
// the job's units.
func levelWords(j *job.Job) string {
	return atMost(allow.Of(j).Value("jack_level"), j.Job.Units == "imperial")
}

// atMost prints metres for a crew to keep within: rounded down, so that what is
// printed is never more than what is proved. The slack of a billionth of a
// division keeps 2.5 mm from becoming 2.4 by rounding.
func atMost(v float64, imperial bool) string {
	if imperial {
		return fmt.Sprintf("%.2f in", math.Floor(v/0.0254*100+1e-9)/100)
	}
	return fmt.Sprintf("%.1f mm", math.Floor(v*1e4+1e-9)/10)
}

package carrier

import (
	"math"

	"boxwalk/model/job"
)

// off is the distance of v from the nearest available increment.
func off(a job.Adjust, v float64) float64 {
	if a.Increment <= 0 {
		return 0
	}
	n := math.Round((v - float64(a.Min)) / float64(a.Increment))
	return math.Abs(v - float64(a.Min) - n*float64(a.Increment))
}

// against holds a value against an adjuster.
func against(a job.Adjust, of Dimension, subject, state string, v float64, text Words) Finding {
	return Finding{Of: of, Subject: subject, State: state, Value: v, Min: float64(a.Min), Max: float64(a.Max), Off: off(a, v), Text: text}
}

// choices are the values of a stepped adjuster from least to greatest; a
// stepless one has only the value nearest to want.
func choices(a job.Adjust, want float64) []float64 {
	lo, hi := float64(a.Min), float64(a.Max)
	if a.Increment <= 0 {
		return []float64{math.Max(lo, math.Min(hi, want))}
	}
	var out []float64
	for n := 0; n < 100000; n++ {
		v := lo + float64(n)*float64(a.Increment)
		if v > hi+1e-9 {
			break
		}
		out = append(out, v)
	}
	return out
}

// preferred value of an adjuster: stated, else its least.
func preferred(a job.Adjust) float64 {
	if a.Prefer != nil {
		return float64(*a.Prefer)
	}
	return float64(a.Min)
}

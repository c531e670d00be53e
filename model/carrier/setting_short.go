package carrier

import "math"

// Short is how far a setting falls short of the gear: how many of its
// dimensions cannot be reached, and by how much in all, in metres. Both are
// nothing where the gear can be set so. A dimension for which the gear has no
// value at all counts as hopeless.
func (s Setting) Short() (dimensions int, by float64) {
	for _, f := range s.Findings {
		// a part made for one size fits with the play of a pin
		fits := f.Min == f.Max && math.Abs(f.Value-f.Min) <= incrementSlack
		if f.Reached() || fits {
			continue
		}
		dimensions++
		by += math.Min(hopeless, math.Max(f.Off, -f.Margin()))
	}
	return dimensions, by
}

// hopeless is what a dimension counts that the gear has no value for, in
// metres: more than any other falls short in a box that is built.
const hopeless = 10.0

package carrier

import "boxwalk/model/motion"

// Nudge is a path on which one adjuster alone goes from by below to by above
// its reading at s of a step, everything else standing as it does there.
func (c *Carrier) Nudge(step Step, s float64, adjuster int, by float64) (*motion.Path, error) {
	from := make(state, len(step.Moves))
	for k, m := range step.Moves {
		from[k] = m.From + (m.To-m.From)*s
	}
	to := append(state(nil), from...)
	from[adjuster] -= by
	to[adjuster] += by
	return motion.NewPath(c.Mechanism, c.drive(from, to, false))
}

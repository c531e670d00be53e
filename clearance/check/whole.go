package check

import "boxwalk/model"

// ofJob judges the checks that are the same for all bays, as far as they are wanted, in
// the words of the first, and names those of which an entry is left out because somebody
// else answers for it.
func ofJob(s *model.Study, reports []*Examined, wanted func(c *Check) bool) (out []Judged, leftOut []string) {
	if len(reports) == 0 || reports[0] == nil {
		return nil, nil
	}
	b := reports[0].bay
	for i := range table {
		if c := &table[i]; c.whole != nil && wanted(c) {
			for _, e := range c.whole(s, b) {
				if e.covered(s.Job.CoveredBy) {
					leftOut = append(leftOut, c.ID)
				} else {
					out = append(out, e)
				}
			}
		}
	}
	b.sayRemedies(out)
	b.sayFiner(out)
	return out, leftOut
}

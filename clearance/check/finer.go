package check

import (
	"fmt"
	"strings"

	"boxwalk/clearance/result"
)

// sayFiner adds to a sentence value and limit to as many decimals as it takes to tell
// them apart, where the usual ones do not and the sentence has them not yet: as tables
// print them. A face that touches by design keeps a limit that is rounding only, of
// which nothing need be said while it holds.
func (b *bay) sayFiner(list []Judged) {
	for i := range list {
		e := &list[i].Entry
		p := e.Printed(b.system())
		if !p.Finer || e.Text == "" || tellsNumber(e.Text, p) || e.Verdict == result.Pass && rounding(*e.Limit) {
			continue
		}
		e.Text += fmt.Sprintf("; to more decimals %s against a limit of %s", p.Measure.With(p.Value), p.Measure.With(p.Limit))
		if p.Off != "" {
			e.Text += fmt.Sprintf(", with an allowance of %s", p.Measure.With(p.Off))
		}
	}
}

// tellsNumber tells whether a sentence has a printed value, which may stand there
// without its sign.
func tellsNumber(text string, p result.Printed) bool {
	return strings.Contains(text, " "+p.Measure.With(strings.TrimPrefix(p.Value, "-")))
}

// rounding tells a limit that only forgives rounding.
func rounding(limit float64) bool { return limit < 5e-5 && limit > -5e-5 }

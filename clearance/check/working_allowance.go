package check

import (
	"fmt"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/culvert"
)

// allowanceRows are the allowances of every cell and zone that a carrier is held
// against on its way, each once.
func allowanceRows(s *model.Study, bays []*Examined) []result.AllowanceRow {
	out := []result.AllowanceRow{}
	seen := map[int]bool{}
	for _, b := range s.Bays {
		if seen[b.Cell.Number] {
			continue
		}
		seen[b.Cell.Number] = true
		r := bays[b.Twin].as(&b)
		for _, zone := range culvert.Zones {
			if lines := r.bay.workedAllowance(zone); lines != nil {
				out = append(out, result.AllowanceRow{Cell: r.bay.Cell.Number, Zone: zone, WorstCase: r.bay.Tol.Of(zone).WorstCase, Working: lines})
			}
		}
	}
	return out
}

// workedAllowance is the root-sum-square of the tolerances that count at a zone; none
// where there is no such face.
func (b *bay) workedAllowance(zone culvert.Zone) []result.Line {
	var w result.Working
	var squares []string
	share, shares := 1.0, 0
	for i, t := range b.Tol.Terms(zone) {
		one := fmt.Sprintf("e_%d", i+1)
		if t.Share != share {
			share, shares = t.Share, shares+1
			w.Given(fmt.Sprintf("n_%d", shares), "share square to the haunch's face of what follows", share, "1", "culvert.haunch (job)")
		}
		from := "tolerance." + t.Key + ": " + t.Source
		if t.Toward == t.Value {
			w.Given(one, t.Words, t.Value, "m", from)
		} else {
			w.Given("d_t", t.Words, t.Value, "m", from)
			w.Given("H", "rise of the cell, over which it leans the carrier", b.Cell.Rise, "m", "culvert.rise (job)")
			w.Given("b", "gauge", b.Carrier.Gauge, "m", "set: gauge")
			w.Step(one, "what that moves the soffit sideways", "d_t * H / b", "m", "")
		}
		if shares > 0 {
			one = fmt.Sprintf("(n_%d * %s)", shares, one)
		}
		squares = append(squares, one+"^2")
	}
	if squares == nil {
		return nil
	}
	w.Step("A", "allowance, root-sum-square", "sqrt("+strings.Join(squares, " + ")+")", "m", "independent tolerances")
	return w.Lines()
}

package model

import (
	"fmt"
	"math"

	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/job"
)

// unfit are the problems of a bay whose carrier cannot be, or in which not every
// solid is convex: nothing that is measured between such would be true.
func (s *Study) unfit(b *Bay) diag.Problems {
	if problems := s.unfitGear(b); len(problems) > 0 {
		return problems.Below(GearFile, "")
	}
	for _, list := range [3][]culvert.Solid{b.Concrete, b.Before, b.Route} {
		for _, c := range list {
			if c.Check() != nil {
				return diag.Problems{s.crossing(b, c)}.Below(JobFile, "culvert")
			}
		}
	}
	return nil
}

// unfitGear are the problems of a bay's carrier by itself, by keys of the gear.
func (s *Study) unfitGear(b *Bay) diag.Problems {
	if s.sound[b.Carrier] {
		return nil
	}
	if problems := append(b.Carrier.Collapsed(), b.Carrier.Outweighed()...); len(problems) > 0 {
		return problems
	}
	again := func(g *job.Gear) *carrier.Carrier {
		return carrier.Build(g, b.Cell.Section, carrier.Settle(b.Cell.Section, g, s.Job.Set), b.Carrier.Kept, b.Carrier.Rear)
	}
	problems := b.Carrier.Unfit(again)
	s.sound[b.Carrier] = len(problems) == 0
	return problems
}

// crossing is a solid of the concrete that is none: its pour is shorter along one
// edge than its ends lean toward each other there.
func (s *Study) crossing(b *Bay, c culvert.Solid) diag.Problem {
	t := diag.Problem{Key: "pours", Summary: fmt.Sprintf("leaves no %s", c.Name), Fix: "write a longer pour, or less of an angle at its joints"}
	for _, p := range s.Culvert.PoursIn(b.Cell) {
		if p.Number != c.Pour {
			continue
		}
		if least := shortest(b.Cell, p); least < 0 {
			long := p.Front.X - p.Rear.X
			t.Summary = fmt.Sprintf("makes the ends of pour %d cross: %.3f m along the alignment, and %.1f mm along the edge where it is shortest", p.Number, long, 1e3*least)
			t.Fix = fmt.Sprintf("make it longer than %.3f m, or turn less at its joints", math.Ceil((long-least)*1e3)/1e3)
		}
	}
	return t
}

// shortest is how long a pour is along the shortest edge of its concrete.
func shortest(c culvert.Cell, p culvert.Pour) float64 {
	rear, front := c.Ends(p)
	least := math.Inf(1)
	for _, y := range [2]float64{-c.HalfSpan - c.Right, c.HalfSpan + c.Left} {
		for _, z := range [2]float64{-c.Invert, c.Rise + c.Roof} {
			least = math.Min(least, front.At(y, z)-rear.At(y, z))
		}
	}
	return least
}

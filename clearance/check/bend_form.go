package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model"
)

// midOrdinateCheck holds how far a pour, as straight as the carrier that casts
// it, stands off the design line. A job on one tangent has no such line.
func (b *bay) midOrdinateCheck(s *model.Study) []Judged {
	if s.Line == nil {
		return nil
	}
	limit := b.limits.of("roll.bend.mid")
	text := fmt.Sprintf("between its ends the pour runs straight and leaves the alignment by %s at most", b.roundedUp(b.Pour.MidOrdinate))
	if b.Pour.MidOrdinate > limit.Value {
		text += "; shorter pours follow it closer: half the length leaves a quarter"
	}
	c := candidate{Value: *result.Exactly(b.Pour.MidOrdinate), where: b.at("raised"), text: text}
	return []Judged{entry("roll.bend", b.subject(midOrdinate), []candidate{c}, limit, result.Max, "").with(b.workedMiddle())}
}

// lapChecks hold a form that reaches across a joint at which the line bends: as
// it is set, its end digs t sin(phi) into the concrete on the outside of the
// bend and gapes by as much on the inside.
func (b *bay) lapChecks(s *model.Study) []Judged {
	rear, front := b.Cell.Ends(b.Pour)
	form := float64(b.Carrier.Gear.Form.Length)
	var out []Judged
	outside := func(turn float64) float64 { return -math.Copysign(b.Cell.HalfSpan, turn) }
	if turn := b.Pour.Turn; math.Abs(turn) > 1e-9 {
		t := rear.At(outside(turn), 0) - b.Carrier.Rear
		out = append(out, b.lapCheck(lapBefore, t, turn, "cut the lap (culvert.lap)"))
	}
	if b.Pour.Number < len(s.Culvert.Pours) {
		if turn := s.Culvert.Pours[b.Pour.Number].Turn; math.Abs(turn) > 1e-9 {
			t := b.Carrier.Rear + form - front.At(outside(turn), 0)
			out = append(out, b.lapCheck(formAhead, t, turn, "cut the form"))
		}
	}
	if brk := b.Pour.Break; math.Abs(brk) > 1e-9 && b.Pour.Lap > 0 {
		out = append(out, b.lapCheck(lapBreak, b.Pour.Lap, brk, "cut the lap (culvert.lap)"))
	}
	return out
}

// lapCheck is one end of the form over one bend.
func (b *bay) lapCheck(rest string, over, turn float64, fix string) Judged {
	limit := b.limits.of("roll.bend.lap")
	if over < 1e-9 {
		return entry("roll.bend", b.subject(rest), nil, limit, result.Max, fmt.Sprintf("the form ends at a bend of %.2f deg and does not reach across it", math.Abs(turn)*180/math.Pi))
	}
	sin := math.Sin(math.Abs(turn))
	dig := over * sin
	text := fmt.Sprintf("the form reaches %s across a bend of %.2f deg: as set its end enters one side by %s x sin(%.2f deg) = %s and opens by as much on the other",
		b.mm(over), math.Abs(turn)*180/math.Pi, b.mm(over), math.Abs(turn)*180/math.Pi, b.roundedUp(dig))
	if dig > limit.Value {
		text += fmt.Sprintf("; %s to %s at most, or end it at the joint and fill the wedge", fix, b.roundedDown(limit.Value/sin))
	}
	c := candidate{Value: *result.Exactly(dig), where: b.at("raised"), text: text}
	return entry("roll.bend", b.subject(rest), []candidate{c}, limit, result.Max, "").with(workedLap(over, turn))
}

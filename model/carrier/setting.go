package carrier

import (
	"fmt"
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// Setting is how a gear is set to a section: every dimension that turns the
// gear's own measures into places. Metres, in the frame of cell and pour.
type Setting struct {
	Half     float64   // wall face from the centreline
	Soffit   float64   // above the invert top
	PlaneTop float64   // top of the plane wall face
	Foot     float64   // foot of the wall panels
	Stack    []float64 // heights of the wall panels, top one first
	Edge     float64   // where the roof ends and the corner begins, from the centreline
	Panel    float64   // width of a roof panel at the soffit
	Filler   float64   // width of a filler at the soffit
	Header   float64   // centre of the header
	Leg      float64   // sill top to header underside
	Jack     float64   // raised reading: sill underside to plate underside
	Wheels   float64   // reading at which the wheels take over
	Gauge    float64   // legs, sills and wheels, centre to centre
	ArmOuter float64   // outer end of a header arm, from the centreline
	ArmInner float64   // inner end
	Findings []Finding
}

// Settle works out the setting of a gear for a section; what the job fixes is
// taken as given. What cannot be reached is a finding, and the nearest setting
// stands in its place so that the rest can still be looked at.
func Settle(sec culvert.Section, g *job.Gear, set job.Set) Setting {
	s := Setting{
		Half: sec.HalfSpan, Soffit: sec.Rise, PlaneTop: sec.PlaneTop(),
		Edge:   sec.HalfSpan - float64(g.Corner.Haunch.X) - float64(g.Corner.Soffit),
		Wheels: float64(g.Wheels.Axle) + float64(g.Wheels.Diameter)/2,
	}
	s.settleCorner(sec, g)
	s.settleWall(sec, g, set)
	s.settleRoof(g, set)
	s.settleHeight(g, set)
	s.settleGauge(g, set)
	s.settleArms(g)
	return s
}

func (s *Setting) find(f Finding) { s.Findings = append(s.Findings, f) }

// settleCorner holds the corner panel against the section's top haunch.
func (s *Setting) settleCorner(sec culvert.Section, g *job.Gear) {
	for _, d := range []struct {
		what      string
		has, want float64
	}{{"run", float64(g.Corner.Haunch.X), sec.Top.Run}, {"rise", float64(g.Corner.Haunch.Y), sec.Top.Rise}} {
		s.find(Finding{Of: CornerSize, Subject: "corner panel " + d.what, State: "raised", Value: d.want, Min: d.has, Max: d.has,
			Text: words("the top haunch has a %s of %s, the corner panel fits %s", d.what, metres(d.want), metres(d.has))})
	}
}

// settleWall chooses the stack of panels: reach over the kicker nearest to the preferred one,
// then the fewest panels.
func (s *Setting) settleWall(sec culvert.Section, g *job.Gear, set job.Set) {
	top := s.PlaneTop - float64(g.Corner.Leg)
	over := g.Wall.OverKicker
	want := sec.Kicker - preferred(over)
	if set.Foot != nil {
		want = float64(*set.Foot)
	}
	s.Stack = stack(g.Wall, top-want, func(h float64) bool {
		l := sec.Kicker - (top - h)
		return set.Foot != nil || (l >= float64(over.Min)-rangeSlack && l <= float64(over.Max)+rangeSlack)
	})
	reached := sum(s.Stack)
	s.Foot = top - reached
	text := words("top of the panels %s - stack %s = foot %s; kicker %s - foot = reach over the kicker", metres(top), metres(reached), metres(s.Foot), metres(sec.Kicker))
	if len(s.Stack) == 0 {
		s.Stack, s.Foot = []float64{top - want}, want
		s.find(Finding{Of: WallStack, Subject: "wall panel stack", State: "raised", Value: top - want, Min: math.Inf(1), Max: math.Inf(-1),
			Text: words("the wall needs %s of panels (%s - foot %s); no stack of panels of %s gives a reach over the kicker between %s and %s",
				metres(top-want), metres(top), metres(want), heights(g.Wall), metres(over.Min), metres(over.Max))})
	}
	s.find(against(over, KickerReach, "reach over the kicker", "raised", sec.Kicker-s.Foot, text))
	if set.Foot != nil {
		s.find(Finding{Of: WallFoot, Subject: "wall panel foot", State: "raised", Value: s.Foot, Min: want - incrementSlack, Max: want + incrementSlack,
			Text: words("the job sets the foot at %s; panels of %s give %s", metres(want), heights(g.Wall), metres(s.Foot))})
	}
}

// stack finds the panels, largest first, whose sum is allowed and nearest to
// want; ties go to the fewest panels.
func stack(w job.WallPanels, want float64, allowed func(float64) bool) []float64 {
	var best, now []float64
	score := math.Inf(1)
	var try func(from int, total float64)
	try = func(from int, total float64) {
		if len(now) > 0 && allowed(total) {
			// a panel more costs less than any difference one can measure
			if v := math.Abs(total-want) + 1e-7*float64(len(now)); v < score {
				score, best = v, append([]float64(nil), now...)
			}
		}
		if len(now) == w.Most {
			return
		}
		for i := from; i < len(w.Heights); i++ {
			now = append(now, float64(w.Heights[i]))
			try(i, total+float64(w.Heights[i]))
			now = now[:len(now)-1]
		}
	}
	try(0, 0)
	return best
}

// settleRoof chooses the roof panel width that leaves a gap the fillers
// can take, nearest to the preferred one.
func (s *Setting) settleRoof(g *job.Gear, set job.Set) {
	share := kindOf(g).share
	filler := func(w float64) float64 { return share * (s.Edge - w) }
	want := preferred(g.Roof.Filler)
	if set.Filler != nil {
		want = float64(*set.Filler)
	}
	best := math.Inf(1)
	for _, w := range g.Roof.Widths {
		if d := math.Abs(filler(float64(w)) - want); d < best {
			best, s.Panel = d, float64(w)
		}
	}
	s.Filler = filler(s.Panel)
	text := words("edge of the corner panel %s from the centreline, roof panel %s wide", metres(s.Edge), metres(s.Panel))
	if set.Filler != nil && best > incrementSlack {
		need := s.panelBeside(want, share)
		s.find(Finding{Of: RoofWidth, Subject: "roof panel width", State: "raised", Value: need, Min: s.Panel, Max: s.Panel,
			Text: words("a filler %s wide needs a roof panel of %s; the nearest in the gear is %s", metres(want), metres(need), metres(s.Panel))})
		s.Panel, s.Filler = need, want
	}
	s.find(against(g.Roof.Filler, FillerWidth, "filler width", "raised", s.Filler, text))
}

// panelBeside is the roof panel that leaves a filler so wide its share.
func (s *Setting) panelBeside(filler, share float64) float64 { return s.Edge - filler/share }

// settleHeight shares the height between legs and jacks: the leg hole that
// leaves the jack nearest to its aim, wheels reading + lowering.
func (s *Setting) settleHeight(g *job.Gear, set job.Set) {
	s.Header = s.Soffit - float64(g.Roof.Depth) - float64(g.Roof.Stringers.Section.Y) - float64(g.Roof.Seat) - float64(g.Frame.Header.Section.Y)/2
	under := s.Header - float64(g.Frame.Header.Section.Y)/2
	rest := under - float64(g.Frame.Sill.Y)
	aim := s.Wheels + float64(g.Jack.Lower)
	switch {
	case set.Jack != nil && set.Leg == nil:
		s.Leg = rest - float64(*set.Jack)
	case set.Leg != nil:
		s.Leg = float64(*set.Leg)
	default:
		best := math.Inf(1)
		for _, l := range choices(g.Frame.Leg.Length, rest-aim) {
			if d := math.Abs(rest - l - aim); d < best {
				best, s.Leg = d, l
			}
		}
	}
	s.Jack = rest - s.Leg
	text := words("header underside %s - sill %s - leg %s = jack %s", metres(under), metres(g.Frame.Sill.Y), metres(s.Leg), metres(s.Jack))
	s.find(against(g.Frame.Leg.Length, LegLength, "leg length", "raised", s.Leg, text))
	s.find(against(g.Jack.Reading, JackReading, "jack", "raised", s.Jack, text))
	if set.Jack != nil && set.Leg != nil {
		s.find(Finding{Of: JackReading, Subject: "jack", State: "raised", Value: float64(*set.Jack), Min: s.Jack - incrementSlack, Max: s.Jack + incrementSlack,
			Text: text.and("; the job sets both leg and jack, which must add up to %s", metres(rest))})
	}
	overlap := float64(g.Frame.Leg.Outer) + float64(g.Frame.Leg.Inner) - s.Leg
	s.find(Finding{Of: LegOverlap, Subject: "leg overlap", State: "raised", Value: overlap, Min: float64(g.Frame.Leg.Overlap), Max: math.Min(float64(g.Frame.Leg.Outer), float64(g.Frame.Leg.Inner)),
		Text: words("outer tube %s + inner tube %s - leg %s", metres(g.Frame.Leg.Outer), metres(g.Frame.Leg.Inner), metres(s.Leg))})
}

func (s *Setting) settleGauge(g *job.Gear, set job.Set) {
	s.Gauge = preferred(g.Frame.Gauge)
	if set.Gauge != nil {
		s.Gauge = float64(*set.Gauge)
	}
	s.find(against(g.Frame.Gauge, Gauge, "gauge", "raised", s.Gauge, words("legs, sills and wheels, centre to centre")))
}

func (s *Setting) settleArms(g *job.Gear) {
	arm := g.Frame.Header.Arm
	if arm == nil {
		return
	}
	s.ArmOuter = s.Half - float64(arm.Behind)
	s.ArmInner = s.ArmOuter - float64(arm.Length)
	tube := float64(g.Frame.Header.Length) / 2
	s.find(Finding{Of: ArmOverlap, Subject: "arm overlap", State: "raised", Value: tube - s.ArmInner, Min: float64(arm.Overlap), Max: math.Min(float64(arm.Length), tube+s.Half),
		Text: words("tube end %s - arm's inner end %s (wall face %s - %s behind it - arm %s)", metres(tube), metres(s.ArmInner), metres(s.Half), metres(arm.Behind), metres(arm.Length))})
}

// inFile prints metres in the units of the gear's own file, for what is to be
// written there: in millimetres, or feet and inches.
func inFile(g *job.Gear, v float64) string {
	if g.Gear.Units == "imperial" {
		return units.Length(v).Text(units.Imperial)
	}
	return mm(v)
}

// mm prints metres as millimetres for the arithmetic in messages.
func mm(v float64) string {
	r := math.Round(v*1e4) / 10
	if r == math.Trunc(r) {
		return fmt.Sprintf("%.0f mm", r)
	}
	return fmt.Sprintf("%.1f mm", r)
}

func heights(w job.WallPanels) []metres {
	var out []metres
	for _, h := range w.Heights {
		out = append(out, metres(h))
	}
	return out
}

func sum(v []float64) float64 {
	var t float64
	for _, x := range v {
		t += x
	}
	return t
}

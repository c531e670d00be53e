package carrier

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/model/diag"
	"boxwalk/model/job"
)

// drives lists the links that drive a body.
func drives(g *job.Gear, body string) []job.Link {
	var out []job.Link
	for _, l := range g.Links {
		if l.Drives == body {
			out = append(out, l)
		}
	}
	return out
}

// needOneDriver asks for exactly one link that drives the body.
func needOneDriver(g *job.Gear, body string) diag.Problems {
	switch n := len(drives(g, body)); {
	case n == 0:
		return diag.Problems{{Key: "links", Summary: fmt.Sprintf("no link drives the %s", body),
			Fix: fmt.Sprintf("give one link `drives: %s`; the others on that body follow", body)}}
	case n > 1:
		return diag.Problems{{Key: "links", Summary: fmt.Sprintf("%d links drive the %s; one joint has one driver", n, body),
			Fix: fmt.Sprintf("keep `drives: %s` on one link; the others follow with a length of their own at every step", body)}}
	}
	return nil
}

// lackingPulls asks that what pulls is something that a crew turns and that draws.
func (k *kind) lackingPulls(g *job.Gear) diag.Problems {
	var names []string
	for _, l := range g.Links {
		if l.Drives != "" {
			names = append(names, l.Name)
		}
	}
	for _, m := range k.bodies {
		if m.screw != nil && !slices.Contains(names, m.screw.name) {
			names = append(names, m.screw.name)
		}
	}
	var out diag.Problems
	for _, name := range job.SortedKeys(g.Pulls) {
		if !slices.Contains(names, name) {
			out = append(out, diag.Problem{Key: "pulls." + name, Summary: fmt.Sprintf("the gear has no %q that draws anything", name), Fix: "one of " + strings.Join(names, ", ")})
		}
	}
	return out
}

// component is a part of a gear that not every kind has.
type component struct {
	key, words string
	given      func(g *job.Gear) bool
}

// components are all of them. A new one of a kind's own goes in here, and no
// other kind need know of it.
var components = []component{
	{"hinge", "hinge of the walls", func(g *job.Gear) bool { return g.Hinge != nil }},
	{"frame.header.arm", "sliding arms", func(g *job.Gear) bool { return g.Frame.Header.Arm != nil }},
	{"slide", "roller track", func(g *job.Gear) bool { return g.Slide != nil }},
	{"roof_jack", "roof jacks", func(g *job.Gear) bool { return g.RoofJack != nil }},
	{"roof.pocket", "pockets in the roof panels", func(g *job.Gear) bool { return g.Roof.Pocket != nil }},
	{"corner.return", "wall panels that reach onto the haunch", func(g *job.Gear) bool { return g.Corner.Return > 0 }},
	{"corner.leg", "corner panels that reach down the wall", func(g *job.Gear) bool { return g.Corner.Leg > 0 }},
	{"roof.stringers.middle", "stringer on the centreline", func(g *job.Gear) bool { return g.Roof.Stringers.Middle }},
}

// given tells whether a gear has a component.
func given(g *job.Gear, key string) bool {
	return slices.ContainsFunc(components, func(c component) bool { return c.key == key && c.given(g) })
}

// misplaced refuses what the kind has no place for: left in silence, it would
// be taken for granted on site.
func (k *kind) misplaced(g *job.Gear) diag.Problems {
	var out diag.Problems
	for _, c := range components {
		if c.given(g) && !k.has(c.key) {
			out = append(out, diag.Problem{Key: c.key, Summary: fmt.Sprintf("%s has no %s", k.name, c.words), Fix: "take it out, or change gear.kind"})
		}
	}
	return out
}

// lackingBodies asks that links stand on bodies the kind has, and that none
// hangs on what it drives itself.
func lackingBodies(g *job.Gear, path string, l job.Link) diag.Problems {
	var out diag.Problems
	k := kindOf(g)
	for _, end := range []struct {
		key string
		pin job.Pin
	}{{"from", l.From}, {"to", l.To}} {
		if !slices.Contains(k.pinned(), end.pin.Body) {
			out = append(out, diag.Problem{Key: path + "." + end.key + ".body", Summary: fmt.Sprintf("%s has no %s for a pin of link %q", k.name, end.pin.Body, l.Name), Fix: "put the pin on the " + strings.Join(k.pinned(), " or the ")})
		}
	}
	switch m := k.member(l.Drives); {
	case m != nil && m.screw != nil:
		out = append(out, diag.Problem{Key: path + ".drives", Summary: fmt.Sprintf("the %s moves the %s, not link %q", m.screw.name, l.Drives, l.Name), Fix: "take `drives` out; the link follows"})
	case k.hangs(l.From.Body, l.Drives):
		out = append(out, diag.Problem{Key: path + ".from.body", Summary: fmt.Sprintf("link %q drives the %s from the %s, and the %s hangs on the %s: a loop", l.Name, l.Drives, l.From.Body, l.From.Body, l.Drives), Fix: "put the `from` pin on the frame"})
	}
	return out
}

// pinned are the bodies that links stand on: links stand on both sides, and
// so do these.
func (k *kind) pinned() []string {
	out := []string{bodyFrame}
	for _, m := range k.bodies {
		if !m.middle {
			out = append(out, m.name)
		}
	}
	return out
}

// hangs tells whether a body hangs on another, or on what hangs on it.
func (k *kind) hangs(body, on string) bool {
	m := k.member(body)
	return m != nil && (m.on == on || k.hangs(m.on, on))
}

// lackingName asks for a name of its own that does not end like a side's.
func lackingName(path, name string, seen bool) diag.Problems {
	if seen || taken(name) {
		return diag.Problems{{Key: path, Summary: fmt.Sprintf("the name %q is taken", name), Fix: "give each link a name of its own"}}
	}
	for _, side := range sides {
		if strings.HasSuffix(name, " "+side.String()) {
			return diag.Problems{{Key: path, Summary: fmt.Sprintf("the name %q reads as that of one side", name), Fix: fmt.Sprintf("for example name: %s; each link stands on both sides", strings.TrimSuffix(name, " "+side.String()))}}
		}
	}
	return nil
}

func lackingLinks(g *job.Gear) diag.Problems {
	var out diag.Problems
	seen := map[string]bool{}
	for i, l := range g.Links {
		path := fmt.Sprintf("links[%d]", i)
		out = append(out, lackingName(path+".name", l.Name, seen[l.Name])...)
		seen[l.Name] = true
		if l.Drives != "" && l.Drives != l.To.Body {
			out = append(out, diag.Problem{Key: path + ".drives", Summary: fmt.Sprintf("link %q drives the %s but its `to` pin is on the %s", l.Name, l.Drives, l.To.Body),
				Fix: fmt.Sprintf("put the `to` pin on the %s", l.Drives)})
		}
		if l.From.Body == l.To.Body {
			out = append(out, diag.Problem{Key: path + ".to.body", Summary: fmt.Sprintf("both pins of link %q are on the %s", l.Name, l.To.Body), Fix: "a link joins two bodies"})
		}
		out = append(out, lackingBodies(g, path, l)...)
		out = append(out, lackingPin(path+".from", l.From)...)
		out = append(out, lackingPin(path+".to", l.To)...)
	}
	return out
}

// lackingPin asks for one measure across and one measure up.
func lackingPin(path string, p job.Pin) diag.Problems {
	across, up := 0, 0
	for _, set := range []bool{p.Out != nil, p.Behind != nil} {
		if set {
			across++
		}
	}
	for _, set := range []bool{p.AboveSill != nil, p.AboveHeader != nil, p.AboveFoot != nil, p.BelowTop != nil} {
		if set {
			up++
		}
	}
	var out diag.Problems
	if across != 1 {
		out = append(out, diag.Problem{Key: path, Summary: fmt.Sprintf("the pin has %d measures across; it needs one of out, behind", across), Fix: "for example `behind: 210 mm`"})
	}
	if up != 1 {
		out = append(out, diag.Problem{Key: path, Summary: fmt.Sprintf("the pin has %d heights; it needs one of above_sill, above_header, above_foot, below_top", up), Fix: "for example `above_foot: 250 mm`"})
	}
	return out
}

// lackingRanges asks that every range runs upward.
func lackingRanges(g *job.Gear) diag.Problems {
	var out diag.Problems
	ask := func(path string, a job.Adjust) {
		if a.Max < a.Min {
			out = append(out, diag.Problem{Key: path + ".max", Summary: fmt.Sprintf("max %s is less than min %s", inFile(g, float64(a.Max)), inFile(g, float64(a.Min))),
				Fix: fmt.Sprintf("for example max: %s", inFile(g, float64(a.Min)+0.1))})
		}
	}
	ask("wall.over_kicker", g.Wall.OverKicker)
	ask("roof.filler", g.Roof.Filler)
	ask("frame.gauge", g.Frame.Gauge)
	ask("frame.leg.length", g.Frame.Leg.Length)
	ask("jack.reading", g.Jack.Reading)
	if g.Slide != nil {
		ask("slide.draw", g.Slide.Draw)
	}
	if g.RoofJack != nil {
		ask("roof_jack", g.RoofJack.Adjust)
	}
	for i, l := range g.Links {
		ask(fmt.Sprintf("links[%d].length", i), l.Length)
		if most := 2 * float64(l.Eye); float64(l.Length.Min) <= most {
			out = append(out, diag.Problem{Key: fmt.Sprintf("links[%d].length.min", i), Summary: fmt.Sprintf("link %q is shorter than its two eyes: %s against 2 x %s", l.Name, inFile(g, float64(l.Length.Min)), inFile(g, float64(l.Eye))),
				Fix: fmt.Sprintf("for example min: %s", inFile(g, most+0.2))})
		}
	}
	return out
}

// Outweighed is a problem where the carrier is said to weigh less in all than
// what is known of its parts.
func (c *Carrier) Outweighed() diag.Problems {
	if c.Gear.Mass.Total == nil {
		return nil
	}
	total := float64(*c.Gear.Mass.Total)
	var least Mass
	for _, p := range c.Parts {
		least = least.Plus(p.Mass)
	}
	if total >= least.Low {
		return nil
	}
	return diag.Problems{{Key: "mass.total", Summary: fmt.Sprintf("the carrier cannot weigh %.0f kg: its parts weigh at least %.0f kg", total, least.Low),
		Fix: "write what was weighed with all panels, fillers and ties, or leave it out"}}
}

// leastApart is how near the two pins of a link may stand: nearer, the link has
// no direction of its own and nothing about it can be worked out.
const leastApart = 1e-3

// Collapsed lists links whose pins fall together at this setting. Such a carrier
// cannot be moved.
func (c *Carrier) Collapsed() diag.Problems {
	var out diag.Problems
	for _, a := range c.Adjusters {
		if a.Link < 0 || a.Side != sides[0] || a.Raised >= leastApart {
			continue
		}
		i := slices.IndexFunc(c.Gear.Links, func(l job.Link) bool { return l.Name == a.Name })
		out = append(out, diag.Problem{Key: fmt.Sprintf("links[%d].to", i), Summary: fmt.Sprintf("both pins of link %q stand in one place: %s apart when raised", a.Name, inFile(c.Gear, a.Raised)),
			Fix: fmt.Sprintf("move one of the pins by at least the least length, %s", inFile(c.Gear, float64(a.Range.Min)))})
	}
	return out
}

package carrier

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/model/diag"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// size is a key of the gear that the shape of a role's parts depends on, and
// which way it has to go to mend them.
type size struct {
	key  string
	of   func(*job.Gear) *units.Length
	grow bool
}

// shaping are the sizes that can make a part of a role cross itself, the first to
// be changed first.
var shaping = map[Role][]size{
	CornerPanel: {
		{key: "corner.depth", of: func(g *job.Gear) *units.Length { return &g.Corner.Depth }},
		{key: "roof.depth", of: func(g *job.Gear) *units.Length { return &g.Roof.Depth }},
		{key: "wall.depth", of: func(g *job.Gear) *units.Length { return &g.Wall.Depth }},
		{key: "roof.taper", of: func(g *job.Gear) *units.Length { return &g.Roof.Taper }},
	},
	WallPanel: {
		{key: "corner.return", of: func(g *job.Gear) *units.Length { return &g.Corner.Return }},
		{key: "wall.depth", of: func(g *job.Gear) *units.Length { return &g.Wall.Depth }, grow: true},
	},
	RoofPanel: {{key: "roof.taper", of: func(g *job.Gear) *units.Length { return &g.Roof.Taper }}},
	Filler:    {{key: "roof.taper", of: func(g *job.Gear) *units.Length { return &g.Roof.Taper }}},
	Bracket:   {{key: "frame.header.length", of: func(g *job.Gear) *units.Length { return &g.Frame.Header.Length }, grow: true}},
	Track:     {{key: "frame.header.length", of: func(g *job.Gear) *units.Length { return &g.Frame.Header.Length }, grow: true}},
}

// Unfit are parts that are no solids: their outline crosses itself, so that
// nothing measured on them would be true. One problem for each role, at a size of
// the gear with one that makes sound parts, where there is one: again builds the
// carrier with another gear.
func (c *Carrier) Unfit(again func(*job.Gear) *Carrier) diag.Problems {
	var out diag.Problems
	told := map[Role]bool{}
	for _, p := range c.Parts {
		if told[p.Role] || p.Role == Wheel || p.Check() == nil {
			continue // a wheel is a drum, convex however large
		}
		told[p.Role] = true
		out = append(out, c.unfit(p, again))
	}
	return out
}

// unfit is what is wrong with one part.
func (c *Carrier) unfit(p Part, again func(*job.Gear) *Carrier) diag.Problem {
	var corners []string
	unit, per, decimals := "mm", 1e3, 1
	if c.Gear.Gear.Units == "imperial" {
		unit, per, decimals = "in", 1/0.0254, 2
	}
	for _, v := range p.Vertices[:len(p.Vertices)/2] {
		corners = append(corners, fmt.Sprintf("(%.*f, %.*f)", decimals, per*v[1], decimals, per*v[2]))
	}
	t := diag.Problem{Key: "gear.kind", Fix: "change the sizes that this part is made of",
		Summary: fmt.Sprintf("makes the outline of %s cross itself: out from the centreline and up from the invert, in %s, %s", p.Label(), unit, strings.Join(corners, ", "))}
	for _, s := range shaping[p.Role] {
		t.Key = shaping[p.Role][0].key
		if v, ok := s.mended(c.Gear, func(g *job.Gear) bool { return sound(again(g), p.Role) }); ok {
			word := "at most"
			if s.grow {
				word = "at least"
			}
			t.Key, t.Fix = s.key, fmt.Sprintf("write %s %s", word, inFile(c.Gear, v))
			break
		}
	}
	return t
}

// sound tells whether every part of a role is a convex solid.
func sound(c *Carrier, r Role) bool {
	for _, p := range c.Parts {
		if p.Role == r && p.Check() != nil {
			return false
		}
	}
	return true
}

// mended is the value nearest to the present one, to a tenth of a millimetre, that
// is good; none if neither a 256th of it is nor, where it has to grow, 256 times.
func (s size) mended(gear *job.Gear, good func(*job.Gear) bool) (float64, bool) {
	now := float64(*s.of(gear))
	with := func(v float64) bool {
		g := *gear
		*s.of(&g) = units.Length(v)
		return good(&g)
	}
	bad, step, round := now, 0.5, math.Floor
	if s.grow {
		step, round = 2, math.Ceil
	}
	for range 8 {
		v := bad * step
		if !with(v) {
			bad = v
			continue
		}
		for range 30 {
			if half := (v + bad) / 2; with(half) {
				v = half
			} else {
				bad = half
			}
		}
		v = round(v*1e4) / 1e4
		return v, v > 0 && with(v)
	}
	return 0, false
}

// flat tells whether a solid has no thickness: nothing is there.
func flat(s *geom.Solid) bool {
	d := s.Box().Max.Sub(s.Box().Min)
	return min(d[0], d[1], d[2]) < 1e-9
}

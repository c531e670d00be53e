package check

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// whilePoured is the moment that checks of the pour are about.
const whilePoured = "raised"

// poured is a bay's fresh concrete and its walls, worked out once.
type poured struct {
	job    *job.Job
	fresh  statics.Fresh
	sides  [2]*statics.Side // left and right; nil where a wall stands already
	failed error            // why the pressure is not known
	bent   error            // why the walls are not
}

// pouring works a bay's pour out when it is first asked for.
func (b *bay) pouring(s *model.Study) *poured {
	if b.pour != nil {
		return b.pour
	}
	p := &poured{job: s.Job}
	b.pour = p
	if p.fresh, p.failed = statics.FreshOf(s.Job, b.Cell.Section, b.system()); p.failed != nil {
		return p
	}
	for i, side := range sides {
		var err error
		if p.sides[i], err = statics.SideOf(b.Bay.Bay, p.fresh, side, float64(s.Job.Pour.LevelDifference), b.kept); err != nil && p.bent == nil {
			p.bent = err
		}
	}
	return p
}

// unknown is why the numbers of a check of walls are not known; nil where they are.
func (p *poured) unknown() error {
	if p.failed != nil {
		return p.failed
	}
	return p.bent
}

// notKnown is the open entry of what cannot be worked out.
func (b *bay) notKnown(id, what, unit string, err error) Judged {
	why := b.told(err)
	if m, is := statics.IsMissing(err); is {
		why = fmt.Sprintf("the pressure of the fresh concrete is not known: state %s in the job file, or pour: {pressure: fluid}", strings.Join(m.Keys, ", "))
	}
	return open(id, b.subject(what), unit, why, b.at(whilePoured))
}

// wallName is how a wall of the cell is called.
func wallName(side culvert.Side) string { return side.String() + " wall" }

// eachWall judges both walls; one that stands already has nothing to hold.
func (b *bay) eachWall(s *model.Study, id, what, unit string, judge func(p *poured, w *statics.Side) []Judged) []Judged {
	p := b.pouring(s)
	if err := p.unknown(); err != nil {
		return []Judged{b.notKnown(id, what, unit, err)}
	}
	var out []Judged
	for i, side := range sides {
		switch w := p.sides[i]; {
		case w == nil:
			out = append(out, b.nothing(id, what+", "+wallName(side), unit, "the "+wallName(side)+" stands already: nothing presses on its form"))
		case w.Bents == nil:
			out = append(out, open(id, b.subject(what+", "+wallName(side)), unit, "no concrete presses on the form there: pour and form do not lie beside each other", b.at(whilePoured)))
		default:
			out = append(out, judge(p, w)...)
		}
	}
	return out
}

// nothing is an entry that has nothing to hold.
func (b *bay) nothing(id, what, unit, why string) Judged {
	e := entry(id, b.subject(what), nil, Limit{Source: "statics (derived)"}, result.Max, why)
	e.Unit, e.Limit, e.Where = unit, nil, b.at(whilePoured)
	return e
}

// pressureChecks hold the pressure against what panels are stated for.
func (b *bay) pressureChecks(s *model.Study) []Judged {
	p := b.pouring(s)
	g := b.Carrier.Gear
	var out []Judged
	for _, panel := range []struct {
		role   carrier.Role
		what   string
		key    string
		stated *units.Pressure
	}{
		{carrier.WallPanel, "wall panel", "wall.pressure", g.Wall.Pressure},
		{carrier.CornerPanel, "corner panel", "corner.pressure", g.Corner.Pressure},
		{carrier.Filler, "filler", "roof.filler_pressure", g.Roof.FillerPressure},
	} {
		low, has := b.lowest(panel.role)
		switch {
		case !has:
		case p.failed != nil:
			out = append(out, b.notKnown("pour.pressure", panel.what, "kPa", p.failed))
		default:
			z := math.Max(low, p.fresh.Base)
			if panel.role == carrier.Filler {
				z = b.Cell.Rise
			}
			out = append(out, b.pressed(p, panel.what, z, panel.role == carrier.WallPanel, g.Rated(panel.key, job.Pointed(panel.stated))))
		}
	}
	return out
}

// lowest is how low parts of a role reach, raised.
func (b *bay) lowest(role carrier.Role) (z float64, any bool) {
	z = math.Inf(1)
	for _, p := range b.Carrier.Parts {
		if p.Role == role {
			z, any = math.Min(z, p.Box().Min[2]), true
		}
	}
	return z, any
}

// pressed is one panel under the pressure at a height.
func (b *bay) pressed(p *poured, what string, z float64, upright bool, rating job.Rating) Judged {
	value := p.fresh.Head(z)
	if upright {
		value = p.fresh.Upright(z)
	}
	text := func(load string) string {
		return fmt.Sprintf("fresh concrete of %s stands to %s above the invert, %s over the lowest place of a %s; %s it presses with %s there",
			b.weight(p.fresh.Weight), b.mm(p.fresh.Top), b.mm(p.fresh.Top-z), what, p.method(upright), load)
	}
	return b.held(holding{id: "pour.pressure", about: b.subject(what), where: b.at(whilePoured), unit: "kPa", text: text, source: p.fresh.Source,
		demand: Demand{Pressure: value}, rating: rating, bearer: "it", verb: "is stated for", working: p.workedPressure(b, z, upright)})
}

// method is by what the pressure is worked out, in words.
func (p *poured) method(upright bool) string {
	f := p.fresh
	switch {
	case f.Pumped > 1:
		return "pumped up from the base, the full head and a quarter more,"
	case !upright:
		return "by its full head, which counts on sloping and level faces,"
	case f.ACI != nil:
		return fmt.Sprintf("by ACI 347, equation (%c) because of %s, governed by %s,", f.ACI.Equation, f.ACI.Why, f.ACI.Rule)
	case f.DIN != nil:
		return fmt.Sprintf("by DIN 18218, governed by %s,", f.DIN.Rule)
	case f.CIRIA != nil:
		return fmt.Sprintf("by CIRIA 108, governed by %s,", f.CIRIA.Rule)
	}
	return "by its full head"
}

// weight prints a unit weight as the job's units have it.
func (b *bay) weight(w float64) string {
	if b.imperial {
		return units.KindUnitWeight.Short(w, units.Imperial)
	}
	return units.KindUnitWeight.Short(w, units.Metric)
}

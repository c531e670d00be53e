package job

import (
	"fmt"
	"math"

	"boxwalk/model/units"
)

// Check holds the rules between the keys of the culvert.
func (c *Culvert) Check(d *Decoder, path string) {
	c.checkCells(d, path)
	c.checkSection(d, path)
	c.checkJoints(d, path)
	c.checkOrder(d, path)
	c.checkEnds(d, path)
	c.checkBays(d, path)
}

// mostBays bounds cells x pours, so that what a job asks for stays bounded: a
// four-cell culvert of fifty pours is well within it.
const mostBays = 240

func (c *Culvert) checkBays(d *Decoder, path string) {
	cells, pours := len(c.Openings()), len(c.Pours.Lengths())
	if cells*pours > mostBays {
		d.FailAt(path+".pours", fmt.Sprintf("makes %d pours in all cells together", cells*pours), fmt.Sprintf("%d cells x %d pours; the most is %d", cells, pours, mostBays), "split the job, or write longer pours")
	}
}

// checkCells asks for span and rise once: for all cells, or in the list.
func (c *Culvert) checkCells(d *Decoder, path string) {
	for _, key := range []string{"span", "rise"} {
		given := d.Given(path + "." + key)
		switch {
		case len(c.Cells.List) > 0 && given:
			d.FailAt(path+"."+key, "stands beside a list of cells that has its own", "", "take "+key+" out here, or write cells as a number")
		case len(c.Cells.List) == 0 && !given:
			d.FailAt(path, "is missing "+key, fmt.Sprintf("cells: %d asks for one %s for all cells", c.Cells.Count, key), "add "+key+": "+map[string]string{"span": "3.0 m", "rise": "2.4 m"}[key])
		}
	}
}

// checkSection asks that haunches and kicker fit into the opening.
func (c *Culvert) checkSection(d *Decoder, path string) {
	sys := d.System()
	var top, bottom units.Size2
	if c.Haunch.Top != nil {
		top = *c.Haunch.Top
	}
	if c.Haunch.Bottom != nil {
		bottom = *c.Haunch.Bottom
	}
	for _, h := range []struct {
		key string
		is  *units.Size2
	}{{"top", c.Haunch.Top}, {"bottom", c.Haunch.Bottom}} {
		if h.is != nil && !(h.is.X > 0 && h.is.Y > 0) {
			d.FailAt(path+".haunch."+h.key, "has no size", "", "leave it out where there is no haunch")
		}
	}
	for i, o := range c.Openings() {
		at := fmt.Sprintf("cell %d", i+1)
		if run := max(top.X, bottom.X); run > 0 && 2*run >= o.Span {
			d.FailAt(path+".haunch", fmt.Sprintf("leaves no room in %s", at), fmt.Sprintf("2 x %s = %s; the span is %s", run.Text(sys), (2*run).Text(sys), o.Span.Text(sys)), "write a run below "+(o.Span/2).Text(sys))
		}
		if low := max(c.Kicker, bottom.Y); top.Y+low >= o.Rise && o.Rise > 0 {
			d.FailAt(path+".haunch", fmt.Sprintf("leaves no plane wall in %s", at), fmt.Sprintf("top haunch %s + kicker or bottom haunch %s = %s; the rise is %s", top.Y.Text(sys), low.Text(sys), (top.Y+low).Text(sys), o.Rise.Text(sys)), "write less, or a greater rise")
		}
	}
	if c.Kicker < bottom.Y {
		d.FailAt(path+".kicker", fmt.Sprintf("%s ends below the bottom haunch", c.Kicker.Text(sys)), fmt.Sprintf("the bottom haunch is %s high and cast with the kicker", bottom.Y.Text(sys)), "write at least "+bottom.Y.Text(sys))
	}
}

// checkJoints asks for one lap, or one for each joint, each shorter than the
// pour it lies on.
func (c *Culvert) checkJoints(d *Decoder, path string) {
	lengths := c.Pours.Lengths()
	if n := len(c.Lap); n > 1 && n != len(lengths)-1 {
		d.FailAt(path+".lap", fmt.Sprintf("lists %d laps", n), fmt.Sprintf("%d pours have %d joints", len(lengths), len(lengths)-1), "write one lap for all, or one for each joint")
	}
	for i := 1; i < len(lengths); i++ {
		if lap := units.Length(c.Lap.At(i - 1)); lap >= lengths[i-1] {
			d.FailAt(path+".lap", fmt.Sprintf("%s is not shorter than pour %d", lap.Text(d.System()), i), "pour "+fmt.Sprint(i)+" is "+lengths[i-1].Text(d.System())+" long", "write for example 150 mm")
		}
	}
}

// checkOrder asks that every pour is cast once.
func (c *Culvert) checkOrder(d *Decoder, path string) {
	n := len(c.Pours.Lengths())
	if len(c.Order.List) == 0 {
		return
	}
	seen := map[int]bool{}
	for _, p := range c.Order.List {
		if p > n || seen[p] {
			d.FailAt(path+".order", fmt.Sprintf("names pour %d, which is not there or was named before", p), fmt.Sprintf("there are %d pours", n), "name each pour from 1 on once, or write ahead")
			return
		}
		seen[p] = true
	}
	if len(seen) != n {
		d.FailAt(path+".order", fmt.Sprintf("names %d of %d pours", len(seen), n), "", "name each pour once, or write ahead")
	}
}

// checkEnds asks that the two ends of each pour do not cross within the box,
// as they would on a short pour with much skew.
func (c *Culvert) checkEnds(d *Decoder, path string) {
	half := float64(c.OuterWall)
	for i, o := range c.Openings() {
		half += float64(o.Span) / 2
		if i > 0 {
			half += float64(c.InnerWall) / 2
		}
	}
	lengths := c.Pours.Lengths()
	for i, l := range lengths {
		lean := math.Abs(math.Tan(c.SkewAt(i+1, len(lengths))) - math.Tan(c.SkewAt(i, len(lengths))))
		if need := units.Length(lean*half) + c.JointGap; l <= need {
			d.FailAt(path+".pours", fmt.Sprintf("has pour %d, whose ends meet within the box", i+1),
				fmt.Sprintf("half the width %s x the difference of the skews' tangents %.3f + joint gap = %s; the pour is %s long", units.Length(half).Text(d.System()), lean, need.Text(d.System()), l.Text(d.System())),
				"write more than "+need.Text(d.System())+", or less skew")
		}
	}
}

// Check holds the rules between the keys of the form: bents lie within it.
func (f *Form) Check(d *Decoder, path string) {
	last := f.First + units.Length(f.Bents-1)*f.Spacing
	if last > f.Length {
		most := int((f.Length-f.First)/f.Spacing) + 1
		d.FailAt(path+".bents", fmt.Sprintf("puts the last bent at %s, beyond the form", last.Text(d.System())),
			fmt.Sprintf("first %s + %d x %s = %s; the form is %s long", f.First.Text(d.System()), f.Bents-1, f.Spacing.Text(d.System()), last.Text(d.System()), f.Length.Text(d.System())), fmt.Sprintf("write at most %d", most))
	}
}

// Check holds the rules between groups of the gear: what stands along the form
// lies within it, and strips fit between the bents.
func (g *Gear) Check(d *Decoder, path string) {
	g.checkCounts(d)
	for i, at := range g.Wheels.At {
		if at < 0 || at > g.Form.Length {
			d.FailAt(fmt.Sprintf("wheels.at[%d]", i), fmt.Sprintf("%s lies outside the form", at.Text(d.System())), "the form is "+g.Form.Length.Text(d.System())+" long", "write a place between 0 and that")
		}
	}
	if len(g.Wheels.At) < 2 {
		d.FailAt("wheels.at", "names fewer than two wheel lines", "a carrier on one wheel line tips", "write for example [1.35 m, 7.95 m]")
	}
	if g.Roof.Strip >= g.Form.Spacing {
		d.FailAt("roof.strip", fmt.Sprintf("%s does not fit between two bents", g.Roof.Strip.Text(d.System())), "bents stand "+g.Form.Spacing.Text(d.System())+" apart, and a strip comes down between two headers",
			"write less than "+(g.Form.Spacing-g.Frame.Header.Section.X).Text(d.System()))
	}
	if clear := g.Form.Spacing - g.Frame.Header.Section.X; g.Roof.Strip < g.Form.Spacing && g.Roof.Strip > clear {
		d.FailAt("roof.strip", fmt.Sprintf("%s cannot come down between two headers", g.Roof.Strip.Text(d.System())), fmt.Sprintf("bent spacing %s - header %s = %s", g.Form.Spacing.Text(d.System()), g.Frame.Header.Section.X.Text(d.System()), clear.Text(d.System())), "write at most "+clear.Text(d.System()))
	}
}

// Check asks for exactly one kind of element.
func (e *PlanElement) Check(d *Decoder, path string) {
	n := 0
	for _, given := range []bool{e.Tangent != nil, e.Turn != nil, e.Curve != nil} {
		if given {
			n++
		}
	}
	if n != 1 {
		d.FailAt(path, fmt.Sprintf("has %d of tangent, turn, curve", n), "an element is one of them", "write for example {tangent: 17 m}")
	}
}

// Check holds the rules between the keys of the alignment: one way to give the
// line, and stations that go ahead.
func (a *Alignment) Check(d *Decoder, path string) {
	for _, key := range []string{"plan", "profile"} {
		if a.LandXML != "" && d.Given(path+"."+key) {
			d.FailAt(path+"."+key, "stands beside a LandXML file that has its own", "", "take one of the two out")
		}
	}
	if len(a.Profile) > 0 && d.Given(path+".grade") {
		d.FailAt(path+".grade", "stands beside a profile", "", "take one of the two out")
	}
	if len(a.Profile) == 1 {
		d.FailAt(path+".profile", "has one point", "a grade needs two", "write the elevation at both ends, or a straight grade")
	}
	for i := 1; i < len(a.Profile); i++ {
		before, here := a.Profile[i-1].Station, a.Profile[i].Station
		if here <= before {
			d.FailAt(fmt.Sprintf("%s.profile[%d].station", path, i), fmt.Sprintf("%s goes back", here.Text(d.System())), "the point before is at "+before.Text(d.System()), "list the points going ahead")
		}
	}
}

// mostAlong bounds how many panels or ties lie along one form.
const mostAlong = 100

// checkCounts bounds what is repeated along the form.
func (g *Gear) checkCounts(d *Decoder) {
	if n := math.Ceil(float64(g.Form.Length / g.Form.Piece)); n > mostAlong {
		least := g.Form.Length / mostAlong
		d.FailAt("form.piece", fmt.Sprintf("makes %.0f panels along the form", n), fmt.Sprintf("%s / %s; the most is %d", g.Form.Length.Text(d.System()), g.Form.Piece.Text(d.System()), mostAlong), "write at least "+least.Text(d.System()))
	}
	if g.Ties == nil {
		return
	}
	if n := math.Ceil(float64(g.Form.Length / g.Ties.Spacing)); n > mostAlong {
		least := g.Form.Length / mostAlong
		d.FailAt("ties.spacing", fmt.Sprintf("makes %.0f ties along the form", n), fmt.Sprintf("%s / %s; the most is %d", g.Form.Length.Text(d.System()), g.Ties.Spacing.Text(d.System()), mostAlong), "write at least "+least.Text(d.System()))
	}
}

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
	c.checkPours(d, path)
	c.checkChannel(d, path)
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
		d.FailAt(path+".pours", fmt.Sprintf("makes %d pours in all cells together", cells*pours), fmt.Sprintf("cells: %d x %d pours; the most is %d", cells, pours, mostBays),
			fmt.Sprintf("split the job, or write at most %d longer pours", mostBays/cells))
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
		if o.Span == 0 || o.Rise == 0 {
			continue // told by checkCells
		}
		if run := max(top.X, bottom.X); run > 0 && 2*run >= o.Span {
			d.FailAt(path+".haunch", fmt.Sprintf("leaves no room in %s", at), fmt.Sprintf("2 x %s = %s; the span is %s", run.Text(sys), (2*run).Text(sys), o.Span.Text(sys)), "write a run below "+(o.Span/2).Text(sys))
		}
		if low := max(c.Kicker, bottom.Y); top.Y+low >= o.Rise {
			key := ".haunch"
			if c.Kicker >= top.Y && c.Kicker > bottom.Y {
				key = ".kicker"
			}
			d.FailAt(path+key, fmt.Sprintf("leaves no plane wall in %s", at), fmt.Sprintf("top haunch %s + kicker or bottom haunch %s = %s; the rise is %s", top.Y.Text(sys), low.Text(sys), (top.Y+low).Text(sys), o.Rise.Text(sys)), "write a kicker and haunches of less than "+o.Rise.Text(sys)+" together")
		}
	}
	if c.Kicker < bottom.Y {
		d.FailAt(path+".kicker", fmt.Sprintf("%s ends below the bottom haunch", c.Kicker.Text(sys)), fmt.Sprintf("the bottom haunch is %s high and cast with the kicker", bottom.Y.Text(sys)), "write at least "+bottom.Y.Text(sys))
	}
}

// leastPour is the shortest length that counts as a pour: what is shorter is a
// slip of the pen or the rest of a rounded total. Judgement.
const leastPour = units.Length(0.1)

// checkPours asks that no pour is a sliver.
func (c *Culvert) checkPours(d *Decoder, path string) {
	sys := d.System()
	for i, l := range c.Pours.List {
		if l < leastPour {
			d.FailAt(item(path+".pours", i), l.Text(sys)+" is too short for a pour", "the least is "+leastPour.Text(sys), "write for example 9 m")
		}
	}
	if len(c.Pours.List) > 0 {
		return
	}
	lengths := c.Pours.Lengths()
	if n := len(lengths); n > 0 && lengths[n-1] < leastPour {
		whole, fix := units.Length(n-1)*c.Pours.Each, "write for example total: 9 m"
		if n > 1 {
			fix = "write total: " + whole.Text(sys)
		}
		d.FailAt(path+".pours.total", fmt.Sprintf("leaves a last pour of %s", lengths[n-1].Text(sys)),
			fmt.Sprintf("%s - %d x %s = %s; the least is %s", c.Pours.Total.Text(sys), n-1, c.Pours.Each.Text(sys), lengths[n-1].Text(sys), leastPour.Text(sys)), fix)
	}
}

// leastUnder is what has to stay of an invert under a channel: as much as the thinnest
// slab that a job may have (judgement).
const leastUnder units.Length = 0.100

// checkChannel asks that a low-flow channel lies in the invert of every cell,
// between the bottom haunches.
func (c *Culvert) checkChannel(d *Decoder, path string) {
	if c.Channel == nil {
		return
	}
	sys, ch := d.System(), c.Channel
	if left := c.Invert - ch.Depth; left < leastUnder {
		fix := "write at most " + (c.Invert - leastUnder).Text(sys)
		if c.Invert <= leastUnder {
			fix = "leave the channel out, or make the invert thicker"
		}
		d.FailAt(path+".channel.depth", ch.Depth.Text(sys)+" cuts too deep into the invert",
			fmt.Sprintf("%s - %s = %s; at least %s stay under a channel", c.Invert.Text(sys), ch.Depth.Text(sys), left.Text(sys), leastUnder.Text(sys)), fix)
	}
	for i, o := range c.Openings() {
		room, reach := flat(o, c.Haunch.Bottom), units.Length(math.Abs(float64(ch.Offset)))+ch.Width/2
		if o.Span > 0 && reach > room {
			d.FailAt(path+".channel", fmt.Sprintf("reaches beyond the flat invert of cell %d", i+1),
				fmt.Sprintf("offset %s + half the width %s = %s; flat to %s from the centreline", units.Length(math.Abs(float64(ch.Offset))).Text(sys), (ch.Width/2).Text(sys), reach.Text(sys), room.Text(sys)),
				"write a channel within "+room.Text(sys)+" on each side")
			return
		}
	}
}

// flat is how far a cell's slab is flat, from the centreline to the haunch.
func flat(o Cell, haunch *units.Size2) units.Length {
	if haunch == nil {
		return o.Span / 2
	}
	return o.Span/2 - haunch.X
}

// checkJoints asks for one lap, or one for each joint, each shorter than the
// pour it lies on.
func (c *Culvert) checkJoints(d *Decoder, path string) {
	lengths := c.Pours.Lengths()
	if n := len(c.Lap); n > 1 && n != len(lengths)-1 {
		d.FailAt(path+".lap", fmt.Sprintf("lists %d laps", n), fmt.Sprintf("joints of %d pours: %d", len(lengths), len(lengths)-1), "write one lap for all, or one for each joint")
	}
	for i := 1; i < len(lengths); i++ {
		if lap := units.Length(c.Lap.At(i - 1)); lap >= lengths[i-1] {
			d.FailAt(path+".lap", fmt.Sprintf("%s is not shorter than pour %d", lap.Text(d.System()), i), "pour "+fmt.Sprint(i)+" is "+lengths[i-1].Text(d.System())+" long", "write less than "+lengths[i-1].Text(d.System()))
		}
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
			need = units.Length(math.Ceil(float64(need)*1e3-1e-6) / 1e3) // shown to the whole millimetre above
			d.FailAt(path+".pours", fmt.Sprintf("has pour %d, whose ends meet within the box", i+1),
				fmt.Sprintf("half the width %s x the difference of the skews' tangents %.3f + joint gap = %s; the pour is %s long", units.Length(half).Text(d.System()), lean, need.Text(d.System()), l.Text(d.System())),
				"write more than "+need.Text(d.System())+", or less skew")
		}
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
	for _, key := range []string{"plan", "profile", "start", "grade"} {
		if a.LandXML != "" && d.Given(path+"."+key) {
			d.FailAt(path+"."+key, "stands beside a LandXML file that has its own", "", "take one of the two out")
		}
	}
	if a.LandXML == "" && a.Name != "" {
		d.FailAt(path+".name", "names an alignment of no file", "", "give the file with landxml, or take name out")
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

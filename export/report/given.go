package report

import (
	"fmt"
	"strings"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/check"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// basis is how numbers are come by and read.
func (w *writer) basis() []Block {
	sources := Table{Fixed: true, Caption: "By what each check is made", Heads: []Head{{Title: "Check", Share: 1.2}, {Title: "Formula", Share: 4}, {Title: "Limit", Share: 1.8}, {Title: "Source", Share: 2}}}
	made := map[string]bool{}
	for _, e := range w.result.Checks {
		made[e.ID] = true
	}
	for _, c := range check.Table() {
		if made[c.ID] {
			sources.Rows = append(sources.Rows, Row{Cells: []Cell{{Text: c.ID}, {Text: c.Formula}, {Text: c.Limit}, {Text: c.Source}}})
		}
	}
	units := "Tables and sentences are in millimetres, kilonewtons and kilograms."
	if w.system == imperial {
		units = "Tables and sentences are in feet, inches, kips and pounds."
	}
	return []Block{
		Bullets{[]string{
			"A clearance is searched over the whole motion and is a bracket: its lower end is proved, its upper end was met. The worse end counts.",
			"Pass: even the worse end, less its allowance, keeps the limit. Fail: not even the better end does. Open: neither, or something is missing; open is never clear.",
			"All other numbers are hand formulas. Each stands with its working: what went in and whose it is, then each step as formula, with numbers, and its result. Workings are in SI units, named on each row, and so are the constants in them; a value is printed to six digits.",
			units + " Numbers are rounded to the worse side, so that none reads better than it is.",
			"Places along the carrier are from the rear end of its form, those along a pour from its rear end, ahead; left is left looking ahead.",
		}},
		sources,
	}
}

const imperial = units.Imperial

// inputs are the files, with their hashes.
func (w *writer) inputs() []Block {
	t := Table{Caption: "Files and settings that it was worked out from", Heads: []Head{{Title: "Name", Share: 1}, {Title: "SHA-256", Share: 3}}}
	for _, i := range w.result.Inputs {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: i.Name}, {Text: i.SHA256}}})
	}
	s := w.study
	facts := Facts{[][2]string{{"Tool", "boxwalk " + w.result.Version}}}
	for _, c := range s.Culvert.Cells {
		m := units.Shown("m", w.system)
		facts.Rows = append(facts.Rows, [2]string{fmt.Sprintf("Cell %d", c.Number), fmt.Sprintf("span %s, rise %s, kicker %s", m.With(m.Nearest(2*c.HalfSpan)), m.With(m.Nearest(c.Rise)), m.With(m.Nearest(c.Kicker)))})
	}
	facts.Rows = append(facts.Rows, [2]string{"Pours", fmt.Sprint(len(s.Culvert.Pours))}, [2]string{"Gear", strings.TrimSpace(s.Gear.Gear.Name)})
	for _, row := range [][2]string{{"Owner", s.Job.Sheet.Owner}, {"Date", s.Job.Sheet.Date}, {"Revision", s.Job.Sheet.Revision}} {
		if row[1] != "" {
			facts.Rows = append(facts.Rows, row)
		}
	}
	return []Block{facts, t}
}

// assumptions are what the numbers hold under.
func (w *writer) assumptions() []Block {
	list := []string{
		"Everything stands as the two files say, give or take the tolerances listed. Deflection under load, dirt, wear and how concrete releases are not in the numbers, except as these tolerances.",
		"Parts are rigid. Solids are exact, except round ones: prisms of 128 sides that stick out beyond them, on the safe side.",
		"While jacks or pads move the carrier the frame is rigid, and leans both ways by what they may differ.",
		"Inverts are planes, level across; a twist or a crossfall (cross slope) counts as slope x lever, either way. Wheels stay on their course within the wander stated.",
		"Loads on wheels, jacks and pads under the carrier's own weight are those of a rigid frame on equal supports, or on any three.",
		"Masses that are not stated are ranges; the heavy end counts, with the centre of gravity in its worst place.",
		"Capacities are true, of the basis stated, and of the parts that are on site.",
	}
	if f := w.study.Job.Travel.Rolling; f.Least > 0 {
		list = append(list, fmt.Sprintf("Rolling friction of %.4g holds the carrier back (travel.rolling.least, source: %s).", float64(f.Least), f.Source))
	}
	if c := w.study.Job.Culvert; c.JointCover && c.JointGap > 0 {
		list = append(list, "Joints of the invert are closed flush before anything stands on them or rolls over them (culvert.joint_cover).")
	}
	return []Block{Bullets{list}}
}

// defaults are all numbers that nobody stated and that entered.
func (w *writer) defaults() []Block {
	j, g := w.study.Job, w.study.Gear
	out := []Block{Paragraph{"Numbers that neither file states. A source that reads judgement is the tool's maker's own; whoever signs takes it for theirs.", Plain}}
	limits := Table{Fixed: true, Caption: "Limits and tolerances", Heads: defaultHeads()}
	seen := map[string]bool{}
	for _, l := range check.LimitsOf(j).All() {
		if theJobs(l.Source) || seen[l.ID] {
			continue
		}
		seen[l.ID] = true
		unit := "m"
		if l.ID == "roll.tip" {
			unit = "1"
		}
		limits.Rows = append(limits.Rows, w.defaultRow(l.ID, l.Value, unit, l.Words, l.Source))
	}
	for _, e := range allow.Of(j).All() {
		if !theJobs(e.Source) {
			limits.Rows = append(limits.Rows, w.defaultRow("tolerance."+e.Key, e.Value, "m", e.Words, e.Source))
		}
	}
	fixed := Table{Fixed: true, Caption: "Numbers that stand in no file", Heads: defaultHeads()}
	for _, f := range check.FixedNumbers() {
		fixed.Rows = append(fixed.Rows, w.defaultRow(f.Name, f.Value, f.Unit, f.Words, f.Source))
	}
	return append(out, limits, w.keys("Numbers that the job file leaves to their defaults", job.Numbers(j), j.States), w.keys("Numbers that the gear file leaves to their defaults", job.Numbers(g), g.States), fixed)
}

func theJobs(source string) bool { return strings.HasPrefix(source, "the job") }

func defaultHeads() []Head {
	return []Head{{Title: "Name", Share: 2.2}, {Title: "Number", Number: true, Share: 1.1}, {Title: "What it is", Share: 4}, {Title: "Source", Share: 2.2}}
}

func (w *writer) defaultRow(name string, v float64, unit, words, source string) Row {
	m := units.Shown(unit, w.system)
	if size := max(v, -v) * m.Times; size > 0 && size < 1 {
		m.Decimals++
	}
	return Row{Cells: []Cell{{Text: name}, {Text: m.With(m.Nearest(v))}, {Text: words}, {Text: source}}}
}

// keys are the numbers of a file that it does not state and that something reads.
func (w *writer) keys(caption string, list []job.Choice, states func(string) bool) Block {
	t := Table{Fixed: true, Caption: caption, Heads: defaultHeads()}
	unread := map[string]bool{}
	for _, key := range job.NotReadYet() {
		unread[key] = true
	}
	for _, c := range list {
		if states(c.Key) || unread[c.Key] {
			continue
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: c.Key}, {Text: c.In(w.system)}, {Text: strings.TrimSuffix(c.Doc, ".")}, {Text: c.Source}}})
	}
	return t
}

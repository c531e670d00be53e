package table

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// Widths of the terminal table, in characters: never wider than Widest, and
// below Narrowest lines are left to the terminal to break.
const (
	Widest    = 100
	Narrowest = 60
)

// Terminal writes a result for a person to read: the verdict, what it does not
// answer for, the governing
// entry of each check, every failed or open entry with its sentence, what to
// do next, the fixes where they were asked for, the cautions. Lines are at most width characters, but
// never more than Widest. Lengths are in millimetres, or in inches for an
// imperial job; the sentences are the result's own.
func Terminal(w io.Writer, r *result.Result, s units.System, width int, colour bool) error {
	t := &terminal{result: r, system: s, width: min(Widest, max(Narrowest, width)), paint: paint(colour)}
	t.head()
	t.governing()
	t.troubles()
	t.next()
	t.fixes()
	t.cautions()
	t.print(words(t.out.String(), t.width))
	_, err := w.Write(t.out.Bytes())
	return err
}

type terminal struct {
	out    bytes.Buffer
	result *result.Result
	system units.System
	width  int
	paint  paint
}

func (t *terminal) print(text string) { t.out.WriteString(text) }

// head is the job, the verdict and how many checks it rests on.
func (t *terminal) head() {
	r := t.result
	if title := strings.TrimSpace(r.Job.Number + "  " + r.Job.Name); title != "" {
		t.print(t.paint.in(bold, title) + "\n")
	}
	t.print(t.paint.verdict(r.Verdict, headline(r)) + "  " + counted(r) + "\n")
	if r.Scope != nil {
		t.print(hung("      ", "Only "+strings.Join(r.Scope, ", ")+" was asked for: this clears nothing for use.", t.width))
	}
	if h := r.ApprovalHash(); h != "" && r.Cleared() {
		t.print(hung("      ", "Whoever approves the drawings of these inputs and this program writes into the job file: sheet: {approver: name, approved: "+h+"}.", t.width))
	}
	for _, sentence := range r.Reservations() {
		t.print(hung("      ", sentence, t.width))
	}
}

// headline is the verdict in a word, or, of a part that holds, that it is a part: the
// word alone would be taken for that of the job.
func headline(r *result.Result) string {
	switch {
	case r.PartHolds():
		return "of the checks asked for: pass."
	case r.Cleared():
		return "PASS"
	}
	return word(r.Verdict)
}

// counted says how many entries pass, fail and stay open.
func counted(r *result.Result) string {
	count := map[result.Verdict]int{}
	for _, c := range r.Checks {
		count[c.Verdict]++
	}
	switch total := len(r.Checks); {
	case total == 0:
		return "nothing was checked. NOT CLEARED"
	case r.PartHolds():
		return fmt.Sprintf("All %d hold, the others were not made. NOT CLEARED", total)
	case count[result.Pass] == total && r.Cleared():
		return fmt.Sprintf("all %d checks made hold; this releases nothing", total)
	default:
		return fmt.Sprintf("%d of %d checks fail, %d stay open, %d hold. NOT CLEARED",
			count[result.Fail], total, count[result.Open], count[result.Pass])
	}
}

// governing lists the entry with the least margin of each check.
func (t *terminal) governing() {
	list := t.result.Governing()
	if len(list) == 0 {
		return
	}
	g := grid{numeric: []bool{false, false, false, true, true, true, true, false}, wraps: 2}
	g.rows = append(g.rows, []string{"", "check", "governed by", "value", "allowance", "limit", "margin", "unit"})
	for _, e := range list {
		p := e.Printed(t.system)
		g.rows = append(g.rows, []string{word(e.Verdict), e.ID, e.Subject.String(), or(p.Value, "-"), p.Off, bound(e, p), or(p.Margin, "-"), p.Measure.Name})
	}
	t.print("\n")
	for i, block := range g.lines(t.width) {
		for n, line := range block {
			switch {
			case i == 0:
				line = t.paint.in(bold, line)
			case n == 0:
				v := list[i-1].Verdict
				line = t.paint.verdict(v, line[:4]) + line[4:]
			}
			t.print(line + "\n")
		}
	}
	t.print(hung("", "allowance: what tolerances and turning out of step can take from the value; margin = value - allowance - limit, at its worse end.", t.width))
}

// trouble is one sentence and all places it holds at.
type trouble struct {
	entry  result.Entry
	rest   string // subject without its place
	places []place
}

// grouped draws together failed and open entries that say the same at several
// places, in the order of the result.
func grouped(r *result.Result) []trouble {
	var out []trouble
	at := map[string]int{}
	for _, e := range r.Checks {
		if e.Verdict == result.Pass {
			continue
		}
		rest := e.Subject.Rest()
		key := strings.Join([]string{e.ID, e.Verdict.String(), rest, e.Text}, "\x00")
		n, ok := at[key]
		if !ok {
			n = len(out)
			at[key] = n
			out = append(out, trouble{entry: e, rest: rest})
		}
		if e.Subject.Cell != 0 {
			out[n].places = append(out[n].places, place{e.Where.Cell, e.Where.Pour})
		}
	}
	return out
}

func (t *terminal) troubles() {
	list := grouped(t.result)
	if len(list) == 0 {
		return
	}
	id := ""
	for _, one := range list {
		if one.entry.ID != id {
			id = one.entry.ID
			t.print("\n" + t.paint.in(bold, id) + "\n")
		}
		subject := one.rest
		if len(one.places) > 0 {
			subject = named(one.places) + ": " + one.rest
		}
		v := one.entry.Verdict
		t.print("  " + t.paint.verdict(v, word(v)) + hung("      ", subject, t.width)[4:])
		t.print(hung("        ", one.entry.Text, t.width))
		if f := one.entry.Where.First; f != nil {
			t.print(hung("        ", first(f, t.system), t.width))
		}
	}
}

// first is where something touches first, as the adjuster reads. Sixteenths of
// an inch would hide how near the two readings are.
func first(f *result.First, s units.System) string {
	m := units.Shown(f.Unit, s)
	return fmt.Sprintf("%s: clear from %s to %s, touches at %s %s", f.Adjuster, m.Nearest(f.From), m.Nearest(f.Clear), m.Nearest(f.Hit), m.Name)
}

// cautions are told whole, as everywhere.
func (t *terminal) cautions() {
	if len(t.result.Cautions) == 0 {
		return
	}
	t.print("\n" + t.paint.in(bold, "Cautions") + "\n")
	for _, c := range t.result.Cautions {
		t.print(hung("  - ", c, t.width))
	}
}

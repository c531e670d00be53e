package table

import (
	"encoding/csv"
	"io"
	"iter"
	"math"
	"strconv"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// written writes rows as RFC 4180 has them, below comment lines with # that say
// what it was made from, what the verdict is, what it does not answer for, and the cautions: a table is
// handed on without the rest.
func written(w io.Writer, r *result.Result, rows iter.Seq[[]string]) error {
	if _, err := io.WriteString(w, preface(r)); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	for row := range rows {
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// preface are the comment lines above a table.
func preface(r *result.Result) string {
	lines := []string{strings.TrimSpace(r.Job.Number + "  " + r.Job.Name), r.Origin(), cleared(r)}
	lines = append(lines, r.Reservations()...)
	for _, c := range r.Cautions {
		lines = append(lines, "Caution: "+c)
	}
	var out strings.Builder
	for _, line := range lines {
		// a comment must not end before its line does
		out.WriteString("# " + strings.Join(strings.Fields(line), " ") + "\r\n")
	}
	return out.String()
}

// plain is a text of the job or the gear as a cell: one that a spreadsheet
// would take for a formula gets the apostrophe that makes it a text.
func plain(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t", rune(text[0])) {
		return "'" + text
	}
	return text
}

// lengths is how CSV files show lengths: thousandths of a millimetre, or
// hundred-thousandths of an inch, far below what is proved.
func lengths(s units.System) units.Measure { return finer("m", s, 3, 5) }

// Clearance writes clearance.csv: for every part, step and zone the bracket
// that its least distance lies in, the lower end rounded down, the upper one
// up. An upper end that is not known is left empty. Negative is an overlap;
// contact is yes where the two touch by design during the step.
func Clearance(w io.Writer, r *result.Result, s units.System) error {
	m := lengths(s)
	head := []string{"cell", "pour", "step", "part", "role", "zone", "contact", "lower (" + m.Name + ")", "upper (" + m.Name + ")", "at (share of step)"}
	return written(w, r, func(yield func([]string) bool) {
		if !yield(head) || r.Parts == nil {
			return
		}
		for p := range r.Parts {
			contact := "no"
			if p.Contact {
				contact = "yes"
			}
			if !yield([]string{strconv.Itoa(p.Cell), strconv.Itoa(p.Pour), plain(p.Step), p.Part, plain(p.Role), p.Zone, contact,
				finite(p.Value.Lower, m.Down), finite(p.Value.Upper, m.Up), finite(p.At, units.Measure{Times: 1, Decimals: 6}.Nearest)}) {
				return
			}
		}
	})
}

// finite prints a number, or nothing where it is unknown.
func finite(v float64, print func(float64) string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return print(v)
}

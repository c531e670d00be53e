package main

import (
	"bytes"
	"fmt"
	"io"
	"path"
	"path/filepath"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/export/dxf"
	"boxwalk/export/page"
	"boxwalk/export/pdf"
	"boxwalk/export/report"
	"boxwalk/export/sheet"
	"boxwalk/export/svg"
	"boxwalk/export/table"
	"boxwalk/export/views"
	"boxwalk/model"
	"boxwalk/model/units"

	"github.com/spf13/cobra"
)

// product is one file to write: its place below the output folder, with slash,
// and its bytes.
type product struct {
	name  string
	bytes []byte
}

// outputCommands write files; they differ in which, and in the part of the
// output folder they answer for.
func (a *app) outputCommands() []*cobra.Command {
	return []*cobra.Command{
		a.outputCommand("all", "Check a job and write everything: result, tables, drawings, pictures", "", everything),
		a.outputCommand("draw", "Write the drawings of a job as DXF and SVG, and the set as PDF", "drawings/", drawings),
		a.outputCommand("report", "Write the calculation report of a job as one HTML file and as PDF", "report.", reports),
		a.outputCommand("views", "Write hidden-line pictures of a job as SVG", "views/", pictures),
	}
}

// making turns a checked job into files.
type making func(s *model.Study, r *result.Result, u units.System) ([]product, error)

func (a *app) outputCommand(use, short, within string, make making) *cobra.Command {
	var folder string
	var force bool
	var set []string
	c := &cobra.Command{
		Use:   use + " JOB",
		Short: short,
		Long: short + `.
Files are written whole or not at all. A file that boxwalk did not write, or that
was changed since, is left alone unless --force is given. A job that fails or
stays open is drawn too, stamped NOT CLEARED, and the exit code is 1.`,
		Example: fmt.Sprintf("  boxwalk %s job.yaml -o out", use),
		Args:    oneJob,
		RunE: func(_ *cobra.Command, args []string) error {
			if folder == "" {
				return wrong("%s needs a folder to write to\nFor example:\n  boxwalk %s job.yaml -o out", use, use)
			}
			return a.output(args[0], set, target{folder: folder, within: within, force: force}, make)
		},
	}
	c.Flags().StringVarP(&folder, "output", "o", "", "folder to write to; it is made where it does not exist")
	c.Flags().BoolVar(&force, "force", false, "also overwrite files that boxwalk did not write")
	setFlagOn(c, &set)
	return c
}

// target is where output goes and what of it may be overwritten; within is the
// part of the folder that a run answers for, "" for all of it, and from tells
// what its files are made from.
type target struct {
	folder, within string
	force          bool
	from           string
}

// origin is a digest of all that the files of a run depend on: the program, the
// text of every file read, and what --set gave.
func origin(r *result.Result) string {
	all := r.Version + "\n"
	for _, i := range r.Inputs {
		all += i.SHA256 + "  " + i.Name + "\n"
	}
	return hash([]byte(all))
}

// output checks a job, makes its files, writes them, and prints what was
// written and the table.
func (a *app) output(job string, set []string, to target, make making) error {
	if err := usable(to.folder); err != nil {
		return err
	}
	s, read, err := a.study(job, set)
	if err != nil {
		return err
	}
	r := a.check(s, read, nil)
	u := system(s.Job)
	files, err := make(s, r, u)
	if err != nil {
		return failed(err)
	}
	to.from = origin(r)
	w, err := to.write(files, a.err)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	w.list(&out, to.folder)
	if err := table.Terminal(&out, r, u, a.width(), a.colour()); err != nil {
		return failed(err)
	}
	if _, err := a.out.Write(out.Bytes()); err != nil {
		return failed(err)
	}
	return verdict(r)
}

// list prints what became of the folder.
func (w written) list(out io.Writer, folder string) {
	for _, part := range []struct {
		mark  string
		names []string
	}{{"", w.files}, {"removed, no longer made: ", w.removed}, {"removed, made from other inputs: ", w.untrue},
		{"left, changed since it was written and no longer made: ", w.left}, {"left, changed since it was written and made from other inputs: ", w.astray}} {
		for _, name := range part.names {
			fmt.Fprintln(out, part.mark+path.Join(filepath.ToSlash(folder), name))
		}
	}
	fmt.Fprintln(out)
}

// everything is the tables, the report, drawings, pictures and solids, made side by
// side.
func everything(s *model.Study, r *result.Result, u units.System) ([]product, error) {
	return together(s, r, u, tables, reports, drawings, pictures, solids)
}

// together makes products side by side, and lists them in the order of their making.
func together(s *model.Study, r *result.Result, u units.System, list ...making) ([]product, error) {
	parts := make([][]product, len(list))
	err := views.Each(len(list), func(i int) (err error) {
		parts[i], err = list[i](s, r, u)
		return err
	})
	return slices.Concat(parts...), err
}

func tables(s *model.Study, r *result.Result, u units.System) ([]product, error) {
	return encoded([]writer{
		{"result.json", func(w io.Writer) error { return table.JSON(w, r) }},
		{"result.schema.json", func(w io.Writer) error { _, err := w.Write(table.Schema); return err }},
		{"clearance.csv", func(w io.Writer) error { return table.Clearance(w, r, u) }},
		{"along.csv", func(w io.Writer) error { return table.Along(w, r, u) }},
		{"settings.csv", func(w io.Writer) error { return table.Settings(w, r, u) }},
		{"parts.csv", func(w io.Writer) error { return table.Parts(w, s, r) }},
		{"setout.csv", func(w io.Writer) error { return table.SetOut(w, s, r) }},
		{"cycle.csv", func(w io.Writer) error { return table.Cycle(w, r) }},
		{"steps.csv", func(w io.Writer) error { return table.StepsCSV(w, r, u) }},
		{"steps.txt", func(w io.Writer) error { return table.Steps(w, r, u) }},
	})
}

// reports are the report for a screen and for paper.
func reports(s *model.Study, r *result.Result, _ units.System) ([]product, error) {
	d := report.Of(s, r)
	return encoded([]writer{
		{"report.html", func(w io.Writer) error { return page.Report(w, d) }},
		{"report.pdf", func(w io.Writer) error { return pdf.Report(w, d) }},
	})
}

func drawings(s *model.Study, r *result.Result, u units.System) ([]product, error) {
	list, err := views.Sheets(s, r, lists(s, r, u)...)
	if err != nil {
		return nil, err
	}
	var out []writer
	for _, n := range list {
		out = append(out, writer{"drawings/" + n.Name + ".dxf", func(w io.Writer) error { return dxf.Encode(w, n.Sheet) }},
			writer{"drawings/" + n.Name + ".svg", func(w io.Writer) error { return svg.Encode(w, n.Sheet) }})
	}
	set := make([]*sheet.Sheet, len(list))
	for i, n := range list {
		set[i] = n.Sheet
	}
	return encoded(append(out, writer{"drawings/set.pdf", func(w io.Writer) error { return pdf.Sheets(w, set) }}))
}

func pictures(s *model.Study, r *result.Result, _ units.System) ([]product, error) {
	list, err := views.Pictures(s, r)
	if err != nil {
		return nil, err
	}
	var out []writer
	for _, n := range list {
		out = append(out, writer{"views/" + n.Name + ".svg", func(w io.Writer) error { return svg.Encode(w, n.Sheet) }})
	}
	return encoded(out)
}

// writer writes one product.
type writer struct {
	name  string
	write func(io.Writer) error
}

// encoded are the products of writers, on every core.
func encoded(list []writer) ([]product, error) {
	out := make([]product, len(list))
	err := views.Each(len(list), func(i int) error {
		var b bytes.Buffer
		if err := list[i].write(&b); err != nil {
			return fmt.Errorf("%s: %w", list[i].name, err)
		}
		out[i] = product{list[i].name, b.Bytes()}
		return nil
	})
	return out, err
}

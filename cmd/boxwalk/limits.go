package main

import (
	"bytes"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/check"
	"boxwalk/export/table"
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"

	"github.com/spf13/cobra"
)

func (a *app) limitsCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "limits [JOB]",
		Short:   "List limits, tolerances and every other default with its source, or a job's",
		Example: "  boxwalk limits\n  boxwalk limits job.yaml",
		Args:    atMostOne,
		RunE: func(_ *cobra.Command, args []string) error {
			r, err := a.limitsOf(args)
			if err != nil {
				return err
			}
			j := r.job
			var out bytes.Buffer
			s := system(j)
			for _, part := range []struct {
				heading string
				rows    []table.LimitRow
			}{
				{"Limits (job file: `limits:`)", limitRows(j)},
				{"\nTolerances (job file: `tolerance:`); root-sum-square counts, the worst case is printed beside it", toleranceRows(j)},
				{"\nNumbers that stand in no file", fixedRows()},
			} {
				if err := table.Limits(&out, part.heading, part.rows, s, a.width()); err != nil {
					return failed(err)
				}
			}
			for _, part := range []struct {
				heading string
				rows    []table.DefaultRow
			}{
				{"\nNumbers that a job file need not state", defaultRows(job.Defaults[job.Job](), r.jobAt, "the job", s)},
				{"\nNumbers that a gear file need not state", defaultRows(job.Defaults[job.Gear](), r.gearAt, "the gear", s)},
			} {
				if err := table.Defaults(&out, part.heading, part.rows, a.width()); err != nil {
					return failed(err)
				}
			}
			if err := table.Words(&out, out.String(), a.width()); err != nil {
				return failed(err)
			}
			return a.print(out.Bytes())
		},
	}
}

// limitsOf reads the job named and its gear, or a job that states nothing.
func (a *app) limitsOf(args []string) (*reading, error) {
	r := &reading{app: a, sources: map[string][]byte{}}
	if len(args) == 0 {
		// a job's own wander counts, so its default has to be read like one
		travel, _, problems := job.Decode[job.Travel]("defaults", []byte("pulled_by: winch\n"), units.Metric)
		if travel == nil {
			return nil, failed(problems.Err())
		}
		r.job = &job.Job{Travel: *travel}
		return r, nil
	}
	if folder, ok := r.readJob(args[0]); ok {
		r.readGear(folder)
	}
	return r, r.told()
}

// fixedRows are the numbers that enter checks and that nobody sets.
func fixedRows() []table.LimitRow {
	var out []table.LimitRow
	for _, f := range check.FixedNumbers() {
		out = append(out, table.LimitRow{Key: f.Name, Name: f.Name, Value: f.Value, Unit: f.Unit, Source: f.Source, Words: f.Words})
	}
	return out
}

// defaultRows are the numbers that a file need not state: each in the words of the
// file, whatever unit they have, or its default in the units of the job.
func defaultRows(list []job.Default, at *job.Decoded, owner string, s units.System) []table.DefaultRow {
	var out []table.DefaultRow
	for _, d := range list {
		row := table.DefaultRow{Key: d.Key, Text: d.In(s), Source: d.Source, Words: d.Doc}
		if at != nil && at.Text(d.Key) != "" {
			row.Text, row.Source = at.Text(d.Key), owner
			if d.Is(row.Text, at.System()) {
				row.Source += " (equal to the default)"
			}
		}
		out = append(out, row)
	}
	return out
}

// ratios are the limits that are pure numbers.
var ratios = map[string]bool{"roll.tip": true}

func limitRows(j *job.Job) []table.LimitRow {
	var out []table.LimitRow
	seen := map[string]bool{}
	for _, l := range check.LimitsOf(j).All() {
		unit := "m"
		if ratios[l.ID] {
			unit = "1"
		}
		name := l.ID
		switch {
		case l.Key == "":
		case seen[l.Key]:
			name += ", as " + l.Key
		default:
			name = l.Key // as the job file writes it
		}
		seen[l.Key] = true
		out = append(out, table.LimitRow{Key: l.Key, Name: name, Value: l.Value, Unit: unit, Source: l.Source, Words: l.Words})
		if l.ID == "strip.clear" {
			out = append(out, zoneRows(j)...)
		}
	}
	return out
}

// zoneRows are the travel clearances that a job states zone by zone.
func zoneRows(j *job.Job) []table.LimitRow {
	z := j.Limits.StripClear
	if z == nil {
		return nil
	}
	var out []table.LimitRow
	of := check.LimitsOf(j)
	for _, one := range []struct {
		zone  culvert.Zone
		value *units.Length
	}{{culvert.Roof, z.Roof}, {culvert.HaunchTop, z.HaunchTop}, {culvert.Wall, z.Wall}, {culvert.Kicker, z.Kicker},
		{culvert.HaunchBottom, z.HaunchBottom}, {culvert.Hanger, z.Hanger}} {
		if one.value != nil {
			key := "strip.clear." + string(one.zone)
			out = append(out, table.LimitRow{Key: key, Name: key, Value: float64(*one.value), Unit: "m", Source: of.Travel(one.zone).Source, Words: "travel clearance to the " + one.zone.Words()})
		}
	}
	return out
}

func toleranceRows(j *job.Job) []table.LimitRow {
	var out []table.LimitRow
	for _, e := range allow.Of(j).All() {
		out = append(out, table.LimitRow{Key: e.Key, Name: e.Key, Value: e.Value, Unit: "m", Source: e.Source, Words: e.Words})
	}
	return out
}

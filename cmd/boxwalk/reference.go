package main

import (
	"bytes"
	"strings"

	"boxwalk/clearance"
	"boxwalk/clearance/allow"
	"boxwalk/export/table"
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"

	"github.com/spf13/cobra"
)

func (a *app) explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:       "explain [ID]",
		Short:     "Tell what a check means: formula, limit, source",
		Example:   "  boxwalk explain\n  boxwalk explain strip.clear\n  boxwalk explain strip",
		Args:      atMostOne,
		ValidArgs: clearance.CheckIDs(),
		RunE: func(_ *cobra.Command, args []string) error {
			var out bytes.Buffer
			if len(args) == 0 {
				if err := table.Digest(&out, explanations(""), a.width()); err != nil {
					return failed(err)
				}
				return a.print(out.Bytes())
			}
			list := explanations(args[0])
			if len(list) == 0 {
				return wrong("there is no check called %q\nThe checks are %s", args[0], strings.Join(clearance.CheckIDs(), ", "))
			}
			if err := table.Explanations(&out, list, a.width()); err != nil {
				return failed(err)
			}
			return a.print(out.Bytes())
		},
	}
}

// explanations of an id, a group, or all for "".
func explanations(asked string) []clearance.Explanation {
	var out []clearance.Explanation
	for _, id := range clearance.CheckIDs() {
		if e, ok := clearance.Explain(id); ok && (asked == "" || covered(id, asked)) {
			out = append(out, e)
		}
	}
	return out
}

func (a *app) print(text []byte) error {
	_, err := a.out.Write(text)
	return failed(err)
}

func (a *app) schemaCommand() *cobra.Command {
	return &cobra.Command{
		Use:       "schema job|gear|result",
		Short:     "Print the JSON Schema of the job file, the gear file or the result",
		Long:      "schema prints a JSON Schema (draft 2020-12). Editors use it to complete and check\njob and gear files; programs use it to read result.json.",
		Example:   "  boxwalk schema job > job.schema.json",
		ValidArgs: []string{"job", "gear", "result"},
		Args:      atMostOne,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return wrong("say of what: boxwalk schema job, gear or result")
			}
			text, err := schemaOf(args[0])
			if err != nil {
				return err
			}
			return a.print(text)
		},
	}
}

func schemaOf(what string) ([]byte, error) {
	switch what {
	case "job":
		text, err := job.Schema[job.Job]("boxwalk job")
		return text, failed(err)
	case "gear":
		text, err := job.Schema[job.Gear]("boxwalk gear")
		return text, failed(err)
	case "result":
		return table.Schema, nil
	}
	return nil, wrong("there is no schema of %q; there is one of job, gear and result", what)
}

func (a *app) limitsCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "limits [JOB]",
		Short:   "List limits and tolerances with their sources: the defaults, or a job's",
		Example: "  boxwalk limits\n  boxwalk limits job.yaml",
		Args:    atMostOne,
		RunE: func(_ *cobra.Command, args []string) error {
			j, err := a.limitsJob(args)
			if err != nil {
				return err
			}
			var out bytes.Buffer
			s := system(j)
			for _, part := range []struct {
				heading string
				rows    []table.LimitRow
			}{
				{"Limits (job file: `limits:`)", limitRows(j)},
				{"\nTolerances (job file: `tolerance:`); root-sum-square counts, the worst case is printed beside it", toleranceRows(j)},
			} {
				if err := table.Limits(&out, part.heading, part.rows, s, a.width()); err != nil {
					return failed(err)
				}
			}
			return a.print(out.Bytes())
		},
	}
}

// limitsJob is the job named, or one that states nothing.
func (a *app) limitsJob(args []string) (*job.Job, error) {
	if len(args) == 0 {
		// a job's own wander counts, so its default has to be read like one
		travel, _, problems := job.Decode[job.Travel]("defaults", []byte("pulled_by: winch\n"), units.Metric)
		if travel == nil {
			return nil, failed(problems.Err())
		}
		return &job.Job{Travel: *travel}, nil
	}
	r := &reading{app: a, sources: map[string][]byte{}}
	r.readJob(args[0])
	return r.job, r.told()
}

// ratios are the limits that are pure numbers.
var ratios = map[string]bool{"roll.tip": true}

func limitRows(j *job.Job) []table.LimitRow {
	var out []table.LimitRow
	for _, l := range clearance.LimitsOf(j).All() {
		unit := "m"
		if ratios[l.ID] {
			unit = "1"
		}
		out = append(out, table.LimitRow{Key: l.Key, Name: l.ID, Value: l.Value, Unit: unit, Source: l.Source, Words: l.Words})
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
	for _, one := range []struct {
		zone  culvert.Zone
		value *units.Length
	}{{culvert.Roof, z.Roof}, {culvert.HaunchTop, z.HaunchTop}, {culvert.Wall, z.Wall}, {culvert.Kicker, z.Kicker},
		{culvert.HaunchBottom, z.HaunchBottom}, {culvert.Hanger, z.Hanger}} {
		if one.value != nil {
			key := "strip.clear." + string(one.zone)
			out = append(out, table.LimitRow{Key: key, Name: key, Value: float64(*one.value), Unit: "m", Source: "the job", Words: "travel clearance to the " + one.zone.Words()})
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

package main

import (
	"bytes"
	"strings"

	"boxwalk/clearance/check"
	"boxwalk/export/table"
	"boxwalk/model/job"

	"github.com/spf13/cobra"
)

func (a *app) explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:       "explain [ID]",
		Short:     "Tell what a check means: formula, limit, source",
		Example:   "  boxwalk explain\n  boxwalk explain strip.clear\n  boxwalk explain strip",
		Args:      atMostOne,
		ValidArgs: check.IDs(),
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
				return wrong("there is no check called %q\nThe checks are %s", args[0], strings.Join(check.IDs(), ", "))
			}
			if err := table.Explanations(&out, list, a.width()); err != nil {
				return failed(err)
			}
			return a.print(out.Bytes())
		},
	}
}

// explanations of an id, a group, or all for "".
func explanations(asked string) []check.Check {
	var out []check.Check
	for _, c := range check.Table() {
		if asked == "" || covered(c.ID, asked) {
			out = append(out, c)
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

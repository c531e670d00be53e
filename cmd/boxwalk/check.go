package main

import (
	"bytes"
	"slices"
	"strings"

	"boxwalk/clearance"
	"boxwalk/export/table"

	"github.com/spf13/cobra"
)

func (a *app) checkCommand() *cobra.Command {
	var asJSON bool
	var proved proofOptions
	var only, set []string
	c := &cobra.Command{
		Use:   "check JOB",
		Short: "Check a job and print the table, or the result as JSON",
		Long: `check holds a job against every check and prints the verdict, the governing entry
of each check, and a sentence for everything that fails or stays open.
JOB is a job file, or - for standard input; the gear path then starts from the
working directory.`,
		Example: `  boxwalk check job.yaml
  boxwalk check job.yaml --json --proof proof.txt > result.json
  boxwalk check job.yaml --only strip,setup.range --set gauge=1700mm`,
		Args: oneJob,
		RunE: func(_ *cobra.Command, args []string) error {
			ids, err := asked(only)
			if err != nil {
				return err
			}
			s, r, err := a.study(args[0], set)
			if err != nil {
				return err
			}
			if proved.parts && proved.file == "" {
				return wrong("--proof-parts adds to a proof; name its file with --proof")
			}
			e := a.examine(s, r, ids, proved.file != "")
			result := e.Result
			if proved.file != "" {
				if err := a.prove(e, proved); err != nil {
					return err
				}
			}
			var out bytes.Buffer
			if asJSON {
				err = table.JSON(&out, result)
			} else {
				err = table.Terminal(&out, result, system(s.Job), a.width(), a.colour())
			}
			if err == nil {
				_, err = a.out.Write(out.Bytes())
			}
			if err != nil {
				return failed(err)
			}
			return verdict(result)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print the result as JSON (boxwalk schema result)")
	c.Flags().StringVar(&proved.file, "proof", "", "write the proof of the clearances to this `FILE` (boxwalk verify)")
	c.Flags().BoolVar(&proved.parts, "proof-parts", false, "also prove every part's own number of clearance.csv")
	c.Flags().StringSliceVar(&only, "only", nil, "check only these ids or groups of ids; the result then clears nothing")
	setFlagOn(c, &set)
	return c
}

// asked are the ids and groups asked for, each once, in the order of the
// checks; nil for all.
func asked(only []string) ([]string, error) {
	var out []string
	for _, id := range only {
		id = strings.TrimSpace(id)
		if !slices.ContainsFunc(clearance.CheckIDs(), func(known string) bool { return covered(known, id) }) {
			return nil, wrong("there is no check called %q\nThe checks are %s", id, strings.Join(clearance.CheckIDs(), ", "))
		}
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	if only != nil && out == nil {
		return nil, wrong("--only names no check; leave it out to check all")
	}
	return out, nil
}

// covered tells whether an id is the one asked for or belongs to the group
// asked for.
func covered(id, asked string) bool {
	return id == asked || strings.HasPrefix(id, asked+".")
}

package main

import (
	"bytes"
	"slices"
	"strings"

	"boxwalk/clearance/check"
	"boxwalk/clearance/fix"
	"boxwalk/clearance/result"
	"boxwalk/export/table"
	"boxwalk/model"

	"github.com/spf13/cobra"
)

// asking is what check is asked for.
type asking struct {
	json  bool
	proof proofOptions
	only  []string
	set   []string
	fixes int
}

func (a *app) checkCommand() *cobra.Command {
	var o asking
	c := &cobra.Command{
		Use:   "check JOB",
		Short: "Check a job and print the table, or the result as JSON",
		Long: `check holds a job against every check and prints the verdict, the governing entry
of each check, and a sentence for everything that fails or stays open.
JOB is a job file, or - for standard input; the gear path then starts from the
working directory.

--fixes looks, where a job does not pass, for single changes in the job or gear
file with which it does, and for each check that does not pass with which that
check does: each is found by checking again, and with each stands what else then
passes no longer.`,
		Example: `  boxwalk check job.yaml
  boxwalk check job.yaml --json --proof proof.txt > result.json
  boxwalk check job.yaml --fixes
  boxwalk check job.yaml --only strip,setup.range --set gauge=1700mm`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("proof") && o.proof.file == "" {
				return noName("proof")
			}
			return a.answer(args[0], o)
		},
	}
	c.Flags().BoolVar(&o.json, "json", false, "print the result as JSON (boxwalk schema result)")
	c.Flags().StringVar(&o.proof.file, "proof", "", "write the proof of the clearances to this `FILE` (boxwalk verify)")
	c.Flags().BoolVar(&o.proof.parts, "proof-parts", false, "also prove every part's own number of clearance.csv")
	c.Flags().StringSliceVar(&o.only, "only", nil, "check only these ids or groups of ids; the result then clears nothing, and the exit code is 4 where they hold")
	c.Flags().IntVar(&o.fixes, "fixes", 0, "where the job does not pass, look for up to `N` single changes that make it pass, and for as many for each check")
	c.Flags().Lookup("fixes").NoOptDefVal = "3"
	setFlagOn(c, &o.set)
	return c
}

// answer checks a job and prints what was asked for.
func (a *app) answer(path string, o asking) error {
	ids, err := asked(o.only)
	if err != nil {
		return err
	}
	if err := fixable(o.fixes, ids); err != nil {
		return err
	}
	if o.proof.parts && o.proof.file == "" {
		return wrong("--proof-parts adds to a proof; name its file with --proof")
	}
	var place proofPlace
	if o.proof.file != "" {
		if place, err = proofAt(o.proof.file); err != nil {
			return err
		}
	}
	s, r, err := a.study(path, o.set)
	if err != nil {
		return err
	}
	proved := o.proof.file != "" // of the result as --json prints it
	e := a.examine(s, r, check.Options{Only: ids, Proof: proved, Brief: !o.json && !proved})
	if o.fixes > 0 { // before the proof, which names the result whole
		a.fix(s, e.Result, o.fixes)
	}
	if o.proof.file != "" {
		if err := a.prove(e, o.proof, place); err != nil {
			return err
		}
	}
	if err := a.show(s, e.Result, o.json); err != nil {
		return failed(err)
	}
	return verdict(e.Result)
}

// show writes a result as JSON or as the table, whole or not at all.
func (a *app) show(s *model.Study, r *result.Result, asJSON bool) error {
	var out bytes.Buffer
	write := func() error { return table.Terminal(&out, r, system(s.Job), a.width(), a.colour()) }
	if asJSON {
		write = func() error { return table.JSON(&out, r) }
	}
	if err := write(); err != nil {
		return err
	}
	_, err := a.out.Write(out.Bytes())
	return err
}

// mostFixes is what anybody reads, and keeps a search from going on for long.
const mostFixes = 20

// fixable tells what is wrong with asking for that many fixes.
func fixable(fixes int, only []string) error {
	switch {
	case fixes < 0 || fixes > mostFixes:
		return wrong("--fixes takes how many changes to look for, 1 to %d, as in --fixes=3; there is %d", mostFixes, fixes)
	case fixes > 0 && only != nil:
		return wrong("--fixes checks the whole job with each change; leave out --only")
	}
	return nil
}

// fix puts the fixes of a result into it: a list, which may be empty.
func (a *app) fix(s *model.Study, r *result.Result, most int) {
	show, done := a.progress()
	defer done()
	r.Fixes = []result.FixRow{}
	for _, c := range fix.AllFixes(s, r, most, show) {
		r.Fixes = append(r.Fixes, c.Row())
	}
}

// asked are the ids and groups asked for, each once, in the order of the
// checks; nil for all.
func asked(only []string) ([]string, error) {
	var out []string
	for _, id := range only {
		id = strings.TrimSpace(id)
		if !slices.ContainsFunc(check.IDs(), func(known string) bool { return covered(known, id) }) {
			return nil, wrong("there is no check called %q\nThe checks are %s", id, strings.Join(check.IDs(), ", "))
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

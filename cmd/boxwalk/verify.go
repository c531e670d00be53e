package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"path/filepath"

	"boxwalk/clearance/certify"
	"boxwalk/clearance/check"
	"boxwalk/clearance/proof"
	"boxwalk/clearance/result"
	"boxwalk/export/table"

	"github.com/spf13/cobra"
)

func (a *app) verifyCommand() *cobra.Command {
	var result string
	c := &cobra.Command{
		Use:   "verify FILE",
		Short: "Check a written proof, by kinematics of its own",
		Long: `verify reads a proof that check --proof wrote and checks every line of it: that
each claim covers all parts and all solids over the whole step, and that each
branch is shown apart. It shares no code with what worked the clearances out.
With --result it also holds that the result's clearances are those proved, none
missing and none more. It prints what a proof cannot show: what is assumed, not proved.
The format is clearance/proof/FORMAT.md.`,
		Example: "  boxwalk verify proof.txt --result result.json",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return wrong("%s takes one proof; there are %d\nFor example:\n%s", c.CommandPath(), len(args), c.Example)
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("result") && result == "" {
				return noName("result")
			}
			return a.verify(args[0], result)
		},
	}
	c.Flags().StringVar(&result, "result", "", "result.json to hold against the proof")
	return c
}

// verify says what a proof shows. A proof that does not hold is an answer, with
// the exit code of one.
func (a *app) verify(path, result string) error {
	f, err := openInput(path)
	if err != nil {
		return wrong("the proof cannot be read: %s", reason(err))
	}
	defer f.Close()
	report, err := proof.Verify(f)
	if err != nil {
		return stop{exitShort, fmt.Errorf("%s does not hold: %w", filepath.ToSlash(path), err)}
	}
	if result != "" {
		if err := a.holds(report, result); err != nil {
			return err
		}
	}
	said := verified(report, result)
	if result != "" {
		about, err := standing(result)
		if err != nil {
			return err
		}
		said = append([]byte(about), said...)
	}
	if _, err = a.out.Write(said); err != nil {
		return failed(err)
	}
	if len(report.Unproved) > 0 {
		return stop{exitShort, fmt.Errorf("%d numbers of the result are not shown by this proof", len(report.Unproved))}
	}
	return nil
}

// standing says what the result says of itself, before what its proof shows: numbers
// that are proved are not numbers that pass. Nothing that stands in the file is
// printed, but words that are known and counts.
func standing(file string) (string, error) {
	f, err := openInput(file)
	if err != nil {
		return "", wrong("the result cannot be read: %s", reason(err))
	}
	defer f.Close()
	var r struct {
		Verdict    string
		Scope      []string
		NotChecked []struct{} `json:"not_checked"`
		Checks     []struct{ Verdict string }
	}
	if err := json.NewDecoder(f).Decode(&r); err != nil {
		return "", wrong("the result cannot be read: %s", reason(err))
	}
	count := map[string]int{}
	for _, c := range r.Checks {
		count[c.Verdict]++
	}
	out := fmt.Sprintf("The result: of %d checks %d fail and %d stay open; %d things are not checked (not_checked). ", len(r.Checks), count["fail"], count["open"], len(r.NotChecked))
	if r.Verdict != result.Pass.String() || r.Scope != nil {
		return out + "NOT CLEARED: what follows proves its numbers, and does not make them pass.\n", nil
	}
	return out + "That is no release.\n", nil
}

func (a *app) holds(report *proof.Report, result string) error {
	f, err := openInput(result)
	if err != nil {
		return wrong("the result cannot be read: %s", reason(err))
	}
	defer f.Close()
	if err := report.Holds(f); err != nil {
		return stop{exitShort, fmt.Errorf("%s is not what the proof shows: %w", filepath.ToSlash(result), err)}
	}
	return nil
}

// verified is what is printed of a proof that holds.
func verified(r *proof.Report, result string) []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "The proof holds: %d claims, %d planes, %d turning planes, %d contacts; %d numbers are shown.\n", r.Claims, r.Planes, r.Swings, r.Contacts, len(r.Entries))
	if !r.Whole {
		fmt.Fprintln(&out, "It is not of everything: some checks or steps are left out.")
	}
	switch {
	case len(r.Unproved) > 0:
		fmt.Fprintln(&out, "Stated by the result and not shown:")
		for _, u := range r.Unproved {
			fmt.Fprintln(&out, "  "+proof.Said(u))
		}
	case result != "":
		fmt.Fprintln(&out, "The clearances of the result are those shown.")
	default:
		fmt.Fprintln(&out, "It belongs to the result with sha256 "+r.Result+".")
	}
	if result != "" {
		reached(&out, r)
	}
	for _, in := range r.Inputs {
		fmt.Fprintf(&out, "Worked out from %s, sha256 %s.\n", proof.Said(in.Name), in.SHA256)
	}
	fmt.Fprintln(&out, "\nAssumed, not proved:")
	for _, l := range r.Assumed.Lines() {
		fmt.Fprintln(&out, "  "+l)
	}
	fmt.Fprintln(&out)
	for _, c := range check.CautionsOf(nil, nil) {
		fmt.Fprintln(&out, c)
	}
	return out.Bytes()
}

// reached says of which numbers a pair of points shows that something comes so
// near, and of which not.
func reached(out *bytes.Buffer, r *proof.Report) {
	fmt.Fprintf(out, "Of %d numbers a pair of points shows that something comes so near.\n", r.Witnesses)
	list := func(words string, subjects []string) {
		if len(subjects) > 0 {
			fmt.Fprintln(out, words)
		}
		for _, u := range subjects {
			fmt.Fprintln(out, "  "+proof.Said(u))
		}
	}
	list("Of these no points show it; nothing comes nearer, but all may stay farther off:", r.Unseen)
	list("These fail in the result, which their points do not show (of an overlap they show that it is one, not how deep):", r.Unfailed)
}

// proofOptions of check.
type proofOptions struct {
	file  string
	parts bool
}

// prove writes the proof of an examination, after holding that it holds.
func (a *app) prove(e *check.Examination, o proofOptions, at proofPlace) error {
	var text, out bytes.Buffer
	if err := table.JSON(&text, e.Result); err != nil {
		return failed(err)
	}
	sum := sha256.Sum256(text.Bytes())
	if err := certify.Write(&out, e, certify.Options{Result: hex.EncodeToString(sum[:]), Parts: o.parts}); err != nil {
		return failed(fmt.Errorf("the proof cannot be written: %w", err))
	}
	report, err := proof.Verify(bytes.NewReader(out.Bytes()))
	if err == nil {
		err = report.Holds(bytes.NewReader(text.Bytes()))
	}
	if err != nil {
		return failed(fmt.Errorf("the proof was not written, for it does not hold: %w", err))
	}
	return at.save(out.Bytes())
}

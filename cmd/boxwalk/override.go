package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"unicode"

	"boxwalk/clearance/result"
	"boxwalk/model/diag"
	"boxwalk/model/job"

	"github.com/spf13/cobra"
)

// setFlag is the name that problems of --set have as their file.
const setFlag = "--set"

// setFlagOn gives a command the flag --set.
func setFlagOn(c *cobra.Command, set *[]string) {
	c.Flags().StringArrayVar(set, "set", nil, "fix a setting in place of the job's `KEY=VALUE`; repeatable")
}

// override puts settings given as KEY=VALUE in the place of those in the job's
// `set:` group. They are read like the file, with the same limits, and join
// the inputs so that a result tells they were given.
func (r *reading) override(settings []string) {
	var lines []string
	for i, s := range settings {
		line, no := settingLine(s)
		if no != nil {
			no.Place = diag.Place{File: setFlag, Line: i + 1}
			r.problems = append(r.problems, *no)
			return
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return
	}
	given := []byte(strings.Join(lines, "\n") + "\n")
	r.sources[setFlag] = given
	set, at, problems := job.Decode[job.Set](setFlag, given, r.jobAt.System())
	r.problems = append(r.problems, problems...)
	if set == nil {
		return
	}
	for _, s := range settings {
		sum := sha256.Sum256([]byte(s))
		r.inputs = append(r.inputs, result.Input{Name: setFlag + " " + s, SHA256: hex.EncodeToString(sum[:])})
	}
	if r.job != nil {
		put(&r.job.Set, set, at)
	}
}

// settingLine is KEY=VALUE as a line of YAML.
func settingLine(s string) (string, *diag.Problem) {
	key, value, ok := strings.Cut(s, "=")
	if !ok || key == "" || strings.TrimSpace(value) == "" || strings.ContainsFunc(s, unicode.IsControl) {
		return "", &diag.Problem{Summary: fmt.Sprintf("%q is not KEY=VALUE", s), Fix: "for example --set jack=300mm"}
	}
	if strings.ContainsFunc(key, func(c rune) bool { return c != '_' && !unicode.IsLetter(c) }) {
		return "", &diag.Problem{Summary: fmt.Sprintf("%q is not a key of the job's set group", key), Fix: "for example --set jack=300mm"}
	}
	return fmt.Sprintf("%s: '%s'", key, strings.ReplaceAll(value, "'", "''")), nil
}

// put takes over what was given.
func put(into, from *job.Set, at *job.Decoded) {
	for _, key := range at.Keys("") {
		switch key {
		case "jack":
			into.Jack = from.Jack
		case "leg":
			into.Leg = from.Leg
		case "gauge":
			into.Gauge = from.Gauge
		case "foot":
			into.Foot = from.Foot
		case "filler":
			into.Filler = from.Filler
		default:
			// a key that would be dropped in silence is worse than a stop
			panic("--set has no place for the key " + key)
		}
	}
}

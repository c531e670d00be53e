package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const demo = "testdata/jobs/quarry-lane/job.yaml"

// BenchmarkAllDemo is the demo from its files to a folder of everything.
func BenchmarkAllDemo(b *testing.B) {
	b.Chdir("../..")
	folder := b.TempDir()
	for range b.N {
		runs(b, exitPass, "all", demo, "-o", folder)
	}
}

// BenchmarkProofDemo is the demo from its files to its proof, verified before it is
// saved.
func BenchmarkProofDemo(b *testing.B) {
	b.Chdir("../..")
	file := filepath.Join(b.TempDir(), "proof.txt")
	for range b.N {
		runs(b, exitPass, "check", demo, "--proof", file)
	}
}

// BenchmarkVerifyDemo is the demo's proof, verified from its file.
func BenchmarkVerifyDemo(b *testing.B) {
	b.Chdir("../..")
	file := filepath.Join(b.TempDir(), "proof.txt")
	runs(b, exitPass, "check", demo, "--proof", file)
	b.ResetTimer()
	for range b.N {
		runs(b, exitPass, "verify", file)
	}
}

// BenchmarkJSONPours grows the number of equal pours of one straight cell, and reports
// the size of the result for each of its entries.
func BenchmarkJSONPours(b *testing.B) {
	b.Chdir("../..")
	for _, n := range []int{25, 50, 100, 200} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			job := equalPours(b, n)
			b.ResetTimer()
			for range b.N {
				out := runs(b, exitShort, "check", "--root", "/", job, "--json")
				b.ReportMetric(float64(len(out))/float64(bytes.Count(out, []byte("\n    {\"id\": "))), "B/entry")
			}
		})
	}
}

// equalPours is the demo made one cell of so many pours of 9 m on one grade, in a file.
func equalPours(b *testing.B, n int) string {
	text, err := os.ReadFile(demo)
	if err != nil {
		b.Fatal(err)
	}
	gear, err := filepath.Abs("testdata/gear")
	if err != nil {
		b.Fatal(err)
	}
	job := filepath.Join(b.TempDir(), "job.yaml")
	to, err := filepath.Rel(filepath.Dir(job), gear)
	if err != nil {
		b.Fatal(err)
	}
	out := string(text)
	for _, s := range [][2]string{{"cells: 2", "cells: 1"}, {"[8 m, 9.15 m, 8.85 m, 7.5 m]", fmt.Sprintf("{each: 9 m, total: %d m}", 9*n)},
		{"  plan: [{tangent: 17.15 m}, {turn: 0.4 deg left}, {tangent: 16.35 m}]\n", ""},
		{"profile: [{station: 0+000, elevation: 182.400 m}, {station: 0+026, elevation: 182.010 m, curve: 6 m}, {station: 0+033.5, elevation: 181.785 m}]", "grade: -1.5 %"},
		{"lap: [165 mm, 0 mm, 0 mm]", "lap: 150 mm"}, {"skew: {inlet: 20 deg, outlet: 20 deg, joints: square}", "skew: {inlet: 0 deg}"},
		{"../../gear", filepath.ToSlash(to)}} {
		if strings.Count(out, s[0]) != 1 {
			b.Fatalf("%q is there %d times", s[0], strings.Count(out, s[0]))
		}
		out = strings.Replace(out, s[0], s[1], 1)
	}
	if err := os.WriteFile(job, []byte(out), 0o666); err != nil {
		b.Fatal(err)
	}
	return job
}

// runs is what a command prints that must end with a code.
func runs(b *testing.B, want int, args ...string) []byte {
	b.Helper()
	var said, wrong bytes.Buffer
	if code := run(args, quiet(&said, &wrong)); code != want {
		b.Fatalf("exit %d: %s", code, wrong.String())
	}
	return said.Bytes()
}

// BenchmarkCheckDemo is the demo from its files to the table that check prints.
func BenchmarkCheckDemo(b *testing.B) {
	b.Chdir("../..")
	b.ReportAllocs()
	for range b.N {
		runs(b, exitPass, "check", demo)
	}
}

package main

import (
	"bytes"
	"testing"
)

// BenchmarkAllDemo is the demo from its files to a folder of everything.
func BenchmarkAllDemo(b *testing.B) {
	b.Chdir("../..")
	folder := b.TempDir()
	for range b.N {
		var said, wrong bytes.Buffer
		if code := run([]string{"all", "testdata/jobs/quarry-lane/job.yaml", "-o", folder}, quiet(&said, &wrong)); code != 0 {
			b.Fatalf("exit %d: %s", code, wrong.String())
		}
	}
}

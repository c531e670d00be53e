package proof

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"
)

// FuzzVerify holds that no file brings the verifier down, makes it run for long
// or returns neither a report nor a problem with its line.
func FuzzVerify(f *testing.F) {
	for _, s := range knownScenes() {
		f.Add(s.write(s.true))
	}
	f.Add(crew())
	f.Add(strings.Replace(crew(), "need strip.clear 0.1\n", "need strip.clear 0.1\n"+seen, 1))
	for _, c := range tamperings {
		f.Add(strings.Replace(crew(), c.old, c.put, 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		most := limits{work: 2e7, kept: 1 << 20}
		start := time.Now()
		r, err := verify(stream(text), most)
		if took := time.Since(start); took > 10*time.Second {
			t.Errorf("took %v", took)
		}
		var p *Problem
		switch {
		case err == nil && r == nil, err != nil && r != nil:
			t.Errorf("neither report nor problem, or both: %v", err)
		case err != nil && (!errors.As(err, &p) || p.Line < 1 || p.Why == ""):
			t.Errorf("a problem without line or reason: %v", err)
		}
	})
}

// hostile files ask for much with few bytes. None may take longer than its work
// allows, nor keep more.
func hostile() map[string]string {
	var deep strings.Builder
	for i := range mostBodies {
		fmt.Fprintf(&deep, "body %d %d turn 1,0,0 0,0,%d - \"b\"\n", i, i-1, i)
	}
	chain := lines(deep.String(), fmt.Sprintf("part 0 %d %s \"P\"", mostBodies-1, box(0, 0, 0, 1, 1, 1)))
	var parts, steps strings.Builder
	for i := range 3000 {
		fmt.Fprintf(&parts, "part %d %d %s \"P\"\n", i+1, i%mostBodies, box(0, 0, 0, 1, 1, 1))
	}
	for i := range 40000 {
		fmt.Fprintf(&steps, "step %d strip \"s\"\n", i+1)
	}
	var turns, far strings.Builder
	for i := range 300 {
		fmt.Fprintf(&turns, "body %d -1 turn 1,0,0 0,0,0 %d \"b\"\n", i, i)
		far.WriteString(strings.Replace(fmt.Sprintf("link %d -1 %d 0,-1,0 0,0,1\n", i, i), "-1 ", itoa(max(-1, i-1))+" ", 1))
	}
	one := `place 0 0 0 "p"` + "\nsolid 0 wall s " + box(0, 5, 0, 1, 6, 1) + "\nclaim 0 1 wall\nneed strip.clear -5\n"
	halves := strings.Builder{}
	for i := range 4000 {
		fmt.Fprintf(&halves, "T %g\n", 1-float64(i+1)/5000)
	}
	return map[string]string{
		"steps of a long chain":    lines(head("some"), chain, steps.String()),
		"a long chain, much cut":   lines(head("some"), chain, `step 1 strip "s"`, "drive 0 0 1", one, halves.String(), strings.Repeat("P 0,1,0\n", 4001), tail(1)),
		"links upon links":         lines(head("some"), turns.String(), far.String(), "part 0 299 "+box(0, 0, 0, 1, 1, 1)+` "P"`, `step 1 strip "s"`, one, halves.String(), strings.Repeat("P 0,1,0\n", 4001), tail(1)),
		"many parts, pair by pair": lines(head("some"), chain, parts.String(), `step 1 strip "s"`, `step 2 strip "t"`, "self 0 2\nneed strip.self -5", "N", tail(1)),
		"a name of a megabyte":     lines(Header, "scope some", "zone wall \""+strings.Repeat("x", mostLine)+"\""),
		"no end of words":          lines(Header, "scope some", strings.Repeat("zone ", 100000)),
	}
}

func TestHostileFilesAreBounded(t *testing.T) {
	for name, text := range hostile() {
		t.Run(name, func(t *testing.T) {
			v := limits{work: 2e7, kept: 1 << 20}
			start := time.Now()
			_, err := verify(stream(text), v)
			took := time.Since(start)
			if err == nil {
				t.Error("accepted")
			}
			if took > 2*time.Second*slowdown {
				t.Errorf("took %v for a work of %g: %v", took, v.work, err)
			}
			t.Logf("%v: %.120v", took, err)
		})
	}
}

package check

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// Equal pours are worked out once, and what stands in each step's end once too.
func TestPoursThatAreAlikeReferToTheGapsOfTheFirst(t *testing.T) {
	size := func(n int) (int, *result.Result) {
		c := chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pours: [2.3 m]", "pours: {each: 2.3 m, total: " + fmt.Sprintf("%.1f m", 2.3*float64(n)) + "}"}}}
		r := Run(c.Study(t), Options{})
		r.Along = nil // samples of the way grow with the ways
		for i := range r.Checks {
			r.Checks[i].Working = nil // is as long as its formula
		}
		text, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		return len(text), r
	}
	few, little := size(6)
	more, r := size(16)
	rows := map[[3]any][]result.EndRow{}
	for _, s := range r.Steps {
		if s.EndOf == nil {
			rows[[3]any{s.Cell, s.Pour, s.Name}] = s.End
		}
	}
	referred := 0
	for _, s := range r.Steps {
		if s.EndOf == nil {
			continue
		}
		referred++
		if len(s.End) > 0 || len(rows[[3]any{s.EndOf.Cell, s.EndOf.Pour, s.Name}]) == 0 {
			t.Errorf("pour %d, %s: %d gaps of its own, and %d at %v", s.Pour, s.Name, len(s.End), len(rows[[3]any{s.EndOf.Cell, s.EndOf.Pour, s.Name}]), *s.EndOf)
		}
	}
	if referred < 8*10 {
		t.Errorf("%d steps refer to others", referred)
	}
	// what a pour more takes is its checks with their places and words, and its
	// settings and steps: a kilobyte for each check, its working aside; its gaps would be as much again
	if each := float64(more-few) / float64(len(r.Checks)-len(little.Checks)); each > 1000 {
		t.Errorf("a check more makes %.0f bytes more", each)
	}
	// the table of every part is whole all the same
	parts := map[int]int{}
	for p := range r.Parts {
		parts[p.Pour]++
	}
	for pour := 3; pour < 15; pour++ {
		if parts[pour] != parts[2] || parts[pour] == 0 {
			t.Errorf("pour %d has %d rows, pour 2 %d", pour, parts[pour], parts[2])
		}
	}
}

// The number that the messages name is the one that is read.
func TestTheMostPoursThatAreReadAreThoseThatTheMessageNames(t *testing.T) {
	list := func(n int) string { return "[" + strings.Repeat("1.2 m, ", n-1) + "1.2 m]" }
	for _, c := range []struct{ cells, pours, why string }{
		{"1", list(241), "at most 240 are read"},
		{"1", "{each: 1 m, total: 241 m}", "write at most 240 m"},
		{"2", list(121), "write at most 120 longer pours"},
		{"1", list(240), ""},
		{"1", "{each: 1 m, total: 240 m}", ""},
		{"2", list(120), ""},
	} {
		job := strings.Replace(strings.Replace(small, "pours: [1.2 m]", "pours: "+c.pours, 1), "cells: 1,", "cells: "+c.cells+", inner_wall: 200 mm,", 1)
		if c.cells == "1" {
			job = strings.Replace(job, " inner_wall: 200 mm,", "", 1)
		}
		s, why := built([]byte(tiny(t, "roof-whole-24")+"steps:\n"+few["roof-whole-24"][1]), []byte(job))
		if (s != nil) != (c.why == "") || !strings.Contains(why, c.why) {
			t.Errorf("%s cells, %.20s: %s", c.cells, c.pours, why)
		}
	}
}

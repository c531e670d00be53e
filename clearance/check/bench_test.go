package check

import (
	"fmt"
	"testing"
	"time"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
)

// BenchmarkCheckDemo is the demo from built study to verdict.
func BenchmarkCheckDemo(b *testing.B) {
	s := worked.Demo(b, nil)
	b.ResetTimer()
	for range b.N {
		if r := Run(s, Options{}); r.Verdict != result.Pass {
			b.Fatal(r.Verdict)
		}
	}
}

// BenchmarkBuildDemo is the demo from decoded files to study.
func BenchmarkBuildDemo(b *testing.B) {
	s := worked.Demo(b, nil)
	b.ResetTimer()
	for range b.N {
		model.Build(s.Job, s.Gear)
	}
}

// BenchmarkCheckPours grows the number of equal pours in one cell.
func BenchmarkCheckPours(b *testing.B) {
	for _, n := range []int{4, 8, 16, 32} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			s := equalPours(b, n)
			b.ResetTimer()
			for range b.N {
				Run(s, Options{})
			}
		})
	}
}

// BenchmarkPoursApart: x-apart is how many times as long a check takes where each of n
// equal pours is worked out by itself, both in turn.
func BenchmarkPoursApart(b *testing.B) {
	for _, n := range []int{4, 8, 16} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			alike, apart := equalPours(b, n), equalPours(b, n)
			for i := range apart.Bays {
				apart.Bays[i].Twin = i
			}
			var with, without time.Duration
			for b.Loop() {
				start := time.Now()
				Run(alike, Options{Brief: true})
				with += time.Since(start)
				start = time.Now()
				Run(apart, Options{Brief: true})
				without += time.Since(start)
			}
			b.ReportMetric(float64(without)/float64(with), "x-apart")
		})
	}
}

// equalPours is the demo made one cell of so many pours on one grade.
func equalPours(b *testing.B, n int) *model.Study {
	return worked.Demo(b, [][2]string{{"cells: 2", "cells: 1"}, {"[8 m, 9.15 m, 8.85 m, 7.5 m]", fmt.Sprintf("{each: 9 m, total: %d m}", 9*n)},
		{"  plan: [{tangent: 17.15 m}, {turn: 0.4 deg left}, {tangent: 16.35 m}]\n", ""},
		{"profile: [{station: 0+000, elevation: 182.400 m}, {station: 0+026, elevation: 182.010 m, curve: 6 m}, {station: 0+033.5, elevation: 181.785 m}]", "grade: -1.5 %"},
		{"lap: [165 mm, 0 mm, 0 mm]", "lap: 150 mm"}, {"skew: {inlet: 20 deg, outlet: 20 deg, joints: square}", "skew: {inlet: 0 deg}"}})
}

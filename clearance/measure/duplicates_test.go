package measure

import (
	"fmt"
	"testing"
	"time"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
)

// poursOf is the demo made one cell of so many pours on one grade, of so many lengths that
// are a centimetre apart.
func poursOf(b *testing.B, n, lengths int) *model.Study {
	list := ""
	for i := range n {
		list += fmt.Sprintf("%d mm, ", 9000+10*(i%lengths))
	}
	return worked.Demo(b, [][2]string{{"cells: 2", "cells: 1"}, {"[8 m, 9.15 m, 8.85 m, 7.5 m]", "[" + list[:len(list)-2] + "]"},
		{"  plan: [{tangent: 17.15 m}, {turn: 0.4 deg left}, {tangent: 16.35 m}]\n", ""},
		{"profile: [{station: 0+000, elevation: 182.400 m}, {station: 0+026, elevation: 182.010 m, curve: 6 m}, {station: 0+033.5, elevation: 181.785 m}]", "grade: -1.5 %"},
		{"lap: [165 mm, 0 mm, 0 mm]", "lap: 150 mm"}, {"skew: {inlet: 20 deg, outlet: 20 deg, joints: square}", "skew: {inlet: 0 deg}"}})
}

// tellApart makes one kind of duplicates none: pours, by having each stand for itself;
// carriers and parts, by a nanometre.
func tellApart(s *model.Study, what string) {
	told := map[*carrier.Carrier]bool{}
	for i := range s.Bays {
		c := s.Bays[i].Carrier
		switch {
		case what == "pours":
			s.Bays[i].Twin = i
		case told[c]:
		case what == "carriers":
			c.Setting.Leg += 1e-9 * float64(i)
		default:
			for k, p := range c.Parts {
				solid := geom.Solid{Faces: p.Faces}
				for _, v := range p.Vertices {
					v[0] += 1e-9 * float64(k+1000*i)
					solid.Vertices = append(solid.Vertices, v)
				}
				c.Parts[k].Solid = &solid
			}
		}
		told[c] = true
	}
}

// BenchmarkDuplicates is what is measured of n pours, and how many times as long it takes
// with one kind of duplicates told apart, both in turn: where every part is asked for, and
// where what may govern is.
func BenchmarkDuplicates(b *testing.B) {
	for _, every := range []bool{false, true} {
		for _, what := range []string{"pours", "carriers", "parts"} {
			for _, n := range []int{4, 8} {
				b.Run(fmt.Sprintf("every=%v/%s/n=%d", every, what, n), func(b *testing.B) {
					lengths := n
					if what == "pours" {
						lengths = 2
					}
					alike, apart := poursOf(b, n, lengths), poursOf(b, n, lengths)
					tellApart(apart, what)
					spent := func(s *model.Study) float64 {
						start := time.Now()
						Of(s, allow.Of(s.Job), Ask{Steps: Every, Raising: true, Advance: true, EveryPart: every, Workers: 1})
						return time.Since(start).Seconds()
					}
					var with, without float64
					for b.Loop() {
						with += spent(alike)
						without += spent(apart)
					}
					b.ReportMetric(without/with, "x-apart")
				})
			}
		}
	}
}

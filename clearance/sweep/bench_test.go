package sweep

import (
	"fmt"
	"testing"

	"boxwalk/model/geom"
)

// lane is n pairs of wall blocks, 2 m long, on both sides of a 12 m way.
func lane(n int) []Part {
	var out []Part
	for i := range n {
		x := 2 * float64(i)
		out = append(out, ground(block(x, x+2, 1, 1.3, 0, 3)), ground(block(x, x+2, -1.3, -1, 0, 3)))
	}
	return out
}

func BenchmarkLeast(b *testing.B) {
	var yaw Motion = tree{
		{parent: Ground, dir: alongX, drive: drive{q1: 12}},
		{parent: 0, hinge: true, dir: geom.Vec{0, 0, 1}, drive: drive{q1: 0.02}},
	}
	part := Part{1, block(0, 1.2, -0.9, 0.9, 0.1, 2.5)}
	for _, n := range []int{4, 8, 16, 32, 64, 128} {
		against := lane(n / 2)
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Least(yaw, Ground, part, against, 0, 1, Options{})
			}
		})
	}
}

func BenchmarkLeastBothMoving(b *testing.B) {
	var m Motion = tree{
		{parent: Ground, hinge: true, dir: alongY, drive: drive{q1: 0.05}},
		{parent: 0, hinge: true, pin: geom.Vec{1, 0, 2}, dir: alongY, drive: drive{q1: -0.1}},
		{parent: Ground, hinge: true, pin: geom.Vec{2, 0, 0}, dir: alongY, drive: drive{q1: 0.04}},
	}
	part, other := Part{1, block(0, 0.1, 0, 1, 0, 2)}, []Part{{2, block(1.2, 1.3, 0, 1, 0, 2)}}
	b.ReportAllocs()
	for b.Loop() {
		Least(m, Ground, part, other, 0, 1, Options{})
	}
}

func BenchmarkFirst(b *testing.B) {
	var m Motion = hinge(geom.Vec{}, alongY, 1.4)
	part, other := Part{0, block(0, 1, 0, 1, 0, 2)}, ground(block(2.2, 3, -1, 2, -1, 3))
	b.ReportAllocs()
	for b.Loop() {
		First(m, Ground, part, other, 0, 1, 5e-5, 1e-5)
	}
}

func BenchmarkDrag(b *testing.B) {
	inside := Part{0, block(-0.1, 0.002, -1, 1, 0, 3)}
	for _, c := range []struct {
		name string
		m    Motion
		part Part
	}{
		{"slide", slide(geom.Vec{0, 0.12, 0}), panel()},
		{"hinge", hinge(geom.Vec{-0.06, 0, 3}, alongY, 0.05), panel()},
		{"dig", hinge(geom.Vec{0.001, 0, 1.5}, alongX, 0.08), inside},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			to := wall()
			for b.Loop() {
				Drag(c.m, Ground, c.part, to, 0, 1, DragOptions{})
			}
		})
	}
}

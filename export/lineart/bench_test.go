package lineart

import (
	"fmt"
	"testing"

	"boxwalk/export/scene"
)

func BenchmarkDraw(b *testing.B) {
	for _, n := range []int{300, 3000} {
		side := 1.1 * float64(n) / 55
		views := []struct {
			name string
			from scene.Camera
		}{
			{"isometric", corner}, {"ahead", fromAhead},
			{"perspective", scene.Perspective(vec{side, -side, side}, vec{5, 5, 0}, vec{0, 0, 1})},
		}
		s := yard(n, 1)
		for _, v := range views {
			b.Run(fmt.Sprintf("view=%s/n=%d", v.name, n), func(b *testing.B) {
				for b.Loop() {
					draw(b, s, v.from)
				}
			})
		}
	}
}

package lineart

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/export/scene"
	"boxwalk/model/geom"
)

var pictures = flag.String("pictures", "", "write test pictures (SVG) to this folder")

// svg is a plain picture of paths, for looking at.
func svg(ps []Path) string {
	b := geom.EmptyBox()
	for _, p := range ps {
		b = b.Add(vec{p.From[0], p.From[1], 0}).Add(vec{p.To[0], p.To[1], 0})
	}
	size := b.Max.Sub(b.Min)
	unit := max(size[0], size[1]) / 1400
	b = b.Grow(20 * unit)
	size = b.Max.Sub(b.Min)
	var out strings.Builder
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%.0f" height="%.0f" viewBox="%g %g %g %g"><rect x="-1e6" y="-1e6" width="2e6" height="2e6" fill="white"/>`+"\n",
		size[0]/unit, size[1]/unit, b.Min[0], -b.Max[1], size[0], size[1])
	for _, p := range ps {
		fmt.Fprintf(&out, `<path d="M%.3f %.3fL%.3f %.3f" stroke="%s" stroke-width="%g" stroke-linecap="round"/>`+"\n",
			p.From[0], -p.From[1], p.To[0], -p.To[1],
			[]string{"#888", "#06c", "#000", "#a00"}[p.Kind], unit*[]float64{0.8, 1.2, 2.2, 3}[p.Kind])
	}
	out.WriteString("</svg>\n")
	return out.String()
}

func views() map[string]scene.Camera {
	concrete := []string{"pour 2"}
	open := scene.Cut{Plane: geom.Plane{N: vec{0, -1, 0}, D: 1.6}, Groups: concrete}
	roofOff := scene.Cut{Plane: geom.Plane{N: vec{0, 0, 1}, D: 2.3}, Groups: concrete}
	across := scene.Cut{Plane: geom.Plane{N: vec{1, 0, 0}, D: 2.7}}
	return map[string]scene.Camera{
		"iso":         scene.Isometric(vec{1, -1, 1}),
		"cut-open":    scene.Isometric(vec{1, -1, 1}).Cutting(open, roofOff),
		"section":     fromAhead.Cutting(across),
		"above":       fromAbove.Cutting(roofOff),
		"perspective": scene.Perspective(vec{8, -3, 3.5}, vec{2, 0, 1.2}, vec{0, 0, 1}).Cutting(open, roofOff),
		"inside":      scene.Perspective(vec{4.4, 0.2, 1.6}, vec{0, 0, 1}, vec{0, 0, 1}),
	}
}

func TestPicturesOfTheCulvertHaveLinesOfEveryKind(t *testing.T) {
	for name, c := range views() {
		ps := draw(t, culvert(), c)
		for k := range kindCount {
			straight := name == "section" || name == "above" // no two faces of an edge are seen
			none := straight && k == Inner || len(c.Cuts) == 0 && k == CutRim
			if (total(ps, kind(k)) == 0) != none {
				t.Errorf("%s: %v mm of %v", name, total(ps, kind(k)), k)
			}
		}
		if *pictures != "" {
			if err := os.WriteFile(filepath.Join(*pictures, name+".svg"), []byte(svg(ps)), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

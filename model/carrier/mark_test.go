package carrier

import (
	"testing"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// blockOf is a bar of so much along, across and up with its least corner at (x, y, z).
func blockOf(role Role, side culvert.Side, x, y, z, dx, dy, dz float64) Part {
	return Part{Role: role, Side: side, Solid: geom.Block(geom.Box{Min: geom.Vec{x, y, z}, Max: geom.Vec{x + dx, y + dy, z + dz}})}
}

func markedAs(parts ...Part) []string {
	MarkTogether(&Carrier{Parts: parts})
	var out []string
	for _, p := range parts {
		out = append(out, p.At())
	}
	return out
}

func TestOneMarkIsOneSizeAndMirrorImagesShareItsNumber(t *testing.T) {
	got := markedAs(
		blockOf(Filler, culvert.Left, 0, 1, 2, 0.9, 0.24, 0.1),
		blockOf(Filler, culvert.Left, 1, 1, 2, 0.3, 0.24, 0.1),      // shorter
		blockOf(Filler, culvert.Left, 2, 1, 2, 0.90009, 0.24, 0.1),  // 0.09 mm longer: the first again
		blockOf(Filler, culvert.Left, 3, 1, 2, 0.9002, 0.24, 0.1),   // 0.2 mm longer: another
		blockOf(Filler, culvert.Right, 0, -1.24, 2, 0.9, 0.24, 0.1), // the first, mirrored
		blockOf(Filler, culvert.Both, 0, -0.12, 2, 0.3, 0.24, 0.1),  // the second, on the centreline
		blockOf(WallPanel, culvert.Left, 0, 1, 0, 0.9, 0.24, 0.1),   // another role counts by itself
	)
	want := []string{"F1L/1", "F2L", "F1L/2", "F3L", "F1R", "F2", "W1L"}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v, want %v", got, want)
			break
		}
	}
}

func TestAPieceThatSlopesTheOtherWayOnItsOwnSideIsAnotherMark(t *testing.T) {
	slope := func(side culvert.Side, inner, outer float64) Part {
		s := geom.Prism([]geom.Point2{{1, 2}, {1.2, 2}, {1.2 + outer, 1.9}, {1 - inner, 1.9}}, 0, 0.9)
		if side == culvert.Right {
			s = s.Mirrored()
		}
		return Part{Role: Filler, Side: side, Solid: s}
	}
	got := markedAs(slope(culvert.Left, 0.01, 0), slope(culvert.Left, 0, 0.01), slope(culvert.Right, 0.01, 0), slope(culvert.Right, 0, 0.01))
	for i, want := range []string{"F1L", "F2L", "F1R", "F2R"} {
		if got[i] != want {
			t.Errorf("%v", got)
		}
	}
}

func TestASlantedLinkKeepsItsMarkAtAnyAngle(t *testing.T) {
	bar := func(to geom.Point2) Part {
		return Part{Role: LinkBar, Name: "top brace", Side: culvert.Left, Solid: geom.Bar(0, geom.Point2{0, 0}, to, 0.05)}
	}
	got := markedAs(bar(geom.Point2{0.3, 0.4}), bar(geom.Point2{0.5, 0}), bar(geom.Point2{0.3, 0.41}))
	// hypot(0.3, 0.4) = 0.5; hypot(0.3, 0.41) = 0.508
	for i, want := range []string{"B1L/1", "B1L/2", "B2L"} {
		if got[i] != want {
			t.Errorf("%v", got)
		}
	}
}

func TestTwoCarriersShareTheirMarks(t *testing.T) {
	a := &Carrier{Parts: []Part{blockOf(Filler, culvert.Left, 0, 1, 2, 0.9, 0.24, 0.1), blockOf(Filler, culvert.Left, 1, 1, 2, 0.4, 0.24, 0.1)}}
	b := &Carrier{Parts: []Part{blockOf(Filler, culvert.Left, 0, 1, 2, 0.4, 0.24, 0.1), blockOf(Filler, culvert.Left, 1, 1, 2, 0.6, 0.24, 0.1)}}
	MarkTogether(a, b, a)
	if a.Parts[1].Mark != "F2L" || b.Parts[0].Mark != "F2L" || b.Parts[1].Mark != "F3L" {
		t.Errorf("%s %s; %s %s", a.Parts[0].Mark, a.Parts[1].Mark, b.Parts[0].Mark, b.Parts[1].Mark)
	}
}

package sheet

import (
	"regexp"
	"slices"
	"testing"
)

func TestLayerNamesFollowISO13567(t *testing.T) {
	// Agent W-, six characters for the element, two for the presentation.
	shape := regexp.MustCompile(`^W-[A-Z0-9-]{6}[EHDTJ]-$`)
	seen := map[string]bool{}
	for _, l := range Layers() {
		name := l.Style().Name
		if !shape.MatchString(name) || seen[name] {
			t.Errorf("layer %d is called %q, malformed or used twice", l, name)
		}
		seen[name] = true
	}
}

func TestLayersPrintInBlackAndWhite(t *testing.T) {
	widths := []float64{0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1, 1.4, 2} // ISO 128-2
	for _, l := range Layers() {
		st := l.Style()
		// Relative luminance after ITU-R BT.709, without gamma: enough to tell dark from light.
		if lum := (0.2126*float64(st.RGB.R) + 0.7152*float64(st.RGB.G) + 0.0722*float64(st.RGB.B)) / 255; lum > 0.5 {
			t.Errorf("%s is too light to print: %.2f", st.Name, lum)
		}
		if !slices.Contains(widths, st.Width) || st.ACI < 1 || st.ACI > 255 {
			t.Errorf("%s has width %v, colour %d", st.Name, st.Width, st.ACI)
		}
	}
}

func TestTheCollapsedOutlineIsLongDashedDoubleDotted(t *testing.T) {
	st := Collapsed.Style()
	if st.Type != LongDashTwoDots || len(st.Type.Dashes()) != 6 {
		t.Errorf("%+v", st)
	}
}

func TestAnOfficesOwnLayerNamesAreMadeSafe(t *testing.T) {
	s := &Sheet{LayerNames: map[Layer]string{Concrete: `S-CONC/new<1>`, Steel: "  ", Panel: "defpoints", Notes: "A\nB"}}
	for l, want := range map[Layer]string{Concrete: "S-CONC_new_1_", Steel: "W-STEEL-E-", Panel: "W-PANEL-E-", Notes: "A B", Earth: "W-EARTH-E-"} {
		if got := s.LayerName(l); got != want {
			t.Errorf("%s becomes %q, want %q", l.Style().Name, got, want)
		}
	}
}

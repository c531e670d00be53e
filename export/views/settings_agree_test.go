package views

import (
	"math"
	"strings"
	"testing"

	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

func TestTheArmsReadingInTheSettingsIsTheOneDrawn(t *testing.T) {
	s, r := checked()
	b := &s.Bays[0]
	st := last(b)
	want := float64(b.Carrier.Gear.Frame.Header.Length)/2 - b.Carrier.ArmInner
	for _, p := range b.Carrier.Parts {
		if p.Role == carrier.Arm && p.Side == culvert.Left {
			want -= st.pose(p.Body).T[1]
			break
		}
	}
	found := false
	for _, e := range r.Settings {
		if strings.HasPrefix(e.Adjuster, "arm in tube") {
			found = true
			if math.Abs(e.Collapsed-want) > 1e-6 {
				t.Fatalf("collapsed %.4f m in tube, drawn %.4f", e.Collapsed, want)
			}
		}
	}
	if !found {
		t.Fatal("no arms in the settings")
	}
}

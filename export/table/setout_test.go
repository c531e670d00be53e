package table

import (
	"bytes"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// Grindlemoor: pour 1 begins at the inlet, E 5000, N 8000, level 182.400 on the
// centreline; its roof is 2.4 m up, square to 1.5 %: 2.4003 m plumb.
func TestTheSetOutTablesTellEveryPourBentAndJack(t *testing.T) {
	s := study(t, "skew-30")
	var out bytes.Buffer
	if err := SetOut(&out, s, &result.Result{}); err != nil {
		t.Fatal(err)
	}
	rows, err := uncommented(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := 0
	for _, b := range s.Bays {
		want += 3 + 3 + 2 + 3*len(b.Carrier.Bents) // corners, form, bents with two jacks
	}
	if len(rows)-1 != want {
		t.Errorf("%d places, want %d", len(rows)-1, want)
	}
	if got := strings.Join(rows[2], " "); got != "1 1 pour, rear end   0.000 0.000 0.000 0.000 5000.000 8000.000 182.400 184.800" {
		t.Errorf("%q", got)
	}
	list := SetOutList(s)
	if got := strings.Join(list.Rows[1], " "); got != "1 1 pour, rear end 0 0+000 0.000 5000.000 8000.000 182.400 184.800  " {
		t.Errorf("%q", got)
	}
	// bent 1 stands 0.45 m ahead of the form, which begins 1.5 tan 30 = 0.866 m behind:
	// -416 mm, 182.400 + 0.416 x 0.015 = 182.406
	if row := list.Rows[8]; row[2] != "bent 1" || row[3] != "-416" || row[8] != "182.406" || row[10] != row[8] || row[11] != row[8] {
		t.Errorf("%q", row)
	}
}

func TestAnImperialJobIsSetOutInFeet(t *testing.T) {
	s := study(t, "fernshaw-hollow")
	list := SetOutList(s)
	if !strings.Contains(list.Heads[6].Title, "ft") || strings.Contains(strings.Join(list.Notes, " "), " m:") {
		t.Errorf("%v %v", list.Heads, list.Notes)
	}
	// the soffit stands 8 ft above the invert, square to 0.5 %: 8.000 ft
	if row := list.Rows[1]; row[8] != "0.000" || row[9] != "8.000" {
		t.Errorf("%q", row)
	}
}

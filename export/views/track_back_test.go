package views

import (
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/worked"
	"boxwalk/export/sheet"
)

// A carrier that casts its pours from the outlet back and leaves over the inlet is
// pulled at its rear end, toward the inlet; what holds it back stands at the outlet.
func TestACarrierThatRollsBackIsPulledTowardTheInlet(t *testing.T) {
	s := worked.Job(t, "bend-at-joint", [2]string{"pours: [9 m, 9 m, 9 m]", "pours: [9 m, 9 m, 9 m]\n  order: [3, 2, 1]"},
		[2]string{"end: front,", "end: front, leaves: inlet,"}, [2]string{"inlet: {apron: 3 m}, outlet: {apron: 12 m}", "inlet: {apron: 12 m}, outlet: {apron: 3 m}"})
	r := check.Run(s, check.Options{Version: "test", Brief: true})
	sh := named(t, justSheets(t, s, r), "wheel-track")
	var arrows []sheet.Leader
	var said []sheet.Text
	words := strings.Join(sh.Notes, "\n")
	for _, v := range sh.Views {
		for _, i := range v.Items {
			switch i := i.(type) {
			case sheet.Leader:
				if i.On == sheet.Loads {
					arrows = append(arrows, i)
				}
			case sheet.Text:
				said = append(said, i)
				words += strings.Join(i.Lines, " ") + "\n"
			}
		}
	}
	if len(arrows) != 1 || arrows[0].Tip[0] >= arrows[0].Knee[0] || arrows[0].Tip[0] > 0 {
		t.Fatalf("%d arrows, want one toward the inlet: %v", len(arrows), arrows)
	}
	pulled, held := 0, 0
	for _, text := range said {
		pulls, holds := slices.Contains(text.Lines, "can pull 20.00 kN"), slices.Contains(text.Lines, "restraint")
		if pulls {
			pulled++
		}
		if holds {
			held++
		}
		if pulls && (text.At[0] > 0 || !slices.Contains(text.Lines, "at the rear end") || !slices.Contains(text.Lines, "back")) {
			t.Errorf("pulled at %v: %q", text.At, text.Lines)
		}
		if holds && text.At[0] < 0 {
			t.Errorf("held at %v: %q", text.At, text.Lines)
		}
	}
	if pulled != 1 || held != 1 {
		t.Errorf("%d pulls and %d restraints are named", pulled, held)
	}
	if !strings.Contains(strings.Join(strings.Fields(words), " "), "From pour 1 the carrier rolls out over the inlet") {
		t.Errorf("nothing says where it leaves: %s", words)
	}
	for _, row := range r.Rolling {
		if want := map[int]string{3: " m to pour 2", 2: "roll back 8.997 m to pour 1", 1: ", out over the inlet"}[row.Pour]; !strings.Contains(row.Name, want) || !strings.Contains(row.Say, "at the rear end") {
			t.Errorf("pour %d: %q, %q", row.Pour, row.Name, row.Say)
		}
	}
}

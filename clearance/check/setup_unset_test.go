package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

func TestSettingThatCannotBeMadeIsSaidWithItsRange(t *testing.T) {
	// an 8 ft by 4 ft box of ASTM C1577, whose legs no hole of this gear is low enough for
	s := chain{Gear: "halves-8-haunch", Job: `
job: {name: eight by four, units: imperial}
culvert:
  cells: 1
  span: 8 ft
  rise: 4 ft
  roof: 8 in
  invert: 8 in
  outer_wall: 8 in
  haunch: {top: 8 x 8 in, bottom: 8 x 8 in}
  kicker: 8 in
  pours: [8 ft]
ends: {outlet: {apron: 40 ft}}
schedule: {invert_age: 7 d, walls_age: 4 d, roof_age: 4 d}
concrete: {strength: 4000 psi, cement: N, curing: 62 degF, walls_strength: 12 MPa, roof_strength: 21 MPa}
stand: {wind: 0.3 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}
anchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}
release: {walls: {strength: 5 MPa}, roof: {strength: 15 MPa}}
travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}
capacities: {basis: permissible, source: plates of winch and restraint}
gear: gear.yaml
`}.Study(t)
	b := inspected(s, 0)
	limit := Limit{Value: 0.003}
	nobody := []candidate{{Value: result.Between(math.Inf(-1), math.Inf(1)), text: "unknown"}}
	known := []candidate{{Value: result.Between(0, 0.1), text: "known"}}
	checks := []Judged{entry("strip.clear", result.Subject{}, nobody, limit, result.Min, ""), entry("strip.drag", result.Subject{}, nobody, limit, result.Max, ""), entry("strip.clear", result.Subject{}, known, limit, result.Min, "")}
	b.sayUnset(checks)
	for _, c := range checks[:2] {
		if c.Verdict != result.Open || !strings.Contains(c.Text, "the gear cannot be set so: jack left") || !strings.Contains(c.Text, "the gear allows 4.33 in to 10.04 in") {
			t.Errorf("%v: %q", c.Verdict, c.Text)
		}
	}
	if checks[2].Text != "known" {
		t.Errorf("a number that is known reads %q", checks[2].Text)
	}
	for _, c := range b.rangeChecks() {
		if c.Verdict == result.Fail && !strings.Contains(c.Text, "the gear allows") {
			t.Errorf("%s: %q names no range", c.Subject, c.Text)
		}
	}
}

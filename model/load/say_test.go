package load

import (
	"errors"
	"fmt"
	"testing"

	"boxwalk/model/units"
)

// 12 MPa = 12 000 000 / 6894.757 = 1740.45 psi; 90 MPa = 13 053.4 psi; 3 m =
// 9.842 52 ft; 10 kN = 2.248 kip; 20 degC = 68 degF.
func TestErrorsAreToldInFeetAndPounds(t *testing.T) {
	for _, c := range []struct {
		err              error
		metric, imperial string
	}{
		{within("strength", 6.894757, 12, 90, "MPa"), "strength is 6.89476 MPa, must lie between 12 and 90 MPa", "strength is 1000 psi, must lie between 1740.45 and 13053.4 psi"},
		{fmt.Errorf("wrapped: %w", within("length", 3, 0, 1, "m")), "wrapped: length is 3 m, must lie between 0 and 1 m", "wrapped: length is 9.84252 ft, must lie between 0 and 3.28084 ft"},
		{errors.Join(within("a", 20, 0, 10, "°C"), within("b", 2, 0, 1, "")), "a is 20 °C, must lie between 0 and 10 °C\nb is 2, must lie between 0 and 1", "a is 68 degF, must lie between 32 and 50 degF\nb is 2, must lie between 0 and 1"},
		{outsideBecause("%v are needed of %d", amount{10, "kN"}, 7), "10 kN are needed of 7: " + ErrRange.Error(), "2.248 kip are needed of 7: " + ErrRange.Error()},
		{missing("age"), "age is not stated: " + ErrRange.Error(), "age is not stated: " + ErrRange.Error()},
	} {
		if got := Say(c.err, units.Metric); got != c.metric {
			t.Errorf("%q, want %q", got, c.metric)
		}
		if got := Say(c.err, units.Imperial); got != c.imperial {
			t.Errorf("%q, want %q", got, c.imperial)
		}
		if c.err != nil && !errors.Is(c.err, ErrRange) {
			t.Errorf("%v is no error of range", c.err)
		}
	}
}

// Every unit in which a formula refuses a number and that is not the same in both
// systems has a name in feet and pounds.
func TestEveryUnitOfAnErrorIsKnownInBothSystems(t *testing.T) {
	for _, unit := range []string{"MPa", "kPa", "kPa/m", "kN", "kN/m³", "m", "m/h", "m²", "m³", "m³/h", "°C", "°C h"} {
		if got := Say(within("x", 5, 0, 1, unit), units.Imperial); got == (&Outside{"x", 5, 0, 1, unit}).Error() {
			t.Errorf("%s is told as it is: %s", unit, got)
		}
	}
}

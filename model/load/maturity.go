package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Maturity is a temperature-time factor in °C h.
type Maturity float64

// NurseSaul is the temperature-time factor with its datum temperature.
type NurseSaul struct{ Datum units.Temperature }

// DefaultNurseSaul has the datum 0 °C that ASTM C1074 suggests; older texts
// take −10 °C, which promises more. Source: second-hand.
func DefaultNurseSaul() NurseSaul { return NurseSaul{0} }

// NurseSaulSource is the source of the temperature-time factor.
func NurseSaulSource() Source {
	return Source{"Nurse-Saul, ASTM C1074, read on a page that quotes it", SecondHand}
}

func (n NurseSaul) check(h History) error {
	return errors.Join(within("datum", float64(n.Datum), -11, 10, "°C"), h.check(-30, 80))
}

func (n NurseSaul) rate(t units.Temperature) float64 { return max(0, float64(t-n.Datum)) / hour }

// Of returns M = Σ (T − T0) Δt in °C h; a spell below the datum counts as zero.
// Range: datum −11 to 10 °C, history −30 to 80 °C (judgement). Source: ASTM
// C1074 (second-hand).
func (n NurseSaul) Of(h History) (Maturity, error) {
	if err := n.check(h); err != nil {
		return 0, err
	}
	return Maturity(h.total(n.rate)), nil
}

// Reach returns when the history first has that maturity; an error when it
// ends before.
func (n NurseSaul) Reach(need Maturity, h History) (units.Duration, error) {
	if err := errors.Join(n.check(h), within("maturity", float64(need), 0, 1e7, "°C h")); err != nil {
		return 0, err
	}
	if at, ok := h.reach(float64(need), n.rate); ok {
		return at, nil
	}
	return 0, h.tooShort(float64(need), h.total(n.rate), "°C h")
}

// EquivalentAge is the time, in seconds, at the reference temperature of a
// strength-gain curve (20 °C) that is worth as much as what the concrete went
// through. The curves take no other age: of cold concrete the time since
// casting promises a strength that is not there.
type EquivalentAge float64

// Days of an equivalent age.
func (a EquivalentAge) Days() float64 { return float64(a) / day }

// Arrhenius turns a history into the age at a reference temperature that is
// worth the same.
type Arrhenius struct {
	Q         float64           // K, activation energy over the gas constant
	Reference units.Temperature // °C, usually 20 or 23
	Kelvin    float64           // K at 0 °C: 273.15, or 273 as ASTM C1074 rounds it
}

// DefaultArrhenius has Q = 5000 K, 20 °C, 273.15 K. Source: ASTM C1074, from
// memory.
func DefaultArrhenius() Arrhenius { return Arrhenius{5000, 20, 273.15} }

// ArrheniusSource is the source of the equivalent age.
func ArrheniusSource() Source {
	return Source{"equivalent age, ASTM C1074: formula second-hand, 5000 K", Memory}
}

// QOf returns Q from an activation energy in J/mol, by R = 8.314 J/(mol K).
// Range: 30 to 60 kJ/mol (judgement).
func QOf(energy float64) (float64, error) {
	if err := within("activation energy", energy, 30e3, 60e3, "J/mol"); err != nil {
		return 0, err
	}
	return energy / 8.314, nil
}

// LeastCuring and MostCuring are the ends of the equivalent ages, °C. Frozen
// concrete does not gain by them.
const LeastCuring, MostCuring units.Temperature = 0, 80

func (a Arrhenius) check(h History) error {
	return errors.Join(
		within("Q", a.Q, 3000, 8000, "K"),
		within("reference temperature", float64(a.Reference), 10, 30, "°C"),
		within("kelvin at 0 °C", a.Kelvin, 273, 273.15, "K"),
		h.check(LeastCuring, MostCuring))
}

func (a Arrhenius) rate(t units.Temperature) float64 {
	return math.Exp(-a.Q * (1/(float64(t)+a.Kelvin) - 1/(float64(a.Reference)+a.Kelvin)))
}

// Of returns te = Σ exp(−Q (1/T − 1/Ts)) Δt, temperatures in kelvin. Range:
// history 0 to 80 °C, below which it is an error: frost. Source: ASTM C1074,
// formula second-hand, constants from memory.
func (a Arrhenius) Of(h History) (EquivalentAge, error) {
	if err := a.check(h); err != nil {
		return 0, err
	}
	return EquivalentAge(h.total(a.rate)), nil
}

// Reach returns when the history first has that equivalent age; an error when
// it ends before.
func (a Arrhenius) Reach(need EquivalentAge, h History) (units.Duration, error) {
	if err := a.check(h); err != nil {
		return 0, err
	}
	return reachAge(need, h, a.rate)
}

// MC90 is the temperature-adjusted age of CEB-FIP Model Code 1990 and EN
// 1992-1-1 B(10), the age that goes into [CementClass.Beta].
type MC90 struct{}

// MC90Source is the source of the temperature-adjusted age.
func MC90Source() Source {
	return Source{"CEB-FIP MC90, EN 1992-1-1 eq. B.10, in a program's manual", SecondHand}
}

func (MC90) rate(t units.Temperature) float64 { return math.Exp(13.65 - 4000/(273+float64(t))) }

// Factor returns exp(13.65 − 4000/(273 + T)), what an hour at T °C is worth at
// 20 °C. Range: 0 to 80 °C (EN 1992-1-1 B.1(3), memory). Source: second-hand.
func (m MC90) Factor(t units.Temperature) (float64, error) {
	if err := within("temperature", float64(t), float64(LeastCuring), float64(MostCuring), "°C"); err != nil {
		return 0, err
	}
	return m.rate(t), nil
}

// Of returns tT = Σ Factor Δt. Range and source: see Factor.
func (m MC90) Of(h History) (EquivalentAge, error) {
	if err := h.check(LeastCuring, MostCuring); err != nil {
		return 0, err
	}
	return EquivalentAge(h.total(m.rate)), nil
}

// At returns tT at a time since casting. A history that ends before it is an
// error, and so is frost before it; what comes after it does not count.
func (m MC90) At(age units.Duration, h History) (EquivalentAge, error) {
	if err := errors.Join(within("age", float64(age)/hour, 0, float64(MostAge)/hour, "h"), h.Covers(age)); err != nil {
		return 0, err
	}
	return m.Of(h.Until(age))
}

// Reach returns when the history first has that adjusted age; an error when it
// ends before.
func (m MC90) Reach(need EquivalentAge, h History) (units.Duration, error) {
	if err := h.check(LeastCuring, MostCuring); err != nil {
		return 0, err
	}
	return reachAge(need, h, m.rate)
}

func reachAge(need EquivalentAge, h History, rate func(units.Temperature) float64) (units.Duration, error) {
	if err := within("age", float64(need)/hour, 0, float64(MostAge)/hour, "h"); err != nil {
		return 0, err
	}
	if at, ok := h.reach(float64(need), rate); ok {
		return at, nil
	}
	return 0, h.tooShort(float64(need)/hour, h.total(rate)/hour, "h")
}

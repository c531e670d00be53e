package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// The three strength-maturity curves below are fitted to tests of the very mix;
// their constants are no defaults of anything.

func ultimateCheck(u units.Pressure) error {
	return above("ultimate strength", float64(u)/mpa, 0, 200, "MPa")
}

// Plowman is S = A + B log10 M: A and B in kPa, M in °C h. Source: Plowman
// 1956, from memory.
type Plowman struct{ A, B units.Pressure }

// Strength returns A + B log10 M, kPa. An error where M is below 1 °C h or the
// value is not above zero: the line does not hold that early.
func (p Plowman) Strength(m Maturity) (units.Pressure, error) {
	err := errors.Join(
		within("A", float64(p.A)/mpa, -500, 200, "MPa"),
		above("B", float64(p.B)/mpa, 0, 200, "MPa"),
		within("maturity", float64(m), 1, 1e7, "°C h"))
	if err != nil {
		return 0, err
	}
	s := float64(p.A) + float64(p.B)*math.Log10(float64(m))
	if s <= 0 {
		return 0, outsideBecause("at %.4g °C h the calibration gives no strength", float64(m))
	}
	return units.Pressure(s), nil
}

// Hyperbola is S = Su k(t − t0)/(1 + k(t − t0)), t an equivalent age, k per
// day. Source: ASTM C1074 appendix, from memory.
type Hyperbola struct {
	Ultimate units.Pressure // kPa
	K        float64        // per day
	Start    units.Duration // s, when strength begins
}

// Strength returns the strength at an equivalent age, kPa. Before Start it is
// zero, which is what the curve says of concrete that has not set.
func (c Hyperbola) Strength(age EquivalentAge) (units.Pressure, error) {
	err := errors.Join(
		ultimateCheck(c.Ultimate),
		above("k", c.K, 0, 50, "per day"),
		within("start", days(c.Start), 0, 7, "d"),
		within("age", age.Days(), 0, days(MostAge), "d"))
	if err != nil || age <= EquivalentAge(c.Start) {
		return 0, err
	}
	kt := c.K * (age.Days() - days(c.Start))
	return units.Pressure(float64(c.Ultimate) * kt / (1 + kt)), nil
}

// Exponential is S = Su exp(−(τ/te)^β). Source: second-hand.
type Exponential struct {
	Ultimate units.Pressure // kPa
	Tau      units.Duration // s
	Beta     float64
}

// Strength returns the strength at an equivalent age above zero, kPa.
func (c Exponential) Strength(age EquivalentAge) (units.Pressure, error) {
	err := errors.Join(
		ultimateCheck(c.Ultimate),
		above("τ", days(c.Tau), 0, 100, "d"),
		above("β", c.Beta, 0, 10, ""),
		above("age", age.Days(), 0, days(MostAge), "d"))
	if err != nil {
		return 0, err
	}
	return units.Pressure(float64(c.Ultimate) * math.Exp(-math.Pow(float64(c.Tau)/float64(age), c.Beta))), nil
}

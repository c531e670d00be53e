package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Ages at which a strength-gain curve is asked. Least: judgement; before it the
// curves promise strength to concrete that has barely set. Most: the longest
// age a job may state.
const (
	LeastAge units.Duration = 12 * hour
	MostAge  units.Duration = 1000 * day
)

func ageCheck(age EquivalentAge) error {
	return within("equivalent age", float64(age)/hour, float64(LeastAge)/hour, float64(MostAge)/hour, "h")
}

// notBefore keeps an age found by inversion from lying before LeastAge.
func notBefore(ageDays float64) EquivalentAge {
	return max(EquivalentAge(ageDays*day), EquivalentAge(LeastAge))
}

// ACI209 is a strength-gain curve of ACI 209R-92; the zero value is an error.
type ACI209 uint8

// Cement type and curing.
const (
	ACI209Unset ACI209 = iota
	TypeIMoist
	TypeIIIMoist
	TypeISteam
	TypeIIISteam
)

var aci209 = [...]struct{ a, b float64 }{
	TypeIMoist: {4.0, 0.85}, TypeIIIMoist: {2.3, 0.92}, TypeISteam: {1.0, 0.95}, TypeIIISteam: {0.70, 0.98},
}

// ACI209Source is the source of the ACI 209 curves.
func ACI209Source() Source {
	return Source{"ACI 209R-92 eq. 2-1; 4.0 and 0.85 second-hand, other constants from memory", Memory}
}

// Ratio returns f(t)/f28 = t/(a + b t), t in days, moist cured near 20 °C.
// f(28)/f28 is not exactly 1. Range: LeastAge to MostAge. Source: ACI 209R-92
// eq. 2-1 (constants from memory; 4.0, 0.85 second-hand).
func (c ACI209) Ratio(age EquivalentAge) (float64, error) {
	if err := errors.Join(chosen("curve", uint8(c), uint8(TypeIIISteam)), ageCheck(age)); err != nil {
		return 0, err
	}
	t := age.Days()
	return t / (aci209[c].a + aci209[c].b*t), nil
}

// EarliestAge returns the age at which the ratio is reached, t = a r/(1 − b r),
// never before LeastAge. A ratio that is not reached by MostAge is an error.
func (c ACI209) EarliestAge(ratio float64) (EquivalentAge, error) {
	if err := chosen("curve", uint8(c), uint8(TypeIIISteam)); err != nil {
		return 0, err
	}
	most, err := c.Ratio(EquivalentAge(MostAge))
	if err := errors.Join(err, above("strength ratio", ratio, 0, most, "")); err != nil {
		return 0, err
	}
	return notBefore(min(aci209[c].a*ratio/(1-aci209[c].b*ratio), days(MostAge))), nil
}

// CementClass is the strength class of the cement of EN 1992-1-1 3.1.2(6); the
// zero value is an error.
type CementClass uint8

// Rapid, normal and slow: s = 0.20, 0.25, 0.38.
const (
	ClassUnset CementClass = iota
	ClassR
	ClassN
	ClassS
)

var en1992S = [...]float64{ClassR: 0.20, ClassN: 0.25, ClassS: 0.38}

// CementClassOf reads R, N or S; anything else is ClassUnset.
func CementClassOf(letter string) CementClass {
	return map[string]CementClass{"R": ClassR, "N": ClassN, "S": ClassS}[letter]
}

// Rate is s of the class, by which [CementClass.Beta] grows; 0 of ClassUnset.
func (c CementClass) Rate() float64 { return en1992S[c] }

func (c CementClass) check() error { return chosen("cement class", uint8(c), uint8(ClassS)) }

// EN1992Source is the source of the EN 1992 curves.
func EN1992Source() Source { return Source{"EN 1992-1-1:2004 3.1.2(6)", Read} }

// Beta returns βcc = exp(s (1 − √(28/t))), t in days at a mean 20 °C; for any
// other history t is the equivalent age, see [MC90]. fcm(t) = βcc fcm.
// Range: LeastAge to MostAge. Source: EN 1992-1-1:2004 3.1.2(6) (read).
func (c CementClass) Beta(age EquivalentAge) (float64, error) {
	if err := errors.Join(c.check(), ageCheck(age)); err != nil {
		return 0, err
	}
	return math.Exp(en1992S[c] * (1 - math.Sqrt(28/age.Days()))), nil
}

// EarliestAge returns the age at which βcc reaches a ratio,
// t = 28/(1 − ln r/s)², never before LeastAge (derived from Beta). A ratio that
// is not reached by MostAge is an error.
func (c CementClass) EarliestAge(ratio float64) (EquivalentAge, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	most, err := c.Beta(EquivalentAge(MostAge))
	if err := errors.Join(err, above("strength ratio", ratio, 0, most, "")); err != nil {
		return 0, err
	}
	root := 1 - math.Log(ratio)/en1992S[c]
	return notBefore(min(28/(root*root), days(MostAge))), nil
}

// Strength range of EN 1992-1-1, C12 to C90, characteristic, kPa.
const leastStrength, mostStrength = 12 * mpa, 90 * mpa

func strengthCheck(fck units.Pressure) error {
	return within("characteristic strength", float64(fck)/mpa, leastStrength/mpa, mostStrength/mpa, "MPa")
}

// meanOver is fcm − fck: 8 MPa (EN 1992-1-1 table 3.1, memory).
const meanOver = 8 * mpa

// MeanAt returns fcm(t) = βcc(t) (fck + 8 MPa), kPa. Range: fck 12 to 90 MPa,
// LeastAge to MostAge. Source: EN 1992-1-1 3.1.2(6) (read), the 8 MPa from
// memory.
func (c CementClass) MeanAt(fck units.Pressure, age EquivalentAge) (units.Pressure, error) {
	beta, err := c.Beta(age)
	if err := errors.Join(err, strengthCheck(fck)); err != nil {
		return 0, err
	}
	return units.Pressure(beta * (float64(fck) + meanOver)), nil
}

// CharacteristicAt returns the characteristic strength at an age, kPa:
// fck(t) = fcm(t) − 8 MPa for 3 d < t < 28 d, and fck from 28 d on. At 3 d and
// before, EN 1992-1-1 asks for tests, and this is an error; so it is where the
// value is not above zero. Source: EN 1992-1-1 3.1.2(5) (memory).
func (c CementClass) CharacteristicAt(fck units.Pressure, age EquivalentAge) (units.Pressure, error) {
	mean, err := c.MeanAt(fck, age)
	switch {
	case err != nil:
		return 0, err
	case age.Days() <= 3:
		return 0, outsideBecause("at an equivalent age of %.3g d: up to 3 days only tests give the characteristic strength", age.Days())
	case age.Days() >= 28:
		return fck, nil
	case mean <= meanOver:
		return 0, outsideBecause("at %.4g d the mean strength of %v leaves no characteristic strength", age.Days(), amount{float64(mean) / mpa, "MPa"})
	}
	return mean - meanOver, nil
}

// TensileRatio returns fctm(t)/fctm = βcc^α, α = 1 before 28 d and 2/3 from
// then on. Source: EN 1992-1-1 3.1.2(9) (read).
func (c CementClass) TensileRatio(age EquivalentAge) (float64, error) {
	beta, err := c.Beta(age)
	if err != nil {
		return 0, err
	}
	if age.Days() < 28 {
		return beta, nil
	}
	return math.Pow(beta, 2.0/3), nil
}

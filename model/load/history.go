package load

import (
	"errors"
	"fmt"

	"boxwalk/model/units"
)

// Spell is a time at one mean concrete temperature.
type Spell struct {
	For units.Duration    // s
	At  units.Temperature // °C, mean over the spell
}

// History is what a pour went through from placing on, spell after spell. A
// mean over a spell in which the temperature swings widely gives too little
// age by a convex rate and too much where the datum cuts; keep spells short.
type History []Spell

// Steady returns a history at one temperature.
func Steady(t units.Temperature, d units.Duration) History { return History{{d, t}} }

const mostSpells = 100000

// Duration returns the length of the history.
func (h History) Duration() units.Duration {
	total := units.Duration(0)
	for _, s := range h {
		total += s.For
	}
	return total
}

// check refuses an empty history and any spell outside the temperatures.
func (h History) check(least, most units.Temperature) error {
	if len(h) == 0 || len(h) > mostSpells {
		return outsideBecause("a history needs 1 to %d spells, has %d", mostSpells, len(h))
	}
	for i, s := range h {
		err := errors.Join(
			within("length", float64(s.For)/hour, 0, float64(MostAge)/hour, "h"),
			within("temperature", float64(s.At), float64(least), float64(most), "°C"))
		if err != nil {
			return fmt.Errorf("spell %d: %w", i+1, err)
		}
	}
	return nil
}

// Covers refuses a history that ends before an age, by more than rounding.
func (h History) Covers(age units.Duration) error {
	if have := h.Duration(); have < age*(1-1e-12) {
		return outsideBecause("the temperatures end %.4g h after casting; the age is %.4g h", float64(have)/hour, float64(age)/hour)
	}
	return nil
}

// Until is the part of a history before a time.
func (h History) Until(end units.Duration) History {
	var part History
	for _, s := range h {
		if end <= 0 {
			break
		}
		s.For = min(s.For, end)
		end -= s.For
		part = append(part, s)
	}
	return part
}

// total adds up what the spells are worth, each second at its rate.
func (h History) total(rate func(units.Temperature) float64) float64 {
	sum := 0.0
	for _, s := range h {
		sum += float64(s.For) * rate(s.At)
	}
	return sum
}

// reach returns when the total reaches a need; ok is false when it does not.
func (h History) reach(need float64, rate func(units.Temperature) float64) (at units.Duration, ok bool) {
	sum := 0.0
	for _, s := range h {
		r := rate(s.At)
		if gain := float64(s.For) * r; sum+gain < need {
			sum += gain
			at += s.For
			continue
		}
		if need > sum {
			at += units.Duration((need - sum) / r)
		}
		return at, true
	}
	return 0, false
}

func (h History) tooShort(need, got float64, unit string) error {
	return outsideBecause("the history of %.4g h gives %.6g of the %.6g %s asked for", float64(h.Duration())/hour, got, need, unit)
}

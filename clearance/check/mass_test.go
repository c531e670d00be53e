package check

import (
	"fmt"
	"math"
	"math/rand"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
)

// heavy are the checks that more mass makes no easier, of one bay.
func heavy(b *bay, s *model.Study) []Judged {
	r := b.onTheWay(s)
	out := append(b.jackChecks(s), b.liftChecks(s)...)
	out = append(out, r.pullChecks(nil)...)
	return append(append(out, r.wheelChecks(nil)...), r.bearingCheck())
}

// unstated leaves out what the worked gear says of its headers and sills.
var unstated = [][2]string{{"    mass: 26.4\n", ""}, {"  sill_mass: 18.8\n", ""}}

func TestWhatIsNotStatedIsTakenAtItsHeavyEnd(t *testing.T) {
	stated := byHand(t, chain{Gear: "roof-halves-24"}, 0, heavy)
	guessed := byHand(t, chain{Gear: "roof-halves-24", Swap: unstated}, 0, heavy)
	// two headers of 2.00 m, 120 x 140, and two sills of 2.40 m, 120 x 100, at 0.40
	// of their envelope instead of 26.4 and 18.8 kg/m
	more := 9.80665e-3 * (2*2.00*(0.4*7850*0.120*0.140-26.4) + 2*2.40*(0.4*7850*0.120*0.100-18.8))
	a, b := stated["jack, worst three"].Value.Lower, guessed["jack, worst three"].Value.Lower
	if math.Abs(b-a-more/2) > 1e-3 {
		t.Errorf("%.3f kN and %.3f, want %.3f more", a, b, more/2)
	}
	says(t, guessed["jack, worst three"], "at most", "guessed")
}

func TestTippingTakesTheHighestAndNearestCentre(t *testing.T) {
	tip := func(swap [][2]string) float64 {
		e := byHand(t, chain{Gear: "roof-halves-24", Swap: swap}, 0, func(b *bay, s *model.Study) []Judged { return b.onTheWay(s).tipChecks(nil) })
		return e["across"].Value.Lower
	}
	// a sill that may be light leaves the panels above it the greater part
	light := [][2]string{{"  sill_mass: 18.8\n", "  sill_mass: 7.536\n"}} // 0.08 of the envelope
	if open, least := tip([][2]string{{"  sill_mass: 18.8\n", ""}}), tip(light); math.Abs(open-least) > 1e-6*least {
		t.Errorf("restoring over overturning %.3f where the sill's mass is not stated, %.3f where it is the least", open, least)
	}
}

func TestTheShareThatIsGuessedStandsInTheResult(t *testing.T) {
	c := chain{Gear: "roof-halves-24"}
	guess := func(swap ...[2]string) float64 {
		c.Swap = swap
		return massRows(c.Study(t))[0].Guessed
	}
	some, more := guess(), guess(unstated...)
	if !(some > 0 && some < 0.2 && more > some) {
		t.Errorf("%.3f guessed, %.3f where more is not stated", some, more)
	}
	// weighed, and nothing on it: all is known
	if all := guess([2]string{"steps:", "mass: {total: 4000 kg, extra: 0}\nsteps:"}); all != 0 {
		t.Errorf("%.3f guessed of a carrier that was weighed", all)
	}
	r := Run(c.Study(t), Options{Version: "test", Only: []string{"setup"}})
	if len(r.Masses) != 2 || r.Masses[0].State != "raised" || r.Masses[0].Mass != (result.Between(4000, 4000)) {
		t.Errorf("%v", r.Masses)
	}
}

// loadIn finds the last number before "a wheel carries" and the like, and the
// capacity behind it.
var loadIn = regexp.MustCompile(`([\d.]+) kN; a (?:wheel|jack|lifting jack) carries ([\d.]+) kN`)

// variation is the worked gear with capacities and masses of its own.
func variation(r *rand.Rand) [][2]string {
	kn := func(most float64) string { return fmt.Sprintf("%.1f kN", most*r.Float64()*r.Float64()) }
	kg := func(key string, value float64) [2]string {
		if r.Intn(3) == 0 {
			return [2]string{key + fmt.Sprintf("%.1f\n", value), ""}
		}
		return [2]string{key + fmt.Sprintf("%.1f\n", value), key + fmt.Sprintf("%.1f\n", value*(0.5+2*r.Float64()))}
	}
	return [][2]string{
		{"screw: 60 mm, capacity: 60 kN", "screw: 60 mm, capacity: " + kn(60)}, {"capacity: 75 kN, side", "capacity: " + kn(75) + ", side"},
		{"capacity: 60 kN, stroke", fmt.Sprintf("capacity: %.1f kN, stroke", 0.1+60*r.Float64())},
		kg("  sill_mass: ", 18.8), kg("    outer_mass: ", 22.6), kg("    mass: ", 26.4),
		{"steps:", fmt.Sprintf("mass: {extra: %d}\nsteps:", r.Intn(40))},
	}
}

func TestNoPassHasACapacityBelowItsOwnLoad(t *testing.T) {
	r := rand.New(rand.NewSource(10))
	said, failed := 0, 0
	for range worked.Campaign(60, 300) {
		c := chain{Gear: "roof-halves-24", Swap: variation(r)}
		for rest, e := range byHand(t, c, 0, heavy) {
			if e.Unit == "kN" && e.Verdict == result.Pass && (e.Limit == nil || e.Value == nil || e.Value.Upper > *e.Limit) {
				t.Errorf("%s passes: %s", rest, e.Text)
			}
			m := loadIn.FindStringSubmatch(e.Text)
			if m == nil {
				continue
			}
			load, _ := strconv.ParseFloat(m[1], 64)
			have, _ := strconv.ParseFloat(m[2], 64)
			said++
			if e.Verdict == result.Fail {
				failed++
			}
			if e.Verdict == result.Pass && load > have {
				t.Errorf("%s passes with %g of %g: %s", rest, load, have, e.Text)
			}
		}
	}
	if said < worked.Campaign(200, 1000) || failed < worked.Campaign(20, 100) {
		t.Errorf("%d sentences with load and capacity, %d of them failing", said, failed)
	}
}

func TestMoreMassTurnsNoFailIntoAPass(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	for range worked.Campaign(30, 150) {
		swap := variation(r)
		last := &swap[len(swap)-1]
		grade := fmt.Sprintf("alignment: {grade: %.2f %%}\ntravel: {capacity: %.2f kN, restraint: {capacity: %.2f kN}}", 8*r.Float64()-4, 0.1+3*r.Float64(), 0.1+2*r.Float64())
		c := chain{Gear: "roof-halves-24", Swap: swap, Jobs: [][2]string{{"travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}", grade}}}
		light := byHand(t, c, 0, heavy)
		last[1] = strings.Replace(last[1], "extra: ", "extra: 1", 1) // by 10 to 100 kg/m2
		for rest, e := range byHand(t, c, 0, heavy) {
			if e.Unit == "kN" && e.Verdict == result.Pass && light[rest].Verdict != result.Pass {
				t.Errorf("%s passes with more on it: %s; before: %s", rest, e.Text, light[rest].Text)
			}
			if was := light[rest]; e.Unit == "kN" && e.Value != nil && was.Value != nil && e.Value.Lower < was.Value.Lower-1e-9 {
				t.Errorf("%s: %v, with more on it %v", rest, was.Value, e.Value)
			}
		}
	}
}

// Over a grade break the ride takes the centre of gravity wherever it may be.
func TestWhatIsNotKnownOfTheCentreCountsForTheWayItStands(t *testing.T) {
	s := worked.OnRoute(winding).Study(t)
	b := inspected(s, 0)
	last := b.Steps[len(b.Steps)-1]
	w := b.Carrier.Weigh(last.PresentAfter, last.Pose)
	c := b.Carriage(last)
	const rounding = 1e-12
	if c.Centre-c.Uncertain > w.Least[0]-measure.CentreUncertain+rounding || c.Centre+c.Uncertain < w.Most[0]+measure.CentreUncertain-rounding {
		t.Errorf("%v +- %v does not hold %v to %v and what lies on the deck", c.Centre, c.Uncertain, w.Least[0], w.Most[0])
	}
}

package frame

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

func spans(n int) []Loading {
	out := []Loading{{}}
	for i := range n {
		out = append(out, Evenly(units.Length(i), units.Length(i+1), 1))
	}
	return out
}

// Common tables of continuous beams (from memory): three equal spans, live load
// where it is worst: 0.1013 in an end span, 0.075 in the middle one, −0.1167 over
// a support, reactions 0.45 and 1.2; four spans −0.1205 and end span 0.0996.
func TestWorstSpansOfTables(t *testing.T) {
	r := must(equal(3).Solve(spans(3)...))
	e := must(EachOrNot(r[0], r[1:]...))
	nearBy(t, "end span", float64(e.Moment.Most.Value), 0.1013, 0.6e-4)
	nearBy(t, "support", float64(e.Moment.Least.Value), -0.1167, 0.6e-4)
	nearTo(t, "support", float64(e.Moment.Least.Value), -7/60.0)
	nearTo(t, "end reaction", float64(e.Supports[0].Most), 0.45)
	nearTo(t, "end reaction", float64(e.Supports[0].Least), -0.05)
	nearTo(t, "inner reaction", float64(e.Supports[1].Most), 1.2)
	middle := only(equal(3).Solve(Evenly(1, 2, 1)))
	nearTo(t, "middle", float64(middle.Moment().Most.Value), 0.075)
	r = must(equal(4).Solve(spans(4)...))
	e = must(EachOrNot(r[0], r[1:]...))
	nearBy(t, "support of four", float64(e.Moment.Least.Value), -0.1205, 0.6e-4)
	nearBy(t, "end span of four", float64(e.Moment.Most.Value), 0.0996, 0.6e-4)
}

// The envelope at once is that of all 2ⁿ choices one by one.
func TestEnvelopeIsTheWorstOfAllChoices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		var cases []Loading
		for range rapid.IntRange(1, 5).Draw(t, "cases") {
			cases = append(cases, drawLoading(t, b.Length()))
		}
		r := must(b.Solve(cases...))
		e := must(EachOrNot(r[0], r[1:]...))
		var by Envelope
		for choice := range 1 << (len(r) - 1) {
			on := r[0]
			for i, m := range r[1:] {
				if choice>>i&1 == 1 {
					on = must(on.Plus(m, 1))
				}
			}
			one := must(EachOrNot(on))
			if choice == 0 {
				by = one
			} else if err := by.join(on); err != nil {
				t.Fatal(err)
			}
		}
		alike(t, "moment", float64(e.Moment.Most.Value), float64(by.Moment.Most.Value), 1e-10)
		alike(t, "moment", float64(e.Moment.Least.Value), float64(by.Moment.Least.Value), 1e-10)
		alike(t, "shear", float64(e.Shear.Most.Value), float64(by.Shear.Most.Value), 1e-10)
		alike(t, "shear", float64(e.Shear.Least.Value), float64(by.Shear.Least.Value), 1e-10)
		alike(t, "deflection", float64(e.Deflection.Most.Value), float64(by.Deflection.Most.Value), 1e-10)
		alike(t, "deflection", float64(e.Deflection.Least.Value), float64(by.Deflection.Least.Value), 1e-10)
		for i := range e.Supports {
			alike(t, "reaction", float64(e.Supports[i].Most), float64(by.Supports[i].Most), 1e-10)
			alike(t, "reaction", float64(e.Supports[i].Least), float64(by.Supports[i].Least), 1e-10)
		}
		for i := range e.Links {
			alike(t, "link", float64(e.Links[i].Most), float64(by.Links[i].Most), 1e-10)
		}
	})
}

// Placed from the left, three spans see: one loaded, two, all. The first end
// lifts off the far support by 1/60 with one, 1/30 with two... and at most.
func TestStagesInOrder(t *testing.T) {
	r := must(equal(3).Solve(spans(3)[1:]...))
	e := must(InOrder(r...))
	nearTo(t, "support", float64(e.Moment.Least.Value), -7/60.0)  // two loaded
	nearTo(t, "far end", float64(e.Supports[3].Least), -1/30.0)   // two loaded
	nearTo(t, "far end", float64(e.Supports[3].Most), 0.4)        // all
	nearTo(t, "near end", float64(e.Supports[0].Most), 13/30.0)   // one
	all := must(EachOrNot(only(equal(3).Solve(spans(3)[1:]...)))) // one stage alone
	if all.Moment.Most.Value > e.Moment.Most.Value+1e-12 {
		t.Error("a stage is beyond the envelope")
	}
}

func TestStagesStayWithinEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		r := must(b.Solve(Loading{}, drawLoading(t, b.Length()), drawLoading(t, b.Length()), drawLoading(t, b.Length())))
		each, order := must(EachOrNot(r[0], r[1:]...)), must(InOrder(r...))
		slack := 1e-9 * (1 + math.Abs(float64(each.Moment.Most.Value)) + math.Abs(float64(each.Moment.Least.Value)))
		if float64(order.Moment.Most.Value) > float64(each.Moment.Most.Value)+slack || float64(order.Moment.Least.Value) < float64(each.Moment.Least.Value)-slack {
			t.Fatalf("in order %v, by choice %v", order.Moment, each.Moment)
		}
	})
}

func TestResponsesOfTwoBeamsAreNotCombined(t *testing.T) {
	two, three := only(equal(2).Solve(Evenly(0, 1, 1))), only(equal(3).Solve(Evenly(0, 1, 1)))
	if _, err := EachOrNot(two, three); !errors.Is(err, load.ErrRange) {
		t.Errorf("error %v", err)
	}
	if _, err := two.Plus(three, 1); !errors.Is(err, load.ErrRange) {
		t.Errorf("error %v", err)
	}
	if _, err := InOrder(); !errors.Is(err, load.ErrRange) {
		t.Errorf("error %v", err)
	}
	if _, err := EachOrNot(Response{}); !errors.Is(err, load.ErrRange) {
		t.Errorf("error %v", err)
	}
}

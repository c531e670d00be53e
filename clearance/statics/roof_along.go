package statics

import (
	"math"
	"slices"

	"boxwalk/model/carrier"
	"boxwalk/model/frame"
	"boxwalk/model/units"
)

// Effect is what loads of one unit do to a beam over the bents, any of them on or off:
// the greatest moment and shear, either way, the greatest sag times E I, and of every
// bent what comes down on it at most, at least, and with all of them on.
type Effect struct {
	Moment, Shear, Sag float64
	Most, Least, All   []float64
}

// Along is a beam of one stiffness over all bents, as long as the form: the effects of 1
// kN/m on its spans where the pour lies and where it does not, span by span, and of 1 kN
// at each end of the pour.
type Along struct{ In, Out, Ends Effect }

// alongOf solves the beam; rear and front are the ends of the pour.
func alongOf(c *carrier.Carrier, rear, front float64, k *Kept) (Along, error) {
	long := float64(c.Gear.Form.Length)
	beam := frame.Beam{Stretches: []frame.Stretch{{Length: units.Length(long), EI: 1}}}
	for _, x := range c.Bents {
		beam.Supports = append(beam.Supports, frame.Pin(units.Length(x-c.Rear)))
	}
	rear, front = clamped(rear-c.Rear, long), clamped(front-c.Rear, long)
	loads := []frame.Loading{{}}
	var in, out, ends []int
	for _, p := range patches(c, long, rear, front) {
		set := &out
		if mid := (p[0] + p[1]) / 2; mid > rear && mid < front {
			set = &in
		}
		*set = append(*set, len(loads))
		loads = append(loads, frame.Evenly(units.Length(p[0]), units.Length(p[1]), 1))
	}
	for _, x := range []float64{rear, front} {
		ends = append(ends, len(loads))
		loads = append(loads, frame.Loading{Points: []frame.PointLoad{{At: units.Length(x), Down: 1}}})
	}
	solved, err := k.Solve(beam, loads...)
	if err != nil {
		return Along{}, err
	}
	var a Along
	for _, set := range []struct {
		of  []int
		out *Effect
	}{{in, &a.In}, {out, &a.Out}, {ends, &a.Ends}} {
		if *set.out, err = effectOf(solved, set.of); err != nil {
			return Along{}, err
		}
	}
	return a, nil
}

func clamped(x, long float64) float64 { return math.Max(0, math.Min(long, x)) }

// patches are the spans, cut where the pour ends.
func patches(c *carrier.Carrier, long, rear, front float64) [][2]float64 {
	cuts := []float64{0, long, rear, front}
	for _, x := range c.Bents {
		cuts = append(cuts, x-c.Rear)
	}
	slices.Sort(cuts)
	var out [][2]float64
	for i := 1; i < len(cuts); i++ {
		if cuts[i]-cuts[i-1] > 1e-6 {
			out = append(out, [2]float64{cuts[i-1], cuts[i]})
		}
	}
	return out
}

// effectOf are some of the solved loadings, each on or off; the first is none at all.
func effectOf(solved []frame.Response, of []int) (Effect, error) {
	n := len(solved[0].Supports)
	e := Effect{Most: make([]float64, n), Least: make([]float64, n), All: make([]float64, n)}
	if len(of) == 0 {
		return e, nil
	}
	var may []frame.Response
	for _, i := range of {
		may = append(may, solved[i])
		for b, s := range solved[i].Supports {
			e.All[b] += float64(s.Up)
		}
	}
	env, err := frame.EachOrNot(solved[0], may...)
	if err != nil {
		return e, err
	}
	e.Moment = math.Max(float64(env.Moment.Most.Value), -float64(env.Moment.Least.Value))
	e.Shear = math.Max(float64(env.Shear.Most.Value), -float64(env.Shear.Least.Value))
	e.Sag = math.Max(float64(env.Deflection.Most.Value), -float64(env.Deflection.Least.Value))
	for b, s := range env.Supports {
		e.Most[b], e.Least[b] = float64(s.Most), float64(s.Least)
	}
	return e, nil
}

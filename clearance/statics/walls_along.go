package statics

import (
	"math"
	"slices"

	"boxwalk/model/frame"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Run is what a row of props along a form takes of a unit load on their waler where
// concrete presses: a continuous beam over them, so that edges have their due.
type Run struct {
	At     []float64 // m, in the frame of cell and pour
	From   float64   // m, where concrete presses
	To     float64
	Takes  []float64 // m of the load that each prop takes
	Worst  int       // the prop that takes most
	Moment float64   // m², the greatest of a unit load, either way
	Shear  float64   // m
	Sag    float64   // m⁴, E I times the greatest deflection, either way
}

// runOf is a form from rear on of some length over props, pressed on between two
// places. None where nothing presses or nothing holds.
func runOf(rear, length float64, at []float64, from, to float64, k *Kept) (*Run, error) {
	r := &Run{At: at, From: math.Max(from, rear), To: math.Min(to, rear+length)}
	if len(at) == 0 || r.To-r.From < 1e-6 {
		return nil, nil
	}
	if len(at) == 1 { // it holds all, and what turns about it is left to what the panels hang on
		long := r.To - r.From
		r.Takes, r.Shear = []float64{long}, math.Max(at[0]-r.From, r.To-at[0])
		r.Moment = r.Shear * r.Shear / 2
		r.Sag = r.Shear * r.Shear * r.Shear * r.Shear / 8
		return r, nil
	}
	beam := frame.Beam{Stretches: []frame.Stretch{{Length: units.Length(length), EI: 1}}}
	for _, x := range at {
		beam.Supports = append(beam.Supports, frame.Pin(units.Length(x-rear)))
	}
	out, err := k.Solve(beam, frame.Evenly(units.Length(r.From-rear), units.Length(r.To-rear), load.LineLoad(1)))
	if err != nil {
		return nil, err
	}
	r.take(out[0])
	return r, nil
}

func (r *Run) take(a frame.Response) {
	for i, s := range a.Supports {
		r.Takes = append(r.Takes, math.Max(0, float64(s.Up)))
		if r.Takes[i] > r.Takes[r.Worst] {
			r.Worst = i
		}
	}
	m, v, d := a.Moment(), a.Shear(), a.Deflection()
	r.Moment = math.Max(-float64(m.Least.Value), float64(m.Most.Value))
	r.Shear = math.Max(-float64(v.Least.Value), float64(v.Most.Value))
	r.Sag = math.Max(-float64(d.Least.Value), float64(d.Most.Value))
}

// Most is what the prop that takes most has, m.
func (r *Run) Most() float64 { return r.Takes[r.Worst] }

// distinct are places in order, those within a millimetre once.
func distinct(at []float64) []float64 {
	at = slices.Clone(at)
	slices.Sort(at)
	return slices.CompactFunc(at, func(a, b float64) bool { return math.Abs(a-b) < 1e-3 })
}

package frame

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// drawBeam is a beam of up to four stretches and five supports that stands.
func drawBeam(t *rapid.T) Beam {
	number := func(least, most float64, what string) float64 { return rapid.Float64Range(least, most).Draw(t, what) }
	var b Beam
	for range rapid.IntRange(1, 4).Draw(t, "stretches") {
		b.Stretches = append(b.Stretches, Stretch{units.Length(number(0.2, 3, "length")), number(10, 1e4, "EI")})
	}
	long, n := b.Length(), rapid.IntRange(2, 5).Draw(t, "supports")
	for i := range n { // each in a part of its own
		at := long * (units.Length(i) + units.Length(number(0.05, 0.95, "at"))) / units.Length(n)
		s := Pin(at)
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			s = Bed(at, number(10, 1e5, "spring"))
		case 1:
			s.Turn.Spring = number(0, 1e4, "turn")
		}
		b.Supports = append(b.Supports, s)
	}
	if rapid.Bool().Draw(t, "link") {
		b.Links = append(b.Links, Link{long * units.Length(number(0, 1, "link at")), number(10, 1e4, "axial"), units.Angle(number(-1, 1, "angle")), units.Length(number(-0.3, 0.3, "arm"))})
	}
	return b
}

func drawLoading(t *rapid.T, long units.Length) Loading {
	number := func(least, most float64, what string) float64 { return rapid.Float64Range(least, most).Draw(t, what) }
	var l Loading
	for range rapid.IntRange(0, 2).Draw(t, "points") {
		l.Points = append(l.Points, PointLoad{long * units.Length(number(0, 1, "at")), units.Force(number(-20, 50, "down")), load.Moment(number(-5, 5, "turn"))})
	}
	for range rapid.IntRange(1, 2).Draw(t, "lines") {
		from := number(0, 0.9, "from")
		to := from + (1-from)*number(0.05, 1, "to")
		l.Lines = append(l.Lines, Distributed{long * units.Length(from), long * units.Length(to), load.LineLoad(number(-5, 40, "start")), load.LineLoad(number(-5, 40, "end"))})
	}
	return l
}

// sums are force, moment about the left end and size of all loads.
func (l Loading) sums() (force, moment, size float64) {
	put := func(f, at, m float64) {
		force, moment, size = force+f, moment+f*at+m, size+math.Abs(f)*(1+at)+math.Abs(m)
	}
	for _, p := range l.Points {
		put(float64(p.Down), float64(p.At), float64(p.Turn))
	}
	for _, q := range l.Lines {
		long := float64(q.To - q.From)
		put(float64(q.Start)*long/2, float64(q.From)+long/3, 0)
		put(float64(q.End)*long/2, float64(q.From)+2*long/3, 0)
	}
	return force, moment, size
}

func TestReactionsBalanceTheLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		l := drawLoading(t, b.Length())
		r := only(b.Solve(l))
		force, moment, size := l.sums()
		for i, s := range b.Supports {
			force, moment = force-float64(r.Supports[i].Up), moment-float64(r.Supports[i].Up)*float64(s.At)-float64(r.Supports[i].Turn)
			size += math.Abs(float64(r.Supports[i].Up)) * (1 + float64(s.At))
		}
		for i, k := range b.Links {
			up, along := float64(r.Links[i])*math.Cos(float64(k.Angle)), float64(r.Links[i])*math.Sin(float64(k.Angle))
			force, moment = force-up, moment-up*float64(k.At)+along*float64(k.Arm)
			size += math.Abs(float64(r.Links[i])) * (1 + float64(k.At))
		}
		if math.Abs(force) > 1e-12*size || math.Abs(moment) > 1e-11*size {
			t.Fatalf("%v kN and %v kN m left of %v", force, moment, size)
		}
	})
}

func TestHalfTheLoadsTwiceAreTheLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		one, two := drawLoading(t, b.Length()), drawLoading(t, b.Length())
		both := Loading{append(append([]PointLoad{}, one.Points...), two.Points...), append(append([]Distributed{}, one.Lines...), two.Lines...)}
		r := must(b.Solve(one, two, both))
		sum := must(r[0].Plus(r[1], 1))
		for i := range sum.Supports {
			alike(t, "reaction", float64(sum.Supports[i].Up), float64(r[2].Supports[i].Up), 1e-9)
		}
		x := b.Length() * units.Length(rapid.Float64Range(0, 1).Draw(t, "x"))
		got, want := must(sum.At(x)), must(r[2].At(x))
		alike(t, "moment", float64(got.Moment), float64(want.Moment), 1e-9)
		alike(t, "deflection", float64(got.Deflection), float64(want.Deflection), 1e-9)
	})
}

func alike(t *rapid.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance*(1+math.Abs(want)) {
		t.Fatalf("%s %.15g, want %.15g", what, got, want)
	}
}

// mirrored is the same from the other end.
func mirrored(b Beam, l Loading) (Beam, Loading) {
	long := b.Length()
	var m Beam
	for i := range b.Stretches {
		m.Stretches = append(m.Stretches, b.Stretches[len(b.Stretches)-1-i])
	}
	for _, s := range b.Supports {
		s.At = long - s.At
		m.Supports = append(m.Supports, s)
	}
	for _, k := range b.Links {
		k.At, k.Angle = long-k.At, -k.Angle
		m.Links = append(m.Links, k)
	}
	var n Loading
	for _, p := range l.Points {
		n.Points = append(n.Points, PointLoad{long - p.At, p.Down, -p.Turn})
	}
	for _, q := range l.Lines {
		n.Lines = append(n.Lines, Distributed{max(0, long-q.To), long - q.From, q.End, q.Start})
	}
	return m, n
}

func TestMirroredBeamDoesTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		l := drawLoading(t, b.Length())
		m, n := mirrored(b, l)
		r, s := only(b.Solve(l)), only(m.Solve(n))
		for i := range r.Supports {
			alike(t, "reaction", float64(s.Supports[i].Up), float64(r.Supports[i].Up), 1e-7)
			alike(t, "couple", -float64(s.Supports[i].Turn), float64(r.Supports[i].Turn), 1e-7)
		}
		alike(t, "moment", float64(s.Moment().Most.Value), float64(r.Moment().Most.Value), 1e-7)
		alike(t, "moment", float64(s.Moment().Least.Value), float64(r.Moment().Least.Value), 1e-7)
		alike(t, "deflection", float64(s.Deflection().Most.Value), float64(r.Deflection().Most.Value), 1e-7)
		alike(t, "shear", -float64(s.Shear().Least.Value), float64(r.Shear().Most.Value), 1e-7)
	})
}

// Lengths times a, loads per length times b: forces a b, moments a² b,
// deflections a⁴ b, with springs scaled as EI/L³.
func TestBeamScalesByItsDimensions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		b.Links = nil
		l := drawLoading(t, b.Length())
		l.Points = nil
		const a, q = 2, 4 // powers of two scale without rounding
		big, more := Beam{}, Loading{}
		for _, s := range b.Stretches {
			big.Stretches = append(big.Stretches, Stretch{a * s.Length, s.EI})
		}
		for _, s := range b.Supports {
			s.At, s.Down.Spring, s.Turn.Spring = a*s.At, s.Down.Spring/(a*a*a), s.Turn.Spring/a
			big.Supports = append(big.Supports, s)
		}
		for _, p := range l.Lines {
			more.Lines = append(more.Lines, Distributed{a * p.From, a * p.To, q * p.Start, q * p.End})
		}
		r, s := only(b.Solve(l)), only(big.Solve(more))
		alike(t, "shear", float64(s.Shear().Most.Value), a*q*float64(r.Shear().Most.Value), 1e-9)
		alike(t, "moment", float64(s.Moment().Most.Value), a*a*q*float64(r.Moment().Most.Value), 1e-9)
		alike(t, "deflection", float64(s.Deflection().Most.Value), a*a*a*a*q*float64(r.Deflection().Most.Value), 1e-9)
	})
}

// A second way to the same number: virtual work. The deflection at a place is
// ∫ M m/EI with m of a unit load there on any part of the structure that stands
// by itself, plus what springs and links give. m here is the whole structure's,
// so springs and links come in as force times force over stiffness. Gauss's rule
// of four points is exact for M m, at most of the sixth degree.
func TestDeflectionIsTheVirtualWork(t *testing.T) {
	points := []float64{0.8611363115940526, 0.3399810435848563}
	weights := []float64{0.3478548451374538, 0.6521451548625461}
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		x := b.Length() * units.Length(rapid.Float64Range(0, 1).Draw(t, "x"))
		r := must(b.Solve(drawLoading(t, b.Length()), Loading{Points: []PointLoad{{At: x, Down: 1}}}))
		work, size := 0.0, 0.0
		add := func(v float64) { work, size = work+v, size+math.Abs(v) }
		for i, p := range r[0].pieces {
			real, unit := p.momentLine(), r[1].pieces[i].momentLine()
			for k, at := range points {
				for _, sign := range []float64{-1, 1} {
					s := (1 + sign*at) / 2
					add(weights[k] / 2 * p.long() * real.at(s) * unit.at(s) / p.ei)
				}
			}
		}
		for i, s := range b.Supports {
			if s.Down.Spring > 0 {
				add(float64(r[0].Supports[i].Up) * float64(r[1].Supports[i].Up) / s.Down.Spring)
			}
			if s.Turn.Spring > 0 {
				add(float64(r[0].Supports[i].Turn) * float64(r[1].Supports[i].Turn) / s.Turn.Spring)
			}
		}
		for i, k := range b.Links {
			add(float64(r[0].Links[i]) * float64(r[1].Links[i]) / k.Axial)
		}
		if got := float64(must(r[0].At(x)).Deflection); math.Abs(got-work) > 1e-9*(size+1e-9) {
			t.Fatalf("deflection %.15g, virtual work %.15g of %.3g", got, work, size)
		}
	})
}

// No place between is beyond the extremes, and each extreme is reached.
func TestExtremesBoundEveryPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		r := only(b.Solve(drawLoading(t, b.Length())))
		m, w, v := r.Moment(), r.Deflection(), r.Shear()
		slack := 1e-12 * (math.Abs(float64(m.Most.Value)) + math.Abs(float64(m.Least.Value)) + 1e-9)
		for i := range 201 {
			s := must(r.At(b.Length() * units.Length(i) / 200))
			if float64(s.Moment) > float64(m.Most.Value)+slack || float64(s.Moment) < float64(m.Least.Value)-slack {
				t.Fatalf("moment %v beyond %v", s.Moment, m)
			}
			if s.Deflection > w.Most.Value+1e-15 || s.Deflection < w.Least.Value-1e-15 {
				t.Fatalf("deflection %v beyond %v", s.Deflection, w)
			}
			if float64(s.Shear) > float64(v.Most.Value)+1e-9 || float64(s.Shear) < float64(v.Least.Value)-1e-9 {
				t.Fatalf("shear %v beyond %v", s.Shear, v)
			}
		}
		alike(t, "reached", float64(must(r.At(w.Most.At)).Deflection), float64(w.Most.Value), 1e-12)
	})
}

package statics

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/frame"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Zone is a breadth of the soffit that may be poured and loaded or not, whatever the
// rest is: what of its section, m², and of its breadth, m, comes on each seat. A seat
// that it lifts has less than 0.
type Zone struct {
	From, To    float64
	Area, Width []float64
}

// across brings the soffit to the seats: panels are beams that run over the stringers of
// their strip, which do not give; a filler hangs half on each of its neighbours.
func (r *Roof) across(c *carrier.Carrier, sec culvert.Section) error {
	for _, s := range c.Rests.Stringers {
		if s.On == "" {
			return fmt.Errorf("a stringer %.0f mm from the centreline has no seat: the header's tube ends at %.0f mm", 1e3*s.At, 1e3*float64(c.Gear.Frame.Header.Length)/2)
		}
		for _, sign := range signs(s.Side) {
			r.Seats = append(r.Seats, Seat{At: sign * s.At, On: s.On})
		}
	}
	for _, s := range c.Rests.Strips {
		for _, sign := range signs(s.Side) {
			if err := r.strip(c, sec, s, sign); err != nil {
				return err
			}
		}
	}
	for _, h := range c.Rests.Hung {
		for _, sign := range signs(h.Side) {
			r.hang(c, sec, h, sign)
		}
	}
	r.sum(c)
	return nil
}

// depth is of the concrete over a place of the soffit.
func depth(sec culvert.Section, y float64) float64 {
	over := math.Abs(y) - (sec.HalfSpan - sec.Top.Run)
	if over <= 0 || sec.Top.Run == 0 {
		return sec.Roof
	}
	return sec.Roof + sec.Top.Rise*over/sec.Top.Run
}

// cutsOf are where the depth of a strip bends, its ends, and the places given.
func cutsOf(sec culvert.Section, from, to float64, at ...float64) []float64 {
	toe := sec.HalfSpan - sec.Top.Run
	out := []float64{from}
	for _, y := range append(at, -toe, toe) {
		if y > from+1e-6 && y < to-1e-6 {
			out = append(out, y)
		}
	}
	out = append(out, to)
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
}

// strip solves the panels of a strip over its stringers, zone by zone.
func (r *Roof) strip(c *carrier.Carrier, sec culvert.Section, s carrier.Strip, sign float64) error {
	from, to := s.From, s.To
	if sign < 0 {
		from, to = -s.To, -s.From
	}
	var on []int
	var ways []float64
	beam := frame.Beam{Stretches: []frame.Stretch{{Length: units.Length(to - from), EI: 1}}}
	for i, seat := range r.Seats {
		if !seat.Wall && seat.At > from-1e-6 && seat.At < to+1e-6 {
			on, ways = append(on, i), append(ways, seat.At)
			beam.Supports = append(beam.Supports, frame.Pin(units.Length(seat.At-from)))
		}
	}
	if len(on) < 2 {
		return fmt.Errorf("the roof panels from %.0f to %.0f mm left of the centreline lie on %d stringer: two hold them against turning", 1e3*from, 1e3*to, len(on))
	}
	var loads []frame.Loading
	var zones []Zone
	add := func(z Zone, concrete, breadth frame.Loading) {
		zones, loads = append(zones, z), append(loads, concrete, breadth)
	}
	ends := slices.Clone(ways)
	if s.Side == culvert.Both {
		ends = append(ends, 0)
	}
	ends = append(ends, from, to)
	slices.Sort(ends)
	for i := 1; i < len(ends); i++ {
		if ends[i]-ends[i-1] > 1e-6 {
			concrete, breadth := over(sec, from, ends[i-1], ends[i])
			add(Zone{From: ends[i-1], To: ends[i]}, concrete, breadth)
		}
	}
	for _, f := range fillersAt(c, from, to) {
		point := func(v float64) frame.Loading {
			return frame.Loading{Points: []frame.PointLoad{{At: units.Length(f.at - from), Down: units.Force(v)}}}
		}
		add(Zone{From: f.from, To: f.to}, point(sec.Roof*f.half), point(f.half))
	}
	solved, err := r.kept.Solve(beam, loads...)
	if err != nil {
		return fmt.Errorf("roof panels: %w", err)
	}
	for k, z := range zones {
		z.Area, z.Width = make([]float64, len(r.Seats)), make([]float64, len(r.Seats))
		for j, i := range on {
			z.Area[i], z.Width[i] = float64(solved[2*k].Supports[j].Up), float64(solved[2*k+1].Supports[j].Up)
		}
		r.Zones = append(r.Zones, z)
	}
	return nil
}

// over is the concrete of unit weight 1 and the load of 1 over a breadth of a strip that
// begins at from.
func over(sec culvert.Section, from, a, b float64) (concrete, breadth frame.Loading) {
	cuts := cutsOf(sec, a, b)
	for i := 1; i < len(cuts); i++ {
		lo, hi := units.Length(cuts[i-1]-from), units.Length(cuts[i]-from)
		concrete.Lines = append(concrete.Lines, frame.Distributed{From: lo, To: hi, Start: load.LineLoad(depth(sec, cuts[i-1])), End: load.LineLoad(depth(sec, cuts[i]))})
	}
	return concrete, frame.Evenly(units.Length(a-from), units.Length(b-from), 1)
}

// area is of the concrete in section over a breadth of the soffit.
func area(sec culvert.Section, a, b float64) float64 {
	var sum float64
	cuts := cutsOf(sec, a, b)
	for i := 1; i < len(cuts); i++ {
		sum += (depth(sec, cuts[i-1]) + depth(sec, cuts[i])) / 2 * (cuts[i] - cuts[i-1])
	}
	return sum
}

// hangsAt is a filler that hangs on an edge with half of its breadth.
type hangsAt struct{ at, from, to, half float64 }

// fillersAt are the fillers beside a breadth, on either side of the centreline.
func fillersAt(c *carrier.Carrier, from, to float64) []hangsAt {
	var out []hangsAt
	for _, f := range c.Rests.Fillers {
		for _, sign := range [2]float64{1, -1} {
			lo, hi := min(sign*f.From, sign*f.To), max(sign*f.From, sign*f.To)
			if math.Abs(hi-from) < 1e-6 {
				out = append(out, hangsAt{from, lo, hi, (hi - lo) / 2})
			}
			if math.Abs(lo-to) < 1e-6 {
				out = append(out, hangsAt{to, lo, hi, (hi - lo) / 2})
			}
			if lo == -hi {
				break // one in the middle
			}
		}
	}
	return out
}

// hang brings a wall with its share of the soffit to the bents.
func (r *Roof) hang(c *carrier.Carrier, sec culvert.Section, h carrier.Hung, sign float64) {
	from, to := h.From, h.To
	if sign < 0 {
		from, to = -h.To, -h.From
	}
	i := len(r.Seats)
	r.Seats = append(r.Seats, Seat{At: sign * h.At, On: h.On, Wall: true, Dead: r.Weights.Wall, Light: r.Weights.light.Wall})
	add := func(a, b, area, breadth float64) {
		z := Zone{From: a, To: b, Area: make([]float64, i+1), Width: make([]float64, i+1)}
		z.Area[i], z.Width[i] = area, breadth
		r.Zones = append(r.Zones, z)
	}
	if to-from < 1e-6 {
		return
	}
	add(from, to, area(sec, from, to), to-from)
	for _, f := range fillersAt(c, from, to) {
		add(f.from, f.to, sec.Roof*f.half, f.half)
	}
}

// sum is what may come on each seat, and what is always there.
func (r *Roof) sum(c *carrier.Carrier) {
	for i := range r.Seats {
		s := &r.Seats[i]
		if !s.Wall {
			s.Dead, s.Light = r.Weights.Stringer, r.Weights.light.Stringer
		}
		for k := range r.Zones {
			z := &r.Zones[k]
			z.Area, z.Width = padded(z.Area, len(r.Seats)), padded(z.Width, len(r.Seats))
			s.Dead += r.Form * z.Width[i]
			s.Light += r.Weights.light.Soffit / (2 * c.Half) * z.Width[i]
			s.Area, s.Width = s.Area+max(0, z.Area[i]), s.Width+max(0, z.Width[i])
		}
	}
}

func padded(v []float64, n int) []float64 { return append(v, make([]float64, n-len(v))...) }

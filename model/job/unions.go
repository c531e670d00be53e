package job

import (
	"maps"
	"math"
	"slices"

	"boxwalk/model/units"
)

// Cells is how many equal cells there are, or the list of them.
type Cells struct {
	Count int
	List  []Cell
}

// Openings are the clear openings of all cells, from the left.
func (c *Culvert) Openings() []Cell {
	if len(c.Cells.List) > 0 {
		return c.Cells.List
	}
	var out []Cell
	for range c.Cells.Count {
		out = append(out, Cell{Span: c.Span, Rise: c.Rise})
	}
	return out
}

// Pours is the list of pour lengths, or equal pours over a total.
type Pours struct {
	List        []units.Length
	Each, Total units.Length
}

// Lengths of all pours; with {each, total} the last pour takes the rest.
func (p Pours) Lengths() []units.Length {
	if len(p.List) > 0 {
		return p.List
	}
	var out []units.Length
	// a rest below a millimetre is rounding of the total, not a pour
	for rest := p.Total; rest > 1e-3; rest -= p.Each {
		out = append(out, min(rest, p.Each))
	}
	return out
}

// Order is the order in which pours are cast; empty is ahead.
type Order struct{ List []Casting }

// Casting is one pour as it is cast: in all cells together, or in one.
type Casting struct {
	Cell int // 0 for all
	Pour int
}

// Apart tells whether any pour is cast cell by cell.
func (o Order) Apart() bool {
	return slices.ContainsFunc(o.List, func(c Casting) bool { return c.Cell > 0 })
}

// Ranks is each pour's place in the order of casting, from 1, cell by cell.
func (o Order) Ranks(cells, pours int) [][]int {
	out := make([][]int, cells)
	for i := range out {
		out[i] = make([]int, pours)
		for k := range pours {
			out[i][k] = k + 1
		}
		for place, c := range o.List {
			if c.Pour >= 1 && c.Pour <= pours && (c.Cell == 0 || c.Cell == i+1) {
				out[i][c.Pour-1] = place + 1
			}
		}
	}
	return out
}

// Lengths is one length for all, or one each.
type Lengths []units.Length

// At is the i-th length; a single one serves all.
func (l Lengths) At(i int) float64 {
	switch {
	case len(l) == 0:
		return 0
	case len(l) == 1:
		return float64(l[0])
	case i < len(l):
		return float64(l[i])
	}
	return 0
}

// JointSkew is the skew of the joints between pours.
type JointSkew struct {
	Along bool // along the skew of the ends
	Angle units.Angle
}

// SkewAt is the skew of end i of n pours: 0 is the inlet, n the outlet, the
// others are joints. Joints along the skew turn evenly from inlet to outlet.
func (c *Culvert) SkewAt(i, n int) float64 {
	switch {
	case i == 0:
		return float64(c.Skew.Inlet)
	case i == n:
		return float64(c.Skew.Outlet)
	case c.Skew.Joints.Along:
		t := float64(i) / float64(n)
		return math.Atan((1-t)*math.Tan(float64(c.Skew.Inlet)) + t*math.Tan(float64(c.Skew.Outlet)))
	}
	return float64(c.Skew.Joints.Angle)
}

// Target is the reading of an adjuster at the end of a step: a reading by
// itself, or one counted from its raised reading or from the reading at which
// the wheels take over.
type Target struct {
	From string // "", "raised" or "wheels"
	By   units.Length
}

// Turn is the angle of an angle point, positive to the left.
type Turn struct{ Angle units.Angle }

// SortedKeys of a map, so that nothing depends on its order.
func SortedKeys[V any](m map[string]V) []string {
	return slices.Sorted(maps.Keys(m))
}

package frame

import "math/big"

// precision in bits. A beam's equations lose digits as the sixth power of its
// longest to its shortest part; with so many bits none of what is lost is ever
// within a float64, and what is left of a pivot of a mechanism is told from the
// smallest pivot of a beam that stands.
const precision = 512

type number = *big.Float

func exact(x float64) number         { return new(big.Float).SetPrec(precision).SetFloat64(x) }
func add(a, b number) number         { return exact(0).Add(a, b) }
func sub(a, b number) number         { return exact(0).Sub(a, b) }
func mul(a, b number) number         { return exact(0).Mul(a, b) }
func quo(a, b number) number         { return exact(0).Quo(a, b) }
func times(a number, f int) number   { return mul(a, exact(float64(f))) }
func part(a number, n, d int) number { return quo(times(a, n), exact(float64(d))) }

func float(a number) float64 {
	f, _ := a.Float64()
	return f
}

// half is how far a node's numbers reach off the diagonal: two numbers a node,
// each node tied to its neighbours only.
const half = 3

// system is a symmetric band of equations: row i holds the columns i-half to i.
type system struct {
	rows [][half + 1]number
	held []bool // numbers that are 0
}

func newSystem(n int) *system {
	s := &system{rows: make([][half + 1]number, n), held: make([]bool, n)}
	for i := range s.rows {
		for j := range s.rows[i] {
			s.rows[i][j] = exact(0)
		}
	}
	return s
}

// at is the place of a coefficient in the lower half; i ≥ j.
func (s *system) at(i, j int) *number { return &s.rows[i][j-i+half] }

func (s *system) add(i, j int, v number) {
	if i >= j {
		p := s.at(i, j)
		*p = add(*p, v)
	}
}

// factor turns the band into L D Lᵀ, leaving out what is held. It reports
// whether nothing can move freely.
func (s *system) factor() bool {
	for i := range s.rows {
		if s.held[i] {
			continue
		}
		whole := *s.at(i, i)
		for j := max(0, i-half); j <= i; j++ {
			if s.held[j] {
				continue
			}
			v := *s.at(i, j)
			for k := max(0, i-half, j-half); k < j; k++ {
				if !s.held[k] {
					v = sub(v, mul(mul(*s.at(i, k), *s.at(j, k)), *s.at(k, k)))
				}
			}
			if j < i {
				v = quo(v, *s.at(j, j))
			}
			*s.at(i, j) = v
		}
		if !stands(*s.at(i, i), whole) {
			return false
		}
	}
	return true
}

// stands tells a pivot from what rounding leaves of 0.
func stands(pivot, whole number) bool {
	return pivot.Sign() > 0 && pivot.MantExp(nil)-whole.MantExp(nil) > -400
}

// solve returns the numbers that answer a right-hand side.
func (s *system) solve(right []number) []number {
	x := make([]number, len(right))
	for i := range x {
		x[i] = exact(0)
		if s.held[i] {
			continue
		}
		v := right[i]
		for k := max(0, i-half); k < i; k++ {
			if !s.held[k] {
				v = sub(v, mul(*s.at(i, k), x[k]))
			}
		}
		x[i] = v
	}
	for i := range x {
		if !s.held[i] {
			x[i] = quo(x[i], *s.at(i, i))
		}
	}
	for i := len(x) - 1; i >= 0; i-- {
		for k := i + 1; k <= min(i+half, len(x)-1); k++ {
			if !s.held[i] && !s.held[k] {
				x[i] = sub(x[i], mul(*s.at(k, i), x[k]))
			}
		}
	}
	return x
}

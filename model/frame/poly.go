package frame

// poly is a polynomial, constant first.
type poly []float64

func (p poly) at(t float64) float64 {
	v := 0.0
	for i := len(p) - 1; i >= 0; i-- {
		v = v*t + p[i]
	}
	return v
}

// slope is the derivative.
func (p poly) slope() poly {
	if len(p) < 2 {
		return nil
	}
	out := make(poly, len(p)-1)
	for i := range out {
		out[i] = float64(i+1) * p[i+1]
	}
	return out
}

func (p poly) plus(q poly) poly {
	out := make(poly, max(len(p), len(q)))
	copy(out, p)
	for i, c := range q {
		out[i] += c
	}
	return out
}

// turns are both ends and each place between where the polynomial may turn.
func (p poly) turns(from, to float64) []float64 {
	return append(append([]float64{from}, p.slope().roots(from, to)...), to)
}

// roots are the places strictly between from and to where the sign changes, in
// order. Between two turns a polynomial changes sign at most once, so the roots
// of the derivative, found the same way, part them.
func (p poly) roots(from, to float64) []float64 {
	if len(p) < 2 {
		return nil
	}
	var out []float64
	places := p.turns(from, to)
	for i := 1; i < len(places); i++ {
		a, b := places[i-1], places[i]
		fa, fb := p.at(a), p.at(b)
		switch {
		case fb == 0 && b < to:
			out = append(out, b)
		case fa < 0 && fb > 0 || fa > 0 && fb < 0:
			out = append(out, p.between(a, b, fa < 0))
		}
	}
	return out
}

// between halves down to the last bit.
func (p poly) between(a, b float64, rising bool) float64 {
	for {
		middle := (a + b) / 2
		if middle <= a || middle >= b {
			return middle
		}
		if (p.at(middle) < 0) == rising {
			a = middle
		} else {
			b = middle
		}
	}
}

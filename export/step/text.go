package step

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"boxwalk/model/geom"
)

// perMillimetre is what lengths are rounded to, a picometre: far below what modelling
// programs call the same point (accuracy), so that faces stay plane.
const perMillimetre = 1e9

// number is a length in mm, or a share, as a REAL.
func number(v float64) string { return exactly(math.Round(v*perMillimetre) / perMillimetre) }

// exactly is a REAL with all its digits: a decimal point always, an upper-case E.
func exactly(v float64) string {
	if v == 0 {
		return "0."
	}
	s := strconv.FormatFloat(v, 'G', -1, 64)
	mantissa, exponent, scaled := strings.Cut(s, "E")
	if !strings.Contains(mantissa, ".") {
		mantissa += "."
	}
	if scaled {
		return mantissa + "E" + exponent
	}
	return mantissa
}

func numbers(v geom.Vec) string {
	return "(" + number(v[0]) + "," + number(v[1]) + "," + number(v[2]) + ")"
}

// text is a STRING: quotes doubled, what is not ASCII by its number.
func text(s string) string {
	var b strings.Builder
	b.WriteByte('\'')
	for _, r := range s {
		switch {
		case r == '\'':
			b.WriteString("''")
		case r == '\\':
			b.WriteString(`\\`)
		case r >= ' ' && r <= '~':
			b.WriteRune(r)
		case r > 0xffff:
			fmt.Fprintf(&b, `\X4\%08X\X0\`, r)
		default:
			fmt.Fprintf(&b, `\X2\%04X\X0\`, r)
		}
	}
	b.WriteByte('\'')
	return b.String()
}

// list is an aggregate of instances.
func list(ids ...id) string {
	out := make([]string, len(ids))
	for i, n := range ids {
		out[i] = n.String()
	}
	return "(" + strings.Join(out, ",") + ")"
}

// id is the number of an instance in the file.
type id int

func (n id) String() string { return "#" + strconv.Itoa(int(n)) }

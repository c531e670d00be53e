package align

import (
	"encoding/xml"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"boxwalk/model/diag"
)

// whiteSpace is what XML takes for it (XML 1.0, production 3): fewer characters
// than Unicode has, and no others collapse in a number.
const whiteSpace = " \t\r\n"

func isWhite(c rune) bool { return strings.ContainsRune(whiteSpace, c) }

// finite is how XML Schema writes an xs:double that is a finite number (XML
// Schema part 2, 3.2.5.1; from memory). INF, -INF and NaN, which it also has,
// are no place on a line.
var finite = regexp.MustCompile(`^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([Ee][+-]?[0-9]+)?$`)

// double is a number of the file, without white space around it, when it is one
// within mostAway.
func double(text string) (x float64, ok bool) {
	if !finite.MatchString(text) {
		return 0, false
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && math.Abs(x) <= mostAway
}

// number reads an attribute; otherwise stands for one that is not there.
func (r *reader) number(e xml.StartElement, at diag.Place, name string, otherwise float64) float64 {
	text, there := lookup(e, name)
	if !there {
		return otherwise
	}
	x, ok := double(strings.Trim(text, whiteSpace))
	if !ok {
		r.failAt(at, fmt.Sprintf("%s=%q is no number within ±%g", name, short(text), mostAway), "write a plain number, as 125.5")
		return otherwise
	}
	return x
}

package units

import (
	"fmt"
	"regexp"
	"strings"
)

var timesSign = regexp.MustCompile(` *[xX×] *`)

// ParseSize2 reads "200 x 150 mm". A unit may stand on either number or on
// both; a number without one takes the next unit to its right, else the one to
// its left, else bare (empty: the default unit of a length).
func ParseSize2(text string, s System, bare string) (Size2, error) {
	v, err := parseSizes(text, 2, s, bare)
	if err != nil {
		return Size2{}, err
	}
	return Size2{v[0], v[1]}, nil
}

// ParseSize3 reads "200 x 200 x 20 mm" by the rules of ParseSize2.
func ParseSize3(text string, s System, bare string) (Size3, error) {
	v, err := parseSizes(text, 3, s, bare)
	if err != nil {
		return Size3{}, err
	}
	return Size3{v[0], v[1], v[2]}, nil
}

// SizeExample returns a text of n lengths that ParseSize2 or ParseSize3 reads.
func SizeExample(n int, s System) string {
	return [2][2]string{{"200 x 200 mm", "8 x 8 in"}, {"200 x 200 x 20 mm", "8 x 8 x 1 in"}}[n-2][s]
}

func parseSizes(text string, n int, s System, bare string) ([]Length, error) {
	fail := func(why string) error {
		return &Error{KindLength, text, quoted(text) + " " + why, SizeExample(n, s)}
	}
	if len(text) > mostText {
		return nil, fail("is too long for a size")
	}
	parts := timesSign.Split(plain(text), -1)
	if len(parts) != n {
		return nil, fail(fmt.Sprintf("gives %s; a size here has %d, with an x between", counted(len(parts)), n))
	}
	shareUnits(parts)
	sizes := make([]Length, n)
	for i, part := range parts {
		v, err := ParseBare(KindLength, part, s, bare)
		if err != nil {
			return nil, fail("is no size: " + err.(*Error).Why)
		}
		sizes[i] = Length(v)
	}
	return sizes, nil
}

func counted(n int) string {
	if n == 1 {
		return "one length"
	}
	return fmt.Sprintf("%d lengths", n)
}

// bareNumber is a number with a sign and nothing behind it.
var bareNumber = regexp.MustCompile(`^[+-]?` + numberText + `$`)
var trailingUnit = regexp.MustCompile(`^[+-]?` + numberText + `(\s*[^\d\s./+-].*)$`)

// shareUnits gives each number without a unit the next unit to its right, else
// the nearest to its left.
func shareUnits(parts []string) {
	share := func(i, from int) {
		if bareNumber.MatchString(parts[i]) {
			if m := trailingUnit.FindStringSubmatch(parts[from]); m != nil {
				parts[i] += m[1]
			}
		}
	}
	for i := len(parts) - 2; i >= 0; i-- {
		share(i, i+1)
	}
	for i := 1; i < len(parts); i++ {
		share(i, i-1)
	}
}

// Text writes the size with the unit of the system: 200 x 200 mm, or each side
// in feet and inches.
func (z Size2) Text(s System) string { return sizeText(s, z.X, z.Y) }

// Text writes the size with the unit of the system: 200 x 200 x 20 mm, or each
// side in feet and inches.
func (z Size3) Text(s System) string { return sizeText(s, z.X, z.Y, z.Z) }

func sizeText(s System, sides ...Length) string {
	texts := make([]string, len(sides))
	for i, side := range sides {
		if s == Imperial {
			texts[i] = FeetInches(side)
		} else {
			texts[i] = trimmed(float64(side)*1000, 4)
		}
	}
	text := strings.Join(texts, " x ")
	if s == Metric {
		text += " mm"
	}
	return text
}

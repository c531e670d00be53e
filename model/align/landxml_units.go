package align

import (
	"encoding/xml"
	"fmt"

	"boxwalk/model/diag"
)

// linear is how many metres a unit of length has, as a ratio so that the float
// is the nearest one. The international foot is 0.3048 m exactly (international
// yard and pound agreement, 1959; NIST SP 811, app. B) and the inch and mile
// follow; the US survey foot is 1200/3937 m exactly (Mendenhall order, 1893;
// NIST SP 811, app. B; withdrawn 2022, still in files). The spellings are those
// of LandXML 1.2's impLinear and metLinear (from memory, but for meter and
// foot, which sample files have).
var linear = map[string][2]float64{
	"meter":        {1, 1},
	"millimeter":   {1, 1000},
	"centimeter":   {1, 100},
	"kilometer":    {1000, 1},
	"foot":         {3048, 10000},
	"inch":         {254, 10000},
	"mile":         {1609344, 1000},
	"USSurveyFoot": {1200, 3937},
}

// units reads the one unit that counts: that of lengths.
func (r *reader) units() {
	r.children(func(e xml.StartElement, at diag.Place) {
		defer r.pass()
		if e.Name.Local != "Metric" && e.Name.Local != "Imperial" {
			r.failAt(at, fmt.Sprintf("<%s> is no system of units", short(e.Name.Local)), "Metric or Imperial is expected")
			return
		}
		unit := attr(e, "linearUnit")
		ratio, known := linear[unit]
		switch {
		case !known:
			r.failAt(at, fmt.Sprintf("linearUnit=%q is not read", short(unit)), "meter, millimeter, centimeter, kilometer, foot, inch, mile and USSurveyFoot are")
		case r.metres != 0 && r.metres != ratio[0]/ratio[1]:
			r.failAt(at, "there are two units of length", "keep the one that the points are in")
		default:
			r.metres = ratio[0] / ratio[1]
		}
	})
}

// attr is an attribute's text, "" also when it is not there.
func attr(e xml.StartElement, name string) string {
	text, _ := lookup(e, name)
	return text
}

// lookup is an attribute's text and whether it is there.
func lookup(e xml.StartElement, name string) (text string, there bool) {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value, true
		}
	}
	return "", false
}

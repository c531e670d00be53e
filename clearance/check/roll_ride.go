package check

import (
	"fmt"

	"boxwalk/clearance/measure"
)

// forRests says what the poses between those that are swept take off.
func (b *bay) forRests(loss float64) string {
	if loss == 0 {
		return ""
	}
	return fmt.Sprintf(" and %s because, where it may rest on either side of a wheel line, the poses between are swept %s apart", b.mm(loss), b.mm(measure.RestEvery))
}

// forTwist says what a twisted invert takes off.
func (b *bay) forTwist(loss float64) string {
	if loss < 5e-5 { // less than is printed
		return ""
	}
	return fmt.Sprintf(" and %s for the invert's twist at bends and breaks", b.mm(loss))
}

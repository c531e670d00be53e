package cycle

import "math"

// Calendar is when work is done.
type Calendar struct {
	From, To float64 // of a shift, hours since midnight
	Weekday  int     // of the day of the start, from Monday, 0
	Works    [7]bool // by weekday, from Monday
	Free     map[int]bool
}

// mostIdle is how many days in a row may be free before a plan counts as having no end.
const mostIdle = 400

// nearly forgives rounding of sums of hours.
const nearly = 1e-9

// works tells whether a day, counted from that of the start, is a working day.
func (c Calendar) works(day int) bool {
	return c.Works[((c.Weekday+day)%7+7)%7] && !c.Free[day]
}

// shift is the first moment from t on at which work is done, and when that shift ends;
// false where none comes.
func (c Calendar) shift(t float64) (start, end float64, ok bool) {
	day := int(math.Floor(t / 24))
	for range mostIdle {
		from, to := 24*float64(day)+c.From, 24*float64(day)+c.To
		if c.works(day) && t < to-nearly {
			return math.Max(t, from), to, true
		}
		day++
	}
	return 0, 0, false
}

// done is when a work that may be left over night begins, ready at t, and ends.
func (c Calendar) done(t, takes float64) (start, end float64, ok bool) {
	start, to, ok := c.shift(t)
	at := start
	for ok && takes > to-at+nearly {
		takes -= to - at
		at, to, ok = c.shift(to)
	}
	return start, at + takes, ok
}

// whole is when a work that is not left half done begins, ready at t, and ends.
func (c Calendar) whole(t, takes float64) (start, end float64, ok bool) {
	start, to, ok := c.shift(t)
	for range mostIdle {
		if !ok || takes <= to-start+nearly {
			break
		}
		start, to, ok = c.shift(to)
	}
	return start, start + takes, ok && takes <= to-start+nearly
}

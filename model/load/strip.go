package load

import (
	"errors"

	"boxwalk/model/units"
)

// DesignLive compares the structure's design live load with its dead load. The
// zero value is the column with the longer times and holds for a culvert roof:
// under fill, dead exceeds live.
type DesignLive uint8

// The columns of the table.
const (
	LiveBelowDead DesignLive = iota
	LiveAboveDead
)

// Soffit is a roof whose form is to be released.
type Soffit struct {
	ClearSpan units.Length
	Live      DesignLive
	// Undisturbed states that the form comes out without disturbing shores,
	// such as a roof that stays on hangers and props through the release.
	Undisturbed bool
}

// StripTime is a least time before release, counted in hours with air at 10 °C
// (50 °F) and above, see [CountedTime].
type StripTime struct {
	Time   units.Duration // s
	Rule   string         // what governs, in words
	Source Source
}

// WallTime is the least time for walls: 12 h. The page that was read gives 12
// to 24 h.
const WallTime units.Duration = 12 * hour

var stripSource = Source{"ACI 347-04 §3.7.2.3, values read on a trade magazine's page; the column heads disagree between two pages and the longer times are taken", Read}

// soffitRow is a row of the one-way slab part of the table, in days.
type soffitRow struct {
	words                         string
	below, undisturbed, aboveDead float64
}

var soffitRows = [...]soffitRow{
	{"roof, clear span below 10 ft (3.05 m)", 4, 3, 3},
	{"roof, clear span 10 to 20 ft (3.05 to 6.10 m)", 7, 3.5, 4},
	{"roof, clear span above 20 ft (6.10 m)", 10, 5, 7},
}

// WallStrip returns the least time for walls that carry nothing else. Source:
// ACI 347-04 §3.7.2.3 (values read on a trade magazine's page).
func WallStrip() StripTime { return StripTime{WallTime, "walls", stripSource} }

// SoffitStrip returns the least time for a roof by its clear span, for one-way
// slabs where the specification is silent:
//
//	below 10 ft      4 d, 3 d with shores undisturbed;   3 d where live exceeds dead
//	10 to 20 ft      7 d, 3.5 d;                         4 d
//	above 20 ft     10 d, 5 d;                           7 d
//
// The table halves no time of its right column. Range: clear span above 0, to
// 15 m (judgement: beyond it the engineer decides). Source: ACI 347-04
// §3.7.2.3 (values read on a trade magazine's page; the least 3 d from memory).
// Two pages disagree on which column is which; the longer is the default.
func SoffitStrip(s Soffit) (StripTime, error) {
	err := above("clear span", float64(s.ClearSpan), 0, 15, "m")
	if s.Live > LiveAboveDead {
		err = errors.Join(err, missing("design live load against dead load"))
	}
	if err != nil {
		return StripTime{}, err
	}
	row := soffitRowFor(float64(s.ClearSpan) / foot)
	switch {
	case s.Live == LiveAboveDead:
		return StripTime{units.Duration(row.aboveDead * day), row.words + ", design live load above dead", stripSource}, nil
	case s.Undisturbed:
		return StripTime{units.Duration(row.undisturbed * day), row.words + ", shores undisturbed", stripSource}, nil
	}
	return StripTime{units.Duration(row.below * day), row.words, stripSource}, nil
}

func soffitRowFor(feet float64) soffitRow {
	switch {
	case below(feet, 10):
		return soffitRows[0]
	case atMost(feet, 20):
		return soffitRows[1]
	}
	return soffitRows[2]
}

// CarrierStrip returns the least time where one form carries both walls and
// roof: the soffit governs (ACI 347-04 §3.7.2.3, first footnote, read).
func CarrierStrip(s Soffit) (StripTime, error) {
	t, err := SoffitStrip(s)
	if err != nil {
		return StripTime{}, err
	}
	t.Rule += "; one form carries walls and roof"
	return t, nil
}

// countedFrom is 50 °F: hours below it are not counted.
const countedFrom = 10 // °C

func counts(t units.Temperature) float64 {
	if below(float64(t), countedFrom) {
		return 0
	}
	return 1
}

// CountedTime returns how much of a history of air temperatures counts toward
// a least time: the spells at 50 °F (10 °C) and above. Range: −60 to 60 °C.
// Source: ACI 347-04 §3.7.2.3 (read on a trade magazine's page).
func CountedTime(air History) (units.Duration, error) {
	if err := air.check(-60, 60); err != nil {
		return 0, err
	}
	return units.Duration(air.total(counts)), nil
}

// ReleaseAfter returns the time after placing at which a least time has been
// counted; an error when the history ends before.
func ReleaseAfter(t StripTime, air History) (units.Duration, error) {
	if err := errors.Join(air.check(-60, 60), above("least time", days(t.Time), 0, 365, "d")); err != nil {
		return 0, err
	}
	if at, ok := air.reach(float64(t.Time), counts); ok {
		return at, nil
	}
	return 0, air.tooShort(float64(t.Time)/hour, air.total(counts)/hour, "h at 10 °C or above")
}

// Practice is another rule that a specification may bring.
type Practice struct {
	What      string
	Ratio     float64        // least strength over design strength; 0 when none
	LeastTime units.Duration // s; 0 when none
	Both      bool           // both must be met; else either will do
	Source    Source
}

// Practices returns rules of others in a fixed order.
func Practices() []Practice {
	return []Practice{
		{"bridge soffits and slabs", 0.70, 5 * day, true, Source{"Concrete Construction, Stripping bridge forms, citing ACI 347", Read}},
		{"bulkheads", 0, 15 * hour, true, Source{"Concrete Construction, Stripping bridge forms, citing ACI 347", Read}},
		{"decks and slabs, Alberta", 0.50, 5 * day, false, Source{"Alberta Transportation, quoted in a forum", SecondHand}},
		{"walls above 3 m, Alberta", 0, 48 * hour, true, Source{"Alberta Transportation, quoted in a forum", SecondHand}},
		{"falsework, AASHTO construction 3.2.3", 0.80, 14 * day, false, Source{"AASHTO LRFD Construction 3.2.3", Memory}},
	}
}

package units

// IsBare tells whether the text is a number without a unit.
func IsBare(text string) bool { return bareNumber.MatchString(plain(text)) }

// Meant returns a number without a unit together with the first unit of its
// kind that makes it acceptable, the likelier units first: 300 becomes 300 mm
// where 300 m is too much. It returns "" when no unit helps.
func Meant(kind Kind, text string, s System, acceptable func(si float64) bool) string {
	if !IsBare(text) {
		return ""
	}
	for _, name := range append(likely(kind, s), namesOf(kinds[kind].dim)...) {
		with := plain(text) + " " + name
		if v, err := Parse(kind, with, s); err == nil && acceptable(v) {
			return with
		}
	}
	return ""
}

// likely lists the units that a slip most often leaves out.
func likely(kind Kind, s System) []string {
	switch {
	case kinds[kind].dim == dimLength && s == Imperial:
		return []string{"in", "ft", "mm"}
	case kinds[kind].dim == dimLength:
		return []string{"mm", "cm", "m"}
	}
	return nil
}

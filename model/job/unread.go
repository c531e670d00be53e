package job

// NotReadYet are the keys that files may state and that nothing works anything out
// with yet: the facing is part of a panel's depth, which is what counts.
func NotReadYet() []string {
	return []string{
		"wall.facing", "roof.facing",
	}
}

// EqualToDefault is whose a number is that the job states as its default is.
const EqualToDefault = "the job (equal to the default)"

// Stated remembers which keys a file has, beside the values it gives: a default that
// is written out is stated. The zero value states nothing.
type Stated struct{ at *Decoded }

func (s *Stated) decodedAs(at *Decoded) { s.at = at }

// States tells whether the file has a key, by its path from the top.
func (s Stated) States(key string) bool {
	return s.at != nil && s.at.Given(key)
}

// Unread are the keys that a job and its gear state and that nothing reads yet, in the
// order of NotReadYet.
func Unread(j *Job, g *Gear) []string {
	var out []string
	for _, key := range NotReadYet() {
		if j.States(key) || g.States(key) {
			out = append(out, key)
		}
	}
	return out
}

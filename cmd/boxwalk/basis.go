package main

import "bytes"

// beginsSheet tells whether a line begins the group of the job file that says who made,
// approved and issued the drawings.
func beginsSheet(line []byte) bool {
	rest, ok := bytes.CutPrefix(line, []byte("sheet"))
	return ok && bytes.HasPrefix(bytes.TrimLeft(rest, " \t"), []byte(":"))
}

// withoutSheet is a job file without its group sheet: what an approval is of. The
// group is the line at the left margin that begins with it, and every line behind it
// up to the next that begins at the margin. What else stands at the margin stays, so
// that nothing but that group can change without the hash.
func withoutSheet(text []byte) []byte {
	var out []byte
	inside := false
	for _, line := range bytes.SplitAfter(text, []byte("\n")) {
		indented := len(bytes.TrimSpace(line)) == 0 || line[0] == ' ' || line[0] == '\t'
		if !indented {
			inside = beginsSheet(line)
		}
		if !inside {
			out = append(out, line...)
		}
	}
	return out
}

// basis is one hash of all that a result depends on but who approves it: the program
// with its revision, and every file read, the job without its group sheet, and what
// --set gave.
func (r *reading) basis() string {
	all := version() + "\n"
	for i, in := range r.inputs {
		sum := in.SHA256
		if i == 0 {
			sum = r.unsigned
		}
		all += sum + "  " + in.Name + "\n"
	}
	return hash([]byte(all))
}

package table

import "bytes"

// rows lays JSON without blanks out for people and small files: each member of the
// outermost object begins a line, and so does each member of a list or object in it;
// what lies deeper stays on that line.
func rows(dense []byte) []byte {
	var out bytes.Buffer
	out.Grow(len(dense) + len(dense)/16)
	depth, quoted := 0, false
	for i := 0; i < len(dense); i++ {
		c := dense[i]
		if quoted {
			out.WriteByte(c)
			if c == '\\' {
				i++
				out.WriteByte(dense[i])
			}
			quoted = c != '"'
			continue
		}
		switch c {
		case '{', '[':
			depth++
			out.WriteByte(c)
			if next := dense[i+1]; next != '}' && next != ']' {
				begin(&out, depth)
			}
		case '}', ']':
			depth--
			if before := dense[i-1]; before != '{' && before != '[' && depth < deepRow {
				begin(&out, depth)
			}
			out.WriteByte(c)
		case ',':
			out.WriteByte(c)
			begin(&out, depth)
		case ':':
			out.WriteString(": ")
		default:
			quoted = c == '"'
			out.WriteByte(c)
		}
	}
	return out.Bytes()
}

// deepRow is how deep the members are that begin a line.
const deepRow = 2

// begin begins a line for a member that lies so deep, unless it lies deeper than lines do.
func begin(out *bytes.Buffer, depth int) {
	if depth > deepRow {
		return
	}
	out.WriteByte('\n')
	for range depth {
		out.WriteString("  ")
	}
}

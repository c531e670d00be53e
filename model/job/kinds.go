package job

import (
	"slices"
	"strings"
)

// kinds are the words of gear.kind, in order.
var kinds []string

// AddKind lets gear files name a kind of collapse. Package carrier, which builds
// them, calls it for each while the program starts; it is not for later, as what
// the files may say does not change while they are read.
func AddKind(name string) {
	kinds = append(kinds, name)
	slices.Sort(kinds)
}

// choices are the words of an enum tag.
func choices(enum string) []string {
	if enum == "@kinds" {
		return kinds
	}
	return strings.Split(enum, "|")
}

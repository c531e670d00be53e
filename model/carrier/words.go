package carrier

import (
	"fmt"
	"strings"
)

// Words is a sentence with lengths in it that is told in the units of whoever
// asks.
type Words struct {
	format string
	args   []any
}

// metres is a length in Words.
type metres float64

func words(format string, args ...any) Words { return Words{format, args} }

// and is the sentence with more behind it.
func (w Words) and(format string, args ...any) Words {
	return Words{w.format + format, append(append([]any(nil), w.args...), args...)}
}

// Say tells the sentence, its lengths in metres by length.
func (w Words) Say(length func(m float64) string) string {
	args := make([]any, len(w.args))
	for i, a := range w.args {
		switch a := a.(type) {
		case metres:
			args[i] = length(float64(a))
		case []metres:
			var list []string
			for _, m := range a {
				list = append(list, length(float64(m)))
			}
			args[i] = strings.Join(list, ", ")
		default:
			args[i] = a
		}
	}
	return fmt.Sprintf(w.format, args...)
}

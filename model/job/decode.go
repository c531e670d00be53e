package job

import (
	"reflect"
	"strconv"

	"boxwalk/model/diag"
	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// Decode reads one YAML text into a T by the tags of its fields; see the
// package documentation for the tags and for what is refused. The file name is
// used in places only, nothing is opened. Numbers without a unit take the unit
// of the system; find it with PeekSystem.
//
// All problems of the text are returned at once, sorted by place. With any
// error among them the value is nil: a value is returned only when every key
// was read, every limit holds and every Check agreed. Decoded is never nil.
func Decode[T any](file string, text []byte, system units.System) (*T, *Decoded, diag.Problems) {
	value := new(T)
	d := newDecoder(file, text, system)
	d.root = reflect.TypeFor[T]()
	if root := d.load(text); root != nil {
		d.record("", root)
		d.value(root, "", reflect.ValueOf(value).Elem(), &rule{})
	}
	problems := d.finished()
	if problems.HasErrors() {
		return nil, d.decoded, problems
	}
	if s, ok := any(value).(interface{ decodedAs(at *Decoded) }); ok {
		s.decodedAs(d.decoded)
	}
	return value, d.decoded, problems
}

// PeekSystem finds the units that a text asks for in job.units, gear.units or
// units. It is Metric when the text does not say or cannot be read; Decode then
// reports why.
func PeekSystem(text []byte) units.System {
	d := newDecoder("", text, units.Metric)
	root := d.load(text)
	if root == nil {
		return units.Metric
	}
	for _, path := range [][]string{{"job", "units"}, {"gear", "units"}, {"units"}} {
		if n := find(root, path); n != nil {
			if text, ok := scalarText(n); ok && text == units.Imperial.String() {
				return units.Imperial
			}
		}
	}
	return units.Metric
}

// find follows keys down from a node; nil when a key is not there.
func find(n ast.Node, path []string) ast.Node {
	for _, key := range path {
		var next ast.Node
		for _, pair := range pairsOf(n) {
			if keyText(pair) == key {
				next = pair.Value
			}
		}
		if next == nil {
			return nil
		}
		n = next
	}
	return n
}

// mostProblems is how many problems of one file are kept; the rest are counted.
const mostProblems = 100

// Decoder reads nodes of one text into values. A type that is written in more
// than one form gets one in its DecodeNode method.
type Decoder struct {
	file     string
	system   units.System
	root     reflect.Type
	source   []byte
	lines    []string
	decoded  *Decoded
	problems diag.Problems
	dropped  int
	fields   map[reflect.Type][]field
	rule     *rule                 // of the field whose DecodeNode runs
	keyOf    map[ast.Node]ast.Node // the key of each value
	quiet    bool                  // while a default is read: no places
}

func newDecoder(file string, text []byte, system units.System) *Decoder {
	return &Decoder{
		file:    file,
		system:  system,
		source:  text,
		decoded: &Decoded{file: file, system: system, spots: map[string]spot{}, keys: map[string][]string{}},
		fields:  map[reflect.Type][]field{},
		keyOf:   map[ast.Node]ast.Node{},
	}
}

// finished returns the problems sorted, with a note on those that were dropped.
func (d *Decoder) finished() diag.Problems {
	sorted := d.problems.Sorted()
	if d.dropped > 0 {
		sorted = append(sorted, diag.Problem{
			Place:   diag.Place{File: d.file},
			Summary: strconv.Itoa(d.dropped) + " more problems are not listed",
			Fix:     "fix the ones above first",
		})
	}
	return sorted
}

// add keeps a problem, up to mostProblems.
func (d *Decoder) add(p diag.Problem) {
	if len(d.problems) >= mostProblems {
		d.dropped++
		return
	}
	d.problems = append(d.problems, p)
}

// count is the number of problems so far, to tell whether a step added any.
func (d *Decoder) count() int { return len(d.problems) + d.dropped }

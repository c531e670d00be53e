package job

import (
	"reflect"
	"slices"
	"strings"
	"sync"

	"boxwalk/model/units"
)

// Default is a key that has a number without being written: the number as its tag
// has it, where that comes from, and which side of it a user may go to without
// making a check easier: "more", "less", or "" where the number is a fact.
type Default struct {
	Key, Text, Doc, Source, Safer string
	typ                           reflect.Type
}

// In is the default as a file in a system of units would have it: as its tag has it
// in metric ones. Lengths of an imperial file are in thousandths of an inch at most.
func (d Default) In(s units.System) string {
	kind, single := d.kind()
	if s == units.Metric || !single || kind == units.KindNumber {
		return d.Text
	}
	return kind.Short(d.standard(kind), s)
}

// Is tells whether a text of a file is the default, in whatever unit.
func (d Default) Is(text string, s units.System) bool {
	kind, single := d.kind()
	if !single {
		return text == d.Text
	}
	v, err := units.Parse(kind, text, s)
	return err == nil && v == d.standard(kind)
}

// kind is the kind of the default. What is one value or a list of them has a length as
// its default, or none that has a unit.
func (d Default) kind() (units.Kind, bool) {
	kind, single := kindOf(leafType(d.typ))
	if single {
		return kind, true
	}
	_, err := units.Parse(units.KindLength, d.Text, units.Metric)
	return units.KindLength, err == nil && strings.ContainsRune(d.Text, ' ')
}

// standard is the default in SI.
func (d Default) standard(kind units.Kind) float64 {
	v, err := units.Parse(kind, d.Text, units.Metric)
	if err != nil {
		panic("job: the default of " + d.Key + " does not work: " + err.Error())
	}
	return v
}

// Defaults lists every number that a file of a T need not state, in the order of its
// keys; [] stands for any item of a list.
func Defaults[T any]() []Default {
	var out []Default
	for _, p := range defaultsOf(reflect.TypeFor[T]()) {
		out = append(out, p.Default)
	}
	return out
}

// placed is a default and where its field is.
type placed struct {
	Default
	index    []int // leads to the field from the struct; nil below a list
	kind     units.Kind
	single   bool    // a number of one unit
	standard float64 // the default in SI, of those
}

// knownDefaults are those of the types that were asked for: checks ask again and again.
var knownDefaults sync.Map

// defaultsOf are the numeric defaults below a struct.
func defaultsOf(t reflect.Type) []placed {
	if known, ok := knownDefaults.Load(t); ok {
		return known.([]placed)
	}
	var out []placed
	var walk func(t reflect.Type, path string, at []int, listed bool)
	walk = func(t reflect.Type, path string, at []int, listed bool) {
		for _, f := range structFields(t) {
			key, index := joined(path, f.name), append(append([]int{}, at...), f.index...)
			if text := f.rule.fallback; f.rule.defaults && numeric(f.typ, text) {
				p := placed{Default: Default{Key: key, Text: text, Doc: f.rule.doc, Source: f.rule.tags.Get("source"), Safer: f.rule.tags.Get("safer"), typ: f.typ}}
				if !listed {
					p.index = index
					if p.kind, p.single = kindOf(f.typ); p.single {
						p.standard = p.Default.standard(p.kind)
					}
				}
				out = append(out, p)
			}
			leaf := leafType(f.typ)
			if leaf.Kind() != reflect.Struct || isUnion(leaf) || sizeOf(leaf) > 0 {
				continue
			}
			below := listed
			if k := f.typ.Kind(); k == reflect.Slice || k == reflect.Map {
				key, below = key+"[]", true
			}
			walk(leaf, key, index, below)
		}
	}
	walk(t, "", nil, false)
	knownDefaults.Store(t, out)
	return out
}

// numeric tells whether a default is a number, of any unit, and no word.
func numeric(t reflect.Type, text string) bool {
	return strings.ContainsAny(text, "0123456789") && leafType(t).Kind() != reflect.String
}

// Choice is a number of a file beside the default of its key, both in SI.
type Choice struct {
	Default
	Kind            units.Kind
	Value, Standard float64
}

// Looser tells whether the number makes a check easier than the default does.
func (c Choice) Looser() bool {
	return c.Safer == "more" && c.Value < c.Standard || c.Safer == "less" && c.Value > c.Standard
}

// Choices are the numbers of a file whose default has a safer side. Groups that the
// file leaves out have none.
func Choices[T any](v *T) []Choice {
	return slices.DeleteFunc(Numbers(v), func(c Choice) bool { return c.Safer == "" })
}

// Numbers are all single numbers of a file that have a default, in the order of its
// keys. Groups that the file leaves out have none.
func Numbers[T any](v *T) []Choice {
	var out []Choice
	for _, p := range defaultsOf(reflect.TypeFor[T]()) {
		if p.index == nil || !p.single {
			continue
		}
		at, err := reflect.ValueOf(v).Elem().FieldByIndexErr(p.index)
		if err == nil { // else below a group that is left out
			out = append(out, Choice{Default: p.Default, Kind: p.kind, Value: at.Float(), Standard: p.standard})
		}
	}
	return out
}

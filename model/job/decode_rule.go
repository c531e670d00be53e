package job

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"boxwalk/model/units"
)

// field is one key of a struct.
type field struct {
	name  string
	index []int
	typ   reflect.Type
	rule  *rule
}

// rule is what the tags of a field say.
type rule struct {
	tags reflect.StructTag
	leaf reflect.Type // the type below pointers, lists and maps; nil: no field

	doc      string
	sample   string   // example tag: a likely value
	samples  []string // of a list: likely items, where the tag has several
	fallback string   // default tag
	defaults bool     // whether there is a default tag
	optional bool
	enum     []string
	unit     [2]string // of a number without one, by system; "" is the kind's

	least, most, above *float64 // limits in SI, or of a whole number
	kind               units.Kind
	fewest, atMost     int // items of a list; 0: no limit
	longest            int // characters of a text
}

var (
	nodeDecoderType = reflect.TypeFor[NodeDecoder]()
	checkerType     = reflect.TypeFor[Checker]()
	quantityType    = reflect.TypeFor[units.Quantity]()
	size2Type       = reflect.TypeFor[units.Size2]()
	size3Type       = reflect.TypeFor[units.Size3]()
)

// leafType strips pointers, lists and maps.
func leafType(t reflect.Type) reflect.Type {
	for !isUnion(t) {
		switch t.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
			t = t.Elem()
		default:
			return t
		}
	}
	return t
}

func isUnion(t reflect.Type) bool { return reflect.PointerTo(t).Implements(nodeDecoderType) }

// kindOf returns the kind of a single quantity; a plain float64 is a number.
func kindOf(t reflect.Type) (units.Kind, bool) {
	switch {
	case t.Kind() != reflect.Float64:
		return 0, false
	case t.Implements(quantityType):
		return reflect.Zero(t).Interface().(units.Quantity).Kind(), true
	}
	return units.KindNumber, true
}

// sizeOf returns how many lengths a size type has, 0 for any other type.
func sizeOf(t reflect.Type) int {
	switch t {
	case size2Type:
		return 2
	case size3Type:
		return 3
	}
	return 0
}

// limited tells the kind that the limits of a type are given in.
func limited(t reflect.Type) (units.Kind, bool) {
	if kind, ok := kindOf(t); ok {
		return kind, true
	}
	return units.KindLength, sizeOf(t) > 0
}

// ruleFor reads the tags of a field of that type. A tag that cannot be read is
// a mistake in this program and panics; Schema reports it as an error.
func ruleFor(t reflect.Type, tags reflect.StructTag) *rule {
	r := &rule{tags: tags, doc: tags.Get("doc"), sample: tags.Get("example"), optional: tags.Get("optional") == "true"}
	if list := strings.Split(r.sample, "; "); len(list) > 1 {
		r.sample, r.samples = list[0], list
	}
	r.fallback, r.defaults = tags.Lookup("default")
	if enum, ok := tags.Lookup("enum"); ok {
		r.enum = choices(enum)
	}
	r.fewest, r.atMost = wholeTag(tags, "minitems"), wholeTag(tags, "maxitems")
	if r.longest = wholeTag(tags, "maxlength"); r.longest == 0 {
		r.longest = mostCharacters
	}
	r.unit = unitTag(tags)
	if isUnion(leafType(t)) {
		return r // its limits belong to what its DecodeNode reads
	}
	return r.of(leafType(t))
}

// of returns the rule for a value of that leaf type, which may stand inside
// the field's own: the lengths of a list that is also written as one length.
func (r *rule) of(t reflect.Type) *rule {
	t = leafType(t)
	if r.leaf == t || isUnion(t) {
		return r
	}
	made := *r
	made.leaf = t
	made.least, made.most, made.above = nil, nil, nil
	kind, isKind := limited(t)
	switch {
	case isKind:
		made.kind = kind
		made.widen()
		made.least, made.most, made.above = made.limit("min"), made.limit("max"), made.limit("above")
	case t.Kind() == reflect.Int:
		made.kind = units.KindNumber
		made.least, made.most, made.above = made.limit("min"), made.limit("max"), made.limit("above")
	}
	return &made
}

// widen turns a length whose own limits go beyond the sane range of a length
// into a coordinate, which has a wider one: eastings, northings.
func (r *rule) widen() {
	if r.kind != units.KindLength {
		return
	}
	for _, tag := range []string{"min", "max"} {
		if text, ok := r.tags.Lookup(tag); ok {
			if _, err := units.Parse(units.KindLength, text, units.Metric); err != nil {
				r.kind = units.KindCoordinate
			}
		}
	}
}

// limit reads a limit tag. Tags are metric, whatever the job is.
func (r *rule) limit(tag string) *float64 {
	text, ok := r.tags.Lookup(tag)
	if !ok {
		return nil
	}
	v, err := units.ParseBare(r.kind, text, units.Metric, r.unit[units.Metric])
	if err != nil {
		panic(fmt.Sprintf("tag %s:%q: %v", tag, text, err))
	}
	return &v
}

// unitTag reads the unit of a number without one: "mm" stands for mm and its
// imperial counterpart, "mm|ft" names both.
func unitTag(tags reflect.StructTag) [2]string {
	metric, imperial, both := strings.Cut(tags.Get("unit"), "|")
	if !both {
		imperial = units.Counterpart(metric, units.Imperial)
	}
	return [2]string{units.Metric: metric, units.Imperial: imperial}
}

func wholeTag(tags reflect.StructTag, name string) int {
	text, ok := tags.Lookup(name)
	if !ok {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		panic(fmt.Sprintf("tag %s:%q is no whole number", name, text))
	}
	return n
}

// bareUnit is the unit of a number without one.
func (r *rule) bareUnit(s units.System) string {
	if r.unit[s] != "" {
		return r.unit[s]
	}
	return r.kind.BareUnit(s)
}

// breach says which limit a value breaks and by how much; ok when none.
func (r *rule) breach(v float64, s units.System) (summary, detail string, ok bool) {
	text := func(x float64) string { return r.kind.Text(x, s) }
	switch {
	case math.IsNaN(v):
		return "is not a number", "", false
	case r.least != nil && v < *r.least:
		return "is below the least, " + text(*r.least), r.difference(*r.least, v, "short", s), false
	case r.above != nil && v <= *r.above:
		return "is not above " + text(*r.above), "", false
	case r.most != nil && v > *r.most:
		return "is above the most, " + text(*r.most), r.difference(v, *r.most, "too much", s), false
	}
	return "", "", true
}

// difference writes a subtraction: 6 m - 5 m = 1 m too much. Temperatures and
// stations are left without: a difference of them is another kind.
func (r *rule) difference(larger, smaller float64, word string, s units.System) string {
	if r.kind == units.KindTemperature || r.kind == units.KindStation {
		return ""
	}
	text := func(x float64) string { return r.kind.Text(x, s) }
	return fmt.Sprintf("%s - %s = %s %s", text(larger), bracketNegative(text(smaller)), text(larger-smaller), word)
}

func bracketNegative(text string) string {
	if strings.HasPrefix(text, "-") {
		return "(" + text + ")"
	}
	return text
}

func (r *rule) holds(v float64) bool {
	_, _, ok := r.breach(v, units.Metric)
	return ok
}

// working returns a text of a quantity that keeps all limits: one of the
// candidates, the example tag, the default, the example of the kind, a limit, or the middle
// between the limits.
func (r *rule) working(s units.System, candidates ...string) string {
	candidates = append(candidates, r.sample, r.fallback, r.kind.Example(s))
	for _, v := range r.inside() {
		candidates = append(candidates, r.kind.Text(v, s))
	}
	for _, text := range candidates {
		if text == "" {
			continue
		}
		if v, err := units.ParseBare(r.kind, text, s, r.unit[s]); err == nil && r.holds(v) {
			return text
		}
	}
	return r.kind.Example(s)
}

// inside lists values between the limits, the likelier first.
func (r *rule) inside() []float64 {
	var values []float64
	low := r.least
	if low == nil {
		low = r.above
	}
	if low != nil && r.most != nil {
		values = append(values, (*low+*r.most)/2)
	}
	for _, limit := range []*float64{r.least, r.most} {
		if limit != nil {
			values = append(values, *limit)
		}
	}
	if r.above != nil {
		values = append(values, *r.above+1, *r.above*2)
	}
	return values
}

// fieldsOf lists the keys of a struct in the order of its fields; an inline
// field adds its own.
func (d *Decoder) fieldsOf(t reflect.Type) []field {
	if known, ok := d.fields[t]; ok {
		return known
	}
	list := structFields(t)
	d.fields[t] = list
	return list
}

// fieldsKnown are the fields of the types that were read before: tags do not
// change while the program runs.
var fieldsKnown sync.Map

func structFields(t reflect.Type) []field {
	if known, ok := fieldsKnown.Load(t); ok {
		return known.([]field)
	}
	list := readFields(t)
	fieldsKnown.Store(t, list)
	return list
}

func readFields(t reflect.Type) []field {
	var list []field
	for i := range t.NumField() {
		f := t.Field(i)
		name, option, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		if option == "inline" {
			for _, inner := range structFields(f.Type) {
				inner.index = append([]int{i}, inner.index...)
				list = append(list, inner)
			}
			continue
		}
		if name == "" || name == "-" || !f.IsExported() {
			continue
		}
		list = append(list, field{name: name, index: []int{i}, typ: f.Type, rule: ruleFor(f.Type, f.Tag)})
	}
	return list
}

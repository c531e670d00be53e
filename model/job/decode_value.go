package job

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// value reads a node into v by the type of v.
func (d *Decoder) value(n ast.Node, path string, v reflect.Value, r *rule) {
	switch t := v.Type(); {
	case isNothing(n):
		d.Fail(n, path, "has no value", "", d.valueFix(t, path, r))
	case isUnion(t):
		d.union(n, path, v, r)
	case t.Kind() == reflect.Pointer:
		v.Set(reflect.New(t.Elem()))
		d.value(n, path, v.Elem(), r)
	case isScalarType(t):
		d.scalarNode(n, path, v, r)
	case t.Kind() == reflect.Struct:
		d.group(n, path, v)
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Array:
		d.list(n, path, v, r)
	case t.Kind() == reflect.Map && t.Key().Kind() == reflect.String:
		d.table(n, path, v, r)
	default:
		panic(fmt.Sprintf("job: a value of type %v at %q cannot be read from a file", t, path))
	}
}

func isScalarType(t reflect.Type) bool {
	_, quantity := kindOf(t)
	switch t.Kind() {
	case reflect.String, reflect.Bool, reflect.Int:
		return true
	}
	return quantity || sizeOf(t) > 0
}

// valueFix tells what to do about a key without a value.
func (d *Decoder) valueFix(t reflect.Type, path string, r *rule) string {
	fix := "leave the key out, or write " + path[strings.LastIndex(path, ".")+1:] + ": " + d.example(t, r)
	if r.optional || r.defaults || t.Kind() == reflect.Pointer {
		return fix
	}
	return strings.TrimPrefix(fix, "leave the key out, or ")
}

// union lets the type read its own node; its tags are d.rule meanwhile.
func (d *Decoder) union(n ast.Node, path string, v reflect.Value, r *rule) {
	outer := d.rule
	d.rule = r
	v.Addr().Interface().(NodeDecoder).DecodeNode(d, n, path)
	d.rule = outer
}

// group reads a mapping into a struct.
func (d *Decoder) group(n ast.Node, path string, v reflect.Value) {
	before := d.count()
	fields := d.fieldsOf(v.Type())
	if !isMapping(n) {
		d.Fail(n, path, "is "+described(n)+"; a group of keys is expected", "", "write under it the keys "+listed(fields))
		return
	}
	pairs := d.distinct(n, path)
	for _, pair := range pairsOf(n) {
		if !knownKey(fields, keyText(pair)) {
			d.unknownKey(pair, path, fields)
		}
	}
	for _, f := range fields {
		if pair := pairs[f.name]; pair != nil {
			where := joined(path, f.name)
			d.record(where, pair.Value)
			d.value(pair.Value, where, v.FieldByIndex(f.index), f.rule)
		} else {
			d.absent(n, path, f, v.FieldByIndex(f.index))
		}
	}
	if d.count() == before && !d.quiet {
		d.check(v, path)
	}
}

// check runs the rules between the keys of a struct that has any.
func (d *Decoder) check(v reflect.Value, path string) {
	if reflect.PointerTo(v.Type()).Implements(checkerType) {
		v.Addr().Interface().(Checker).Check(d, path)
	}
}

// distinct returns the pairs of a mapping by key and reports keys that stand
// twice; the first one counts.
func (d *Decoder) distinct(n ast.Node, path string) map[string]*ast.MappingValueNode {
	pairs := map[string]*ast.MappingValueNode{}
	for _, pair := range pairsOf(n) {
		key := keyText(pair)
		if first := pairs[key]; first != nil {
			lines := bothLines(d.placeOf(first.Key.GetToken()).Line, d.placeOf(pair.Key.GetToken()).Line)
			d.failKey(pair, path, "the key "+quote(key)+" stands twice, "+lines, "", "keep one of them")
			continue
		}
		pairs[key] = pair
	}
	return pairs
}

func bothLines(a, b int) string {
	if a == b {
		return fmt.Sprintf("both times on line %d", a)
	}
	return fmt.Sprintf("on line %d and on line %d", a, b)
}

// failKey reports a problem of a key itself.
func (d *Decoder) failKey(pair *ast.MappingValueNode, path, summary, detail, fix string) {
	d.add(d.spotOfToken(pair.Key.GetToken()).problem(path, summary, detail, fix))
}

func knownKey(fields []field, key string) bool {
	for _, f := range fields {
		if f.name == key {
			return true
		}
	}
	return false
}

// absent fills a key that the text leaves out, or reports that it must not.
func (d *Decoder) absent(n ast.Node, path string, f field, v reflect.Value) {
	switch {
	case f.rule.defaults:
		d.fallback(path, f, v)
	case f.typ.Kind() == reflect.Pointer:
	case f.rule.optional:
		d.fallbacksBelow(path, f, v)
	default:
		d.missing(n, path, f)
	}
}

// fallback sets the default of the tag. That is metric, and our own: one that
// does not work is a mistake in this program.
func (d *Decoder) fallback(path string, f field, v reflect.Value) {
	if f.rule.fallback == "" && f.typ.Kind() == reflect.String && !isUnion(f.typ) {
		return // no text at all, which no YAML says without quotes
	}
	inner := newDecoder("default", []byte(f.rule.fallback), 0)
	inner.fields, inner.quiet = d.fields, true
	if root := inner.load(inner.source); root != nil {
		inner.value(root, joined(path, f.name), v, f.rule)
	}
	if inner.count() > 0 {
		panic("job: a default does not work: " + inner.problems.Error())
	}
}

// fallbacksBelow sets the defaults inside a group that is left out; the keys it
// requires when it is written stay zero.
func (d *Decoder) fallbacksBelow(path string, f field, v reflect.Value) {
	if isUnion(f.typ) || isScalarType(f.typ) || f.typ.Kind() != reflect.Struct {
		return
	}
	for _, inner := range d.fieldsOf(f.typ) {
		if inner.rule.defaults {
			d.fallback(joined(path, f.name), inner, v.FieldByIndex(inner.index))
		} else {
			d.fallbacksBelow(joined(path, f.name), inner, v.FieldByIndex(inner.index))
		}
	}
}

// missing reports a required key that is not there, at the group around it.
func (d *Decoder) missing(n ast.Node, path string, f field) {
	s := d.spotOf(n)
	s.width = max(s.width, 1)
	d.add(s.problem(path, "the key "+f.name+" is missing", f.rule.doc, "add "+f.name+": "+d.example(f.typ, f.rule)))
}

// list reads a list into a slice or an array.
func (d *Decoder) list(n ast.Node, path string, v reflect.Value, r *rule) {
	if !isList(n) {
		d.Fail(n, path, "is "+described(n)+"; a list is expected", "", "write "+d.example(v.Type(), r))
		return
	}
	items := itemsOf(n)
	if !d.lengthFits(n, path, v, r, len(items)) {
		return
	}
	if v.Kind() == reflect.Slice {
		v.Set(reflect.MakeSlice(v.Type(), len(items), len(items)))
	}
	inner := r.of(v.Type().Elem())
	for i, one := range items {
		d.record(item(path, i), one)
		d.value(one, item(path, i), v.Index(i), inner)
	}
}

// lengthFits holds the number of items against the tags, or the array's length.
func (d *Decoder) lengthFits(n ast.Node, path string, v reflect.Value, r *rule, have int) bool {
	fewest, most := r.fewest, r.atMost
	if v.Kind() == reflect.Array {
		fewest, most = v.Len(), v.Len()
	}
	switch {
	case have < fewest:
		d.Fail(n, path, fmt.Sprintf("has %s; at least %d are needed", items(have), fewest), "", d.more(v, r, have, fewest))
	case most > 0 && have > most:
		d.Fail(n, path, fmt.Sprintf("has %s; at most %d are read", items(have), most), "", fmt.Sprintf("take out %d", have-most))
	default:
		return true
	}
	return false
}

// more says what to add to a list that has fewer items than it needs.
func (d *Decoder) more(v reflect.Value, r *rule, have, fewest int) string {
	switch {
	case have == 0 && (fewest == 1 || len(r.samples) == fewest):
		return "write " + d.example(v.Type(), r)
	case have < len(r.samples):
		return fmt.Sprintf("add %d, such as %s", fewest-have, r.samples[have])
	}
	return fmt.Sprintf("add %d", fewest-have)
}

func items(n int) string {
	if n == 1 {
		return "1 item"
	}
	return strconv.Itoa(n) + " items"
}

// table reads a mapping with free keys into a Go map.
func (d *Decoder) table(n ast.Node, path string, v reflect.Value, r *rule) {
	if !isMapping(n) {
		d.Fail(n, path, "is "+described(n)+"; names with values are expected", "", "write {name: "+d.example(v.Type().Elem(), r)+"}")
		return
	}
	pairs := d.distinct(n, path)
	v.Set(reflect.MakeMapWithSize(v.Type(), len(pairs)))
	inner := r.of(v.Type().Elem())
	for _, pair := range pairsOf(n) {
		key := keyText(pair)
		if pairs[key] != pair {
			continue
		}
		if why := unprintable(key, mostCharacters); why != "" || key == "" {
			d.failKey(pair, path, "a name "+emptyOr(why), "", "write it in plain characters")
			continue
		}
		entry := reflect.New(v.Type().Elem()).Elem()
		d.record(joined(path, key), pair.Value)
		d.value(pair.Value, joined(path, key), entry, inner)
		v.SetMapIndex(reflect.ValueOf(key).Convert(v.Type().Key()), entry)
	}
}

func emptyOr(why string) string {
	if why == "" {
		return "is empty"
	}
	return why
}

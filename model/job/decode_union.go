package job

import (
	"reflect"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// NodeDecoder is implemented, on a pointer, by a type that the text may write
// in more than one form: a number or a list, a word or an angle. DecodeNode
// looks at the node, fills the receiver and reports what is wrong with Fail or
// lets Value report it. It is called for a default too. path names the value.
//
// Such a type also has JSONSchemaNode; see Schema.
type NodeDecoder interface {
	DecodeNode(d *Decoder, n ast.Node, path string)
}

// Checker is implemented, on a pointer, by a struct with rules between its
// keys: one of two, not more than another. Check runs after the struct and all
// below it were read without a problem, and reports with FailAt, so that such
// rules are reported together with the problems of other keys.
type Checker interface {
	Check(d *Decoder, path string)
}

// System returns the system that numbers without a unit are read in.
func (d *Decoder) System() units.System { return d.system }

// Value reads a node into the value that into points to, under the tags of the
// field whose DecodeNode runs: its limits and its unit for a number without one.
// It reports every problem and tells whether there was none.
func (d *Decoder) Value(n ast.Node, path string, into any) bool {
	return d.under(d.rule, n, path, into)
}

// ValueTagged is Value under tags of its own, such as `min:"1" max:"4"`.
func (d *Decoder) ValueTagged(n ast.Node, path string, into any, tags reflect.StructTag) bool {
	return d.under(ruleFor(reflect.TypeOf(into).Elem(), tags), n, path, into)
}

// ValueText reads a part of a scalar, such as the angle in "1 deg left", as if
// it stood alone at the node.
func (d *Decoder) ValueText(n ast.Node, text, path string, into any) bool {
	before := d.count()
	v := reflect.ValueOf(into).Elem()
	d.scalar(d.ruleOrNone().of(v.Type()), written{node: n, text: text}, path, v)
	return d.count() == before
}

func (d *Decoder) under(r *rule, n ast.Node, path string, into any) bool {
	before := d.count()
	if path != "" {
		d.record(path, n)
	}
	if r == nil {
		r = &rule{}
	}
	v := reflect.ValueOf(into).Elem()
	d.value(n, path, v, r.of(v.Type()))
	return d.count() == before
}

func (d *Decoder) ruleOrNone() *rule {
	if d.rule == nil {
		return &rule{}
	}
	return d.rule
}

// Fail reports that a node is wrong. The summary follows the path and a colon;
// detail holds the arithmetic and fix a value that works; both may be empty.
func (d *Decoder) Fail(n ast.Node, path, summary, detail, fix string) {
	d.add(d.spotOf(n).problem(path, summary, detail, fix))
}

// FailAt is Fail at the place of a value that was read, by its path.
func (d *Decoder) FailAt(path, summary, detail, fix string) {
	d.add(d.decoded.spot(path).problem(path, summary, detail, fix))
}

// Given tells whether the text has the value of that path.
func (d *Decoder) Given(path string) bool { return d.decoded.Given(path) }

// Text returns a scalar as it was written, without quotes; ok is false for a
// list, a group of keys or nothing.
func (d *Decoder) Text(n ast.Node) (text string, ok bool) { return scalarText(n) }

// IsList tells whether a node is a list.
func (d *Decoder) IsList(n ast.Node) bool { return isList(n) }

// IsKeys tells whether a node is a group of keys.
func (d *Decoder) IsKeys(n ast.Node) bool { return isMapping(n) }

// Items returns the items of a list; none for any other node.
func (d *Decoder) Items(n ast.Node) []ast.Node { return itemsOf(n) }

// ItemPath is the path of a list item, counted from zero.
func (d *Decoder) ItemPath(path string, i int) string { return item(path, i) }

// Describe says what a node is, for messages: "a list", "a group of keys",
// "nothing", or the text in quotes.
func (d *Decoder) Describe(n ast.Node) string { return described(n) }

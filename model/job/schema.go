package job

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"boxwalk/model/units"

	"github.com/invopop/jsonschema"
)

// SchemaNode is implemented, on a value or a pointer, by a type that the text
// may write in more than one form. JSONSchemaNode returns its schema without
// description and default, which come from the tags of the field. Its
// "examples" are pieces of YAML; the first one serves in messages.
type SchemaNode interface {
	JSONSchemaNode() map[string]any
}

// Schema returns a JSON Schema (2020-12) of the files that Decode reads into a
// T, for editors: properties in the order of the fields, descriptions, defaults,
// limits, choices, and for quantities a pattern of the texts read. It accepts
// every file that Decode accepts, but for whole numbers, true and false in
// quotes; Decode is stricter.
//
// It also proves the tags: one that cannot be read, a default that does not
// work, a key without a doc, or a type in several forms without JSONSchemaNode
// is an error.
func Schema[T any](title string) (text []byte, err error) {
	defer func() {
		// tags are read by code that panics on a wrong one: to Decode that is
		// a mistake in this program, here it is the answer
		if reason := recover(); reason != nil {
			text, err = nil, fmt.Errorf("schema of %s: %v", title, reason)
		}
	}()
	d := newDecoder("schema", nil, units.Metric)
	root := d.schema(reflect.TypeFor[T](), &rule{}, "")
	root.Version, root.Title = jsonschema.Version, title
	text, err = json.MarshalIndent(root, "", "  ")
	return append(text, '\n'), err
}

// SchemaOf returns the schema of a T under tags as a map, for the parts of a
// JSONSchemaNode. Wrong tags panic.
func SchemaOf[T any](tags reflect.StructTag) map[string]any {
	t := reflect.TypeFor[T]()
	made := newDecoder("schema", nil, units.Metric).schema(t, ruleFor(t, tags), "")
	text, err := json.Marshal(made)
	if err != nil {
		panic(err)
	}
	var node map[string]any
	if err := json.Unmarshal(text, &node); err != nil {
		panic(err)
	}
	return node
}

// schema makes the schema of a type under a rule.
func (d *Decoder) schema(t reflect.Type, r *rule, path string) *jsonschema.Schema {
	if strings.Count(path, ".") > mostDepth {
		panic(path + " is nested without an end")
	}
	s := d.schemaOfType(t, r, path)
	s.Description = d.description(t, r)
	if r.defaults {
		s.Default = defaultValue(t, r)
	}
	return s
}

func (d *Decoder) schemaOfType(t reflect.Type, r *rule, path string) *jsonschema.Schema {
	switch {
	case isUnion(t):
		return unionSchema(t, path)
	case t.Kind() == reflect.Pointer:
		return d.schemaOfType(t.Elem(), r, path)
	case isScalarType(t):
		return d.scalarSchema(t, r.of(t))
	case t.Kind() == reflect.Struct:
		return d.groupSchema(t, path)
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Array:
		return d.listSchema(t, r, path)
	case t.Kind() == reflect.Map && t.Key().Kind() == reflect.String:
		return &jsonschema.Schema{Type: "object", AdditionalProperties: d.schemaOfType(t.Elem(), r, path+".*")}
	}
	panic(fmt.Sprintf("%s: a value of type %v cannot be read from a file", path, t))
}

func unionSchema(t reflect.Type, path string) *jsonschema.Schema {
	node, ok := reflect.New(t).Interface().(SchemaNode)
	if !ok {
		panic(fmt.Sprintf("%s: the type %v has DecodeNode but no JSONSchemaNode", path, t))
	}
	return &jsonschema.Schema{Extras: node.JSONSchemaNode()}
}

func (d *Decoder) listSchema(t reflect.Type, r *rule, path string) *jsonschema.Schema {
	fewest, most := r.fewest, r.atMost
	if t.Kind() == reflect.Array {
		fewest, most = t.Len(), t.Len()
	}
	return &jsonschema.Schema{
		Type:     "array",
		Items:    d.schemaOfType(t.Elem(), r.of(t.Elem()), path+"[]"),
		MinItems: count(fewest),
		MaxItems: count(most),
	}
}

func count(n int) *uint64 {
	if n == 0 {
		return nil
	}
	u := uint64(n)
	return &u
}

func (d *Decoder) groupSchema(t reflect.Type, path string) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "object", AdditionalProperties: jsonschema.FalseSchema, Properties: jsonschema.NewProperties()}
	for _, f := range d.fieldsOf(t) {
		where := joined(path, f.name)
		if f.rule.doc == "" {
			panic(where + " has no doc tag")
		}
		if f.rule.defaults {
			d.fallback(path, f, reflect.New(f.typ).Elem())
		} else if !f.rule.optional && f.typ.Kind() != reflect.Pointer {
			s.Required = append(s.Required, f.name)
		}
		s.Properties.Set(f.name, d.schema(f.typ, f.rule, where))
	}
	return s
}

// scalarSchema allows a plain number wherever a text is read, for that is how
// an editor sees 8 or 014.
func (d *Decoder) scalarSchema(t reflect.Type, r *rule) *jsonschema.Schema {
	_, quantity := kindOf(t)
	switch {
	case quantity:
		return quantitySchema(r)
	case sizeOf(t) > 0:
		return &jsonschema.Schema{Type: "string", Pattern: units.SizePattern(sizeOf(t)), Examples: []any{
			d.sizeExample(r, t), units.SizeExample(sizeOf(t), units.Imperial),
		}}
	case t.Kind() == reflect.Int:
		s := &jsonschema.Schema{Type: "integer"}
		r.numberLimits(s)
		return s
	case t.Kind() == reflect.Bool:
		return &jsonschema.Schema{Type: "boolean"}
	}
	return textSchema(r)
}

func textSchema(r *rule) *jsonschema.Schema {
	if r.enum != nil {
		s := &jsonschema.Schema{}
		for _, word := range r.enum {
			s.Enum = append(s.Enum, word)
		}
		return s
	}
	s := &jsonschema.Schema{Extras: map[string]any{"type": []any{"string", "number", "boolean"}}, MaxLength: count(r.longest)}
	if !r.optional && !r.defaults {
		s.MinLength = count(1)
	}
	return s
}

func quantitySchema(r *rule) *jsonschema.Schema {
	s := &jsonschema.Schema{Pattern: r.kind.Pattern(), Extras: map[string]any{"type": []any{"number", "string"}}}
	if r.kind == units.KindNumber {
		r.numberLimits(s)
	}
	metric, imperial := r.working(units.Metric), r.working(units.Imperial, r.kind.Example(units.Imperial))
	s.Examples = []any{metric}
	if imperial != metric {
		s.Examples = append(s.Examples, imperial)
	}
	return s
}

// numberLimits states the limits of a pure number. Those of a quantity depend
// on the unit and stand in the description.
func (r *rule) numberLimits(s *jsonschema.Schema) {
	text := func(v *float64) json.Number {
		if v == nil {
			return ""
		}
		return json.Number(strconv.FormatFloat(*v, 'f', -1, 64))
	}
	s.Minimum, s.Maximum, s.ExclusiveMinimum = text(r.least), text(r.most), text(r.above)
}

// description is the doc tag with the limits and the unit of a bare number.
func (d *Decoder) description(t reflect.Type, r *rule) string {
	parts := []string{r.doc}
	if leaf := leafType(t); !isUnion(leaf) {
		if kind, ok := limited(leaf); ok && kind != units.KindNumber {
			parts = append(parts, r.of(leaf).limitsText(), r.of(leaf).bareText())
		}
	}
	return strings.TrimSpace(strings.Join(parts, " "))
}

func (r *rule) limitsText() string {
	var limits []string
	for _, l := range []struct{ word, tag string }{{"above", "above"}, {"at least", "min"}, {"at most", "max"}} {
		if text, ok := r.tags.Lookup(l.tag); ok {
			limits = append(limits, l.word+" "+text)
		}
	}
	if limits == nil {
		return ""
	}
	text := strings.Join(limits, ", ") + "."
	return strings.ToUpper(text[:1]) + text[1:]
}

func (r *rule) bareText() string {
	metric, imperial := r.bareUnit(units.Metric), r.bareUnit(units.Imperial)
	if metric == imperial {
		return "Without a unit: " + metric + "."
	}
	return "Without a unit: " + metric + ", in an imperial job " + imperial + "."
}

// defaultValue is the default as JSON has it.
func defaultValue(t reflect.Type, r *rule) any {
	switch leaf := t; {
	case isUnion(leaf):
	case leaf.Kind() == reflect.Bool:
		return r.fallback == "true"
	case leaf.Kind() == reflect.Int:
		return json.Number(r.fallback)
	}
	return r.fallback
}

package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// unknownKey reports a key that the group does not have, with the nearest one
// it has, or the place where such a key belongs.
func (d *Decoder) unknownKey(pair *ast.MappingValueNode, path string, fields []field) {
	key := keyText(pair)
	fix := "leave it out"
	if near := meant(key, fields); near != "" {
		fix = "did you mean " + near + "?"
	} else if home := d.home(key); home != "" {
		fix = quote(key) + " belongs " + home
	}
	d.failKey(pair, path, "there is no key "+quote(key)+" here", "the keys here are "+listed(fields), fix)
}

// meant is the key that was likely meant: one whose thing goes by that word too
// (`also` tag, "closure|closer"), or the nearest in letters.
func meant(key string, fields []field) string {
	for _, f := range fields {
		if also := f.rule.tags.Get("also"); also != "" && slices.Contains(strings.Split(also, "|"), folded(key)) {
			return f.name
		}
	}
	return nearest(key, names(fields))
}

// home says where else in the file a key belongs; "" for nowhere.
func (d *Decoder) home(key string) string {
	switch {
	case d.root == nil || isUnion(d.root) || d.root.Kind() != reflect.Struct:
		return ""
	case knownKey(d.fieldsOf(d.root), key):
		return "at the left margin"
	}
	if path := d.groupWith(key, d.root, "", 0); path != "" {
		return "under " + path
	}
	return ""
}

// groupWith finds the first group below a type that has the key.
func (d *Decoder) groupWith(key string, t reflect.Type, path string, depth int) string {
	t = leafType(t)
	if t.Kind() != reflect.Struct || isUnion(t) || sizeOf(t) > 0 || depth > mostDepth {
		return ""
	}
	fields := d.fieldsOf(t)
	if knownKey(fields, key) {
		return path
	}
	for _, f := range fields {
		if found := d.groupWith(key, f.typ, joined(path, f.name), depth+1); found != "" {
			return found
		}
	}
	return ""
}

func names(fields []field) []string {
	list := make([]string, len(fields))
	for i, f := range fields {
		list[i] = f.name
	}
	return list
}

func listed(fields []field) string { return strings.Join(names(fields), ", ") }

// nearest returns the word that differs least from text, if it is near enough
// to be a slip of the keys: one letter in three, capitals, dashes.
func nearest(text string, words []string) string {
	best, least := "", len([]rune(text))/3+1
	if len(text) > 64 {
		return ""
	}
	for _, word := range words {
		if n := edits(folded(text), folded(word)); n < least || (n == 0 && best == "") {
			best, least = word, n
		}
	}
	return best
}

func folded(text string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(text))
}

// edits counts the letters to insert, drop, change or swap with a neighbour to
// turn a into b (optimal string alignment distance).
func edits(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+changed(x[i-1], y[j-1]))
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

func changed(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}

// example returns a piece of YAML that works as a value of the type, for fixes.
func (d *Decoder) example(t reflect.Type, r *rule) string {
	switch {
	case isUnion(t) && r.sample != "":
		return r.sample
	case isUnion(t):
		return unionExample(t)
	}
	switch t.Kind() {
	case reflect.Pointer:
		return d.example(t.Elem(), r)
	case reflect.Slice, reflect.Array:
		if len(r.samples) > 0 {
			return "[" + strings.Join(r.samples, ", ") + "]"
		}
		return "[" + d.example(t.Elem(), r.of(t.Elem())) + "]"
	case reflect.Map:
		return "{name: " + d.example(t.Elem(), r.of(t.Elem())) + "}"
	case reflect.Struct:
		if sizeOf(t) == 0 {
			return "{…} with the keys " + listed(d.fieldsOf(t))
		}
		return d.sizeExample(r.of(t), t)
	}
	return d.scalarExample(t, r.of(t))
}

func (d *Decoder) scalarExample(t reflect.Type, r *rule) string {
	if _, ok := kindOf(t); ok {
		return r.working(d.system)
	}
	switch t.Kind() {
	case reflect.Int:
		return r.wholeExample()
	case reflect.Bool:
		return "true"
	}
	for _, word := range append([]string{r.sample, r.fallback}, r.enum...) {
		if word != "" {
			return word
		}
	}
	return "a text"
}

// unionExample takes an example from the type's own schema.
func unionExample(t reflect.Type) string {
	if node, ok := reflect.New(t).Interface().(SchemaNode); ok {
		if text := schemaExample(node.JSONSchemaNode()); text != "" {
			return text
		}
	}
	return "a value"
}

// schemaExample finds the first value that a schema names: an example, a
// constant, a choice, the least whole number, or that of its first form.
func schemaExample(node map[string]any) string {
	for _, key := range []string{"examples", "enum"} {
		if list, ok := node[key].([]any); ok && len(list) > 0 {
			return fmt.Sprint(list[0])
		}
	}
	for _, key := range []string{"const", "minimum"} {
		if value, ok := node[key]; ok {
			return fmt.Sprint(value)
		}
	}
	for _, key := range []string{"oneOf", "anyOf"} {
		if list, ok := node[key].([]any); ok && len(list) > 0 {
			return exampleOfPart(list[0], "%s")
		}
	}
	return exampleOfPart(node["items"], "[%s]")
}

func exampleOfPart(part any, layout string) string {
	if node, ok := part.(map[string]any); ok {
		if text := schemaExample(node); text != "" {
			return fmt.Sprintf(layout, text)
		}
	}
	return ""
}

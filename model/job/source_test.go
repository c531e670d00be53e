package job

import (
	"reflect"
	"strings"
	"testing"
)

// numericDefaults lists the keys below a struct, by path, whose default is a
// number, with the source each states.
func numericDefaults(t reflect.Type, path string, found map[string]string) {
	for i := range t.NumField() {
		f := t.Field(i)
		at := path + f.Tag.Get("yaml")
		if text, ok := f.Tag.Lookup("default"); ok && strings.ContainsAny(text, "0123456789") && leafType(f.Type).Kind() != reflect.String {
			found[at] = f.Tag.Get("source")
		}
		if leaf := leafType(f.Type); leaf.Kind() == reflect.Struct {
			numericDefaults(leaf, at+".", found)
		}
	}
}

func TestEveryDefaultThatIsANumberStatesItsSource(t *testing.T) {
	for name, of := range map[string]reflect.Type{"job": reflect.TypeFor[Job](), "gear": reflect.TypeFor[Gear]()} {
		found := map[string]string{}
		numericDefaults(of, "", found)
		if len(found) < 15 {
			t.Errorf("%s: only %d numeric defaults found", name, len(found))
		}
		for key, source := range found {
			if source == "" {
				t.Errorf("%s: %s has a number as its default and no source tag; write source:\"judgement\" where it is that", name, key)
			}
		}
	}
}

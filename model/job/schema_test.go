package job

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	validator "github.com/santhosh-tekuri/jsonschema/v6"
)

// compiled is the schema of a trial, ready to validate.
func compiled(t testing.TB) *validator.Schema {
	t.Helper()
	text, err := Schema[trial]("trial job")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := validator.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := validator.NewCompiler()
	if err := c.AddResource("trial.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("trial.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON reads YAML the way an editor does.
func asJSON(text string) (any, error) {
	asJSON, err := yaml.YAMLToJSON([]byte(text))
	if err != nil {
		return nil, err
	}
	return validator.UnmarshalJSON(bytes.NewReader(asJSON))
}

func TestSchemaIsTheGoldenOne(t *testing.T) {
	text, err := Schema[trial]("trial job")
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "trial.schema.json", text)
}

func TestSchemaAcceptsGoodFiles(t *testing.T) {
	schema := compiled(t)
	for _, text := range []string{good, base, "job: {name: 12}\nculvert: {span: 10', roof: 1, pours: [8], cells: [3 m], fall: 1 in 20, skew: 20° 30'}\n"} {
		if _, _, problems := Decode[trial]("job.yaml", []byte(text), units.Metric); len(problems) > 0 {
			t.Fatalf("not a good file: %v", problems)
		}
		doc, err := asJSON(text)
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(doc); err != nil {
			t.Errorf("%v\nin\n%s", err, text)
		}
	}
}

func TestSchemaRefusesMistakesThatAnEditorCanSee(t *testing.T) {
	schema := compiled(t)
	for _, name := range []string{
		"unknown key", "key of another group", "missing keys", "above most", "wrong kind", "comma", "list for a length",
		"length for a list", "length for a group", "empty list", "long list", "wrong list item", "wrong point",
		"key without value", "enum", "yes for true", "part of a pass", "too many passes", "size of one",
		"union count", "empty name", "a list as a file",
	} {
		doc, err := asJSON(wrongText(t, name))
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if schema.Validate(doc) == nil {
			t.Errorf("%s is accepted", name)
		}
	}
}

func wrongText(t *testing.T, name string) string {
	t.Helper()
	for _, c := range wrong {
		if c.name == name {
			return strings.Replace(c.text, "+", base, 1)
		}
	}
	t.Fatalf("no text is named %s", name)
	return ""
}

func TestSchemaExamplesAndDefaultsFitTheSchemaItself(t *testing.T) {
	text, err := Schema[trial]("trial job")
	if err != nil {
		t.Fatal(err)
	}
	var node map[string]any
	if err := json.Unmarshal(text, &node); err != nil {
		t.Fatal(err)
	}
	if n := checkExamples(t, node, "#"); n < 20 {
		t.Errorf("only %d examples and defaults were found", n)
	}
}

// checkExamples validates the examples and defaults of every scalar property.
func checkExamples(t *testing.T, node map[string]any, at string) int {
	found := 0
	properties, _ := node["properties"].(map[string]any)
	for name, property := range properties {
		p := property.(map[string]any)
		found += checkExamples(t, p, at+"/"+name)
		if p["anyOf"] != nil || p["type"] == "array" || p["type"] == "object" {
			continue
		}
		c := validator.NewCompiler()
		if err := c.AddResource("p.json", p); err != nil {
			t.Fatal(err)
		}
		s := c.MustCompile("p.json")
		values, _ := p["examples"].([]any)
		if value, ok := p["default"]; ok {
			values = append(values, value)
		}
		for _, value := range values {
			found++
			if err := s.Validate(value); err != nil {
				t.Errorf("%s/%s: %v", at, name, err)
			}
		}
	}
	return found
}

type unread struct{}

func (*unread) DecodeNode(*Decoder, ast.Node, string) {}

func TestSchemaFindsWrongTags(t *testing.T) {
	type noDoc struct {
		Span units.Length `yaml:"span"`
	}
	type badLimit struct {
		Span units.Length `yaml:"span" doc:"Span." min:"3 kN"`
	}
	type badDefault struct {
		Span units.Length `yaml:"span" doc:"Span." default:"3 m" max:"2 m"`
	}
	type badEnum struct {
		End string `yaml:"end" doc:"End." default:"left" enum:"front|rear"`
	}
	type noSchema struct {
		Cells unread `yaml:"cells" doc:"Cells."`
	}
	type noType struct {
		Any chan int `yaml:"any" doc:"Any."`
	}
	for name, err := range map[string]error{
		"no doc tag": errOf(Schema[noDoc]("a")), "is a force": errOf(Schema[badLimit]("b")), "above the most": errOf(Schema[badDefault]("c")),
		"not one of": errOf(Schema[badEnum]("d")), "no JSONSchemaNode": errOf(Schema[noSchema]("e")), "cannot be read from a file": errOf(Schema[noType]("f")),
	} {
		if err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("want %q, got %v", name, err)
		}
	}
}

func errOf(_ []byte, err error) error { return err }

func TestMinimumOfAPureNumberStandsInTheSchema(t *testing.T) {
	node := SchemaOf[units.Number](`min:"1" max:"10"`)
	if node["minimum"] != 1.0 || node["maximum"] != 10.0 {
		t.Errorf("limits are %v and %v", node["minimum"], node["maximum"])
	}
}

func FuzzSchema(f *testing.F) {
	schema := compiled(f)
	f.Add(good)
	for _, c := range wrong {
		f.Add(strings.Replace(c.text, "+", base, 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		value, decoded, _ := Decode[trial]("job.yaml", []byte(text), units.Metric)
		if value == nil || strings.ContainsAny(text, `'"`) || decoded == nil {
			return
		}
		doc, err := asJSON(text)
		if err != nil {
			return
		}
		if err := schema.Validate(doc); err != nil {
			t.Fatalf("Decode reads it, the schema does not: %v", err)
		}
	})
}

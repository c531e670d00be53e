package job

import (
	"reflect"
	"strings"
	"testing"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// reach is a reading by itself or counted from another: 590, raised - 25.
type reach struct {
	From string
	By   []units.Length
}

func (r *reach) DecodeNode(d *Decoder, n ast.Node, path string) {
	text, ok := d.Text(n)
	if !ok {
		d.Value(n, path, &r.By)
		return
	}
	var by units.Length
	if rest, from := strings.CutPrefix(text, "raised - "); from {
		r.From, text = "raised", rest
	}
	d.ValueText(n, text, path, &by)
	r.By = append(r.By, by)
}

func (reach) JSONSchemaNode() map[string]any {
	return map[string]any{"oneOf": []any{map[string]any{"type": "array", "items": SchemaOf[units.Length]("")}}}
}

type reaches struct {
	Jack  reach            `yaml:"jack" unit:"mm" min:"10 mm" max:"400 mm" doc:"Reading, mm or in."`
	Other map[string]reach `yaml:"other" optional:"true" unit:"mm" max:"400 mm" doc:"Readings, mm or in."`
}

func TestTagsOfTheFieldHoldInsideATypeWithSeveralForms(t *testing.T) {
	got, decoded, problems := Decode[reaches]("a.yaml", []byte("jack: raised - 25\nother: {b: [30, 40 mm], a: 3}\n"), units.Metric)
	if got == nil {
		t.Fatal(problems)
	}
	want := &reaches{reach{"raised", []units.Length{0.025}}, map[string]reach{"a": {"", []units.Length{0.003}}, "b": {"", []units.Length{0.03, 0.04}}}}
	if !reflect.DeepEqual(got, want) || decoded.Place("other.b[1]").Column != 17 {
		t.Errorf("got %+v, want %+v; place %v", got, want, decoded.Place("other.b[1]"))
	}
	_, _, problems = Decode[reaches]("a.yaml", []byte("jack: raised - 5\nother: {b: [30, 4 m]}\n"), units.Metric)
	want2 := "a.yaml:1:7: error: jack: 5 is read as 5 mm, which is below the least, 10 mm (10 mm - 5 mm = 5 mm short); write 5 cm if that is meant\n" +
		"a.yaml:2:17: error: other.b #2: 4 m is above the most, 400 mm (4000 mm - 400 mm = 3600 mm too much); write for example 150 mm"
	if got := problems.Error(); got != want2 {
		t.Errorf("got\n%s\nwant\n%s", got, want2)
	}
	_, _, problems = Decode[reaches]("a.yaml", []byte("{}"), units.Metric)
	if got := problems[0].Fix; got != "add jack: [150 mm]" {
		t.Errorf("fix of a missing key: %s", got)
	}
}

func TestCheckRunsOnlyOnWhatWasReadWithoutAProblem(t *testing.T) {
	for text, want := range map[string]int{
		"{width: 300 mm, depth: 400 mm}": 1, // the rule
		"{width: 3 kN, depth: 400 mm}":   1, // the kind, not the rule
		"{depth: 400 mm}":                1, // the missing key
		"{width: 400 mm, depth: 300 mm}": 0,
	} {
		_, _, problems := Decode[trial]("job.yaml", []byte(base+"channel: "+text+"\n"), units.Metric)
		if len(problems) != want {
			t.Errorf("%s: %d problems: %v", text, len(problems), problems)
		}
	}
}

func TestInlineKeysBelongToTheGroupAround(t *testing.T) {
	type inline struct {
		Channel trialChannel `yaml:",inline"`
		Name    string       `yaml:"name" doc:"Name."`
		Worked  float64      // no key
	}
	got, _, problems := Decode[inline]("a.yaml", []byte("{width: 1 m, name: a, depth: 10 mm}"), units.Metric)
	if got == nil || got.Channel.Width != 1 || got.Channel.Depth != 0.01 {
		t.Errorf("got %+v, %v", got, problems)
	}
	if _, _, problems = Decode[inline]("a.yaml", []byte("{Worked: 1, width: 1 m, name: a, depth: 1 m}"), units.Metric); len(problems) != 1 {
		t.Errorf("a field without a key was read: %v", problems)
	}
}

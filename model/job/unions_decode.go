package job

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// DecodeNode reads a number of cells or a list of {span, rise}.
func (c *Cells) DecodeNode(d *Decoder, n ast.Node, path string) {
	if d.IsList(n) {
		d.ValueTagged(n, path, &c.List, `minitems:"1" maxitems:"12"`)
		return
	}
	d.ValueTagged(n, path, &c.Count, `min:"1" max:"12"`)
}

// JSONSchemaNode describes both forms.
func (Cells) JSONSchemaNode() map[string]any {
	return oneOf("2", map[string]any{"type": "integer", "minimum": 1, "maximum": 12}, listOf(SchemaOf[Cell]("")))
}

// DecodeNode reads a list of lengths or {each, total}.
func (p *Pours) DecodeNode(d *Decoder, n ast.Node, path string) {
	if d.IsList(n) {
		d.ValueTagged(n, path, &p.List, `example:"9 m" above:"0 m" max:"100 m" minitems:"1" maxitems:"240"`) // mostBays
		return
	}
	if text, ok := d.Text(n); ok {
		d.Fail(n, path, d.Describe(n)+" is no list of pours", "", "write ["+text+"], or {each: 9 m, total: 33.5 m}")
		return
	}
	var equal struct {
		Each  units.Length `yaml:"each" example:"9 m" above:"0 m" max:"100 m" doc:"Length of every pour but the last."`
		Total units.Length `yaml:"total" example:"33.5 m" above:"0 m" max:"20000 m" doc:"Length of all pours together."`
	}
	if d.ValueTagged(n, path, &equal, "") {
		p.Each, p.Total = equal.Each, equal.Total
		if most := mostBays * p.Each; p.Total > most {
			d.FailAt(path+".total", fmt.Sprintf("%s makes more than %d pours of %s", p.Total.Text(d.System()), mostBays, p.Each.Text(d.System())), "", "write at most "+most.Text(d.System()))
		}
	}
}

// JSONSchemaNode describes both forms.
func (Pours) JSONSchemaNode() map[string]any {
	length := SchemaOf[units.Length]("")
	return oneOf("[8 m, 9 m, 9 m]", listOf(length), map[string]any{"type": "object", "additionalProperties": false, "required": []any{"each", "total"},
		"properties": map[string]any{"each": length, "total": length}})
}

// DecodeNode reads the word ahead or a list of castings.
func (o *Order) DecodeNode(d *Decoder, n ast.Node, path string) {
	if text, ok := d.Text(n); ok {
		if text != "ahead" {
			d.Fail(n, path, d.Describe(n)+" is no order", "", "write ahead, or a list of pour numbers such as [2, 1, 3]")
		}
		return
	}
	d.ValueTagged(n, path, &o.List, `minitems:"1" maxitems:"240"`) // mostBays
}

// JSONSchemaNode describes both forms.
func (Order) JSONSchemaNode() map[string]any {
	return oneOf("ahead", map[string]any{"const": "ahead"}, listOf(Casting{}.JSONSchemaNode()))
}

// DecodeNode reads the number of a pour that is cast in all cells together, or
// {cell, pour} for one that is cast in one cell.
func (c *Casting) DecodeNode(d *Decoder, n ast.Node, path string) {
	if !d.IsKeys(n) {
		d.ValueTagged(n, path, &c.Pour, `min:"1" max:"240"`) // mostBays
		return
	}
	var one struct {
		Cell int `yaml:"cell" min:"1" max:"12" doc:"Cell that is cast, from the left looking ahead."`
		Pour int `yaml:"pour" min:"1" max:"240" doc:"Pour that is cast in it."`
	}
	if d.ValueTagged(n, path, &one, "") {
		c.Cell, c.Pour = one.Cell, one.Pour
	}
}

// JSONSchemaNode describes both forms.
func (Casting) JSONSchemaNode() map[string]any {
	number := map[string]any{"type": "integer", "minimum": 1}
	return oneOf("2", number, map[string]any{"type": "object", "additionalProperties": false, "required": []any{"cell", "pour"},
		"properties": map[string]any{"cell": number, "pour": number}})
}

// DecodeNode reads one length or a list of lengths.
func (l *Lengths) DecodeNode(d *Decoder, n ast.Node, path string) {
	if d.IsList(n) {
		if len(d.Items(n)) == 0 {
			d.Fail(n, path, "is an empty list", "", "write for example 150 mm, or leave the key out")
		}
		for i, each := range d.Items(n) {
			var v units.Length
			d.Value(each, d.ItemPath(path, i), &v)
			*l = append(*l, v)
		}
		return
	}
	var v units.Length
	d.Value(n, path, &v)
	*l = Lengths{v}
}

// JSONSchemaNode describes both forms.
func (Lengths) JSONSchemaNode() map[string]any {
	length := SchemaOf[units.Length]("")
	return oneOf("150 mm", length, listOf(length))
}

// DecodeNode reads square, along the skew, or an angle.
func (s *JointSkew) DecodeNode(d *Decoder, n ast.Node, path string) {
	switch text, _ := d.Text(n); text {
	case "square":
	case "along the skew":
		s.Along = true
	default:
		d.ValueTagged(n, path, &s.Angle, `min:"-60 deg" max:"60 deg"`)
	}
}

// JSONSchemaNode describes all forms.
func (JointSkew) JSONSchemaNode() map[string]any {
	return map[string]any{"examples": []any{"square"}, "anyOf": []any{map[string]any{"enum": []any{"square", "along the skew"}}, SchemaOf[units.Angle]("")}}
}

// DecodeNode reads a length, or one of the words raised and wheels with a
// length added or taken off: `590 mm`, `raised - 25 mm`, `wheels`.
func (t *Target) DecodeNode(d *Decoder, n ast.Node, path string) {
	text, ok := d.Text(n)
	if !ok {
		d.Fail(n, path, "is "+d.Describe(n)+"; a reading is expected", "", "write for example 590 mm, raised - 25 mm or wheels")
		return
	}
	for _, word := range []string{"raised", "wheels"} {
		if rest, found := strings.CutPrefix(text, word); found {
			t.From = word
			rest = strings.TrimSpace(rest)
			if rest == "" {
				return
			}
			sign, length := units.Length(1), ""
			if length, found = strings.CutPrefix(rest, "+"); !found {
				if length, found = strings.CutPrefix(rest, "-"); found {
					sign = -1
				}
			}
			if !found {
				d.Fail(n, path, fmt.Sprintf("%q does not say whether to add or take away", text), "", fmt.Sprintf("write for example %s - %s", word, rest))
				return
			}
			d.ValueText(n, strings.TrimSpace(length), path, &t.By)
			t.By *= sign
			return
		}
	}
	d.ValueText(n, text, path, &t.By)
}

// JSONSchemaNode describes all forms.
func (Target) JSONSchemaNode() map[string]any {
	return map[string]any{"examples": []any{"590 mm", "raised - 25 mm", "wheels"}, "anyOf": []any{SchemaOf[units.Length](""), map[string]any{"type": "string", "pattern": `^(raised|wheels)( *[+-] *.+)?$`}}}
}

// DecodeNode reads an angle with left or right behind it.
func (t *Turn) DecodeNode(d *Decoder, n ast.Node, path string) {
	text, _ := d.Text(n)
	angle, left := strings.CutSuffix(text, "left")
	if !left {
		var right bool
		if angle, right = strings.CutSuffix(text, "right"); !right {
			d.Fail(n, path, d.Describe(n)+" does not say to which side", "", "write for example 1 deg left")
			return
		}
	}
	before := t.Angle
	if d.ValueText(n, strings.TrimSpace(angle), path, &t.Angle) && (t.Angle <= 0 || t.Angle > units.Angle(math.Pi/4)) {
		d.Fail(n, path, d.Describe(n)+" is no angle point that a box can have", "more than 0 and at most 45 deg", "write for example 1 deg left")
		t.Angle = before
	}
	if !left {
		t.Angle = -t.Angle
	}
}

// JSONSchemaNode describes the text.
func (Turn) JSONSchemaNode() map[string]any {
	return map[string]any{"type": "string", "pattern": `^.+ (left|right)$`, "examples": []any{"1 deg left"}}
}

func oneOf(example string, forms ...map[string]any) map[string]any {
	list := make([]any, len(forms))
	for i, f := range forms {
		list[i] = f
	}
	return map[string]any{"examples": []any{example}, "oneOf": list}
}

func listOf(items map[string]any) map[string]any {
	return map[string]any{"type": "array", "items": items}
}

package job

import (
	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// Curing is the temperature of concrete since casting: one mean throughout, or
// spell after spell.
type Curing struct {
	Mean   *units.Temperature // nil where spells are listed
	Spells []Spell
}

// Spell is a time at one mean temperature.
type Spell struct {
	For units.Duration    `yaml:"for" example:"24 h" above:"0 h" max:"1000 d" doc:"How long."`
	At  units.Temperature `yaml:"at" example:"12 degC" min:"-40 degC" max:"100 degC" doc:"Mean temperature of the concrete during it."`
}

// DecodeNode reads a temperature or a list of {for, at}. What no formula holds
// for, frost, is read: it is concrete as it was, and leaves a check open.
func (c *Curing) DecodeNode(d *Decoder, n ast.Node, path string) {
	if d.IsList(n) {
		d.ValueTagged(n, path, &c.Spells, `minitems:"1" maxitems:"3000"`)
		return
	}
	d.ValueTagged(n, path, &c.Mean, `example:"12 degC" min:"-40 degC" max:"100 degC"`)
}

// JSONSchemaNode describes both forms.
func (Curing) JSONSchemaNode() map[string]any {
	return oneOf("12 degC", SchemaOf[units.Temperature](`min:"-40 degC" max:"100 degC"`), listOf(SchemaOf[Spell]("")))
}

package job

import (
	"strings"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// Curing is a temperature since casting, of concrete or of the air: one mean
// throughout, spell after spell, or a file with readings.
type Curing struct {
	Mean   *units.Temperature // nil where spells are listed
	Spells []Spell            // as listed, or as the file has them once it was read
	File   string             // name of the file, relative to the job file; empty where there is none
}

// Spell is a time at one mean temperature.
type Spell struct {
	For units.Duration    `yaml:"for" example:"24 h" above:"0 h" max:"1000 d" doc:"How long."`
	At  units.Temperature `yaml:"at" example:"12 degC" min:"-40 degC" max:"100 degC" doc:"Mean temperature of the concrete during it."`
}

// NamesTemperatures tells whether a text is the name of a file with readings, by how it
// ends.
func NamesTemperatures(text string) bool {
	return strings.HasSuffix(strings.ToLower(strings.TrimSpace(text)), ".csv")
}

// DecodeNode reads a temperature, a list of {for, at}, or the name of a CSV file. What
// no formula holds for, frost, is read: it is concrete as it was, and leaves a check
// open.
func (c *Curing) DecodeNode(d *Decoder, n ast.Node, path string) {
	if d.IsList(n) {
		d.ValueTagged(n, path, &c.Spells, `minitems:"1" maxitems:"3000"`)
		return
	}
	if text, ok := d.Text(n); ok && NamesTemperatures(text) {
		d.ValueTagged(n, path, &c.File, "")
		return
	}
	d.ValueTagged(n, path, &c.Mean, `example:"12 degC" min:"-40 degC" max:"100 degC"`)
}

// JSONSchemaNode describes the three forms.
func (Curing) JSONSchemaNode() map[string]any {
	return oneOf("12 degC", SchemaOf[units.Temperature](`min:"-40 degC" max:"100 degC"`), listOf(SchemaOf[Spell]("")),
		map[string]any{"type": "string", "pattern": `\.[cC][sS][vV]$`})
}

// CuringKeys are the keys that hold temperatures, and so may name a file.
func CuringKeys() []string {
	return []string{"concrete.curing", "concrete.walls_curing", "concrete.roof_curing", "release.air"}
}

// CuringAt is the temperature that one of CuringKeys holds; nil where none is stated.
func (j *Job) CuringAt(key string) *Curing {
	return map[string]*Curing{"concrete.curing": j.Concrete.Curing, "concrete.walls_curing": j.Concrete.WallsCuring,
		"concrete.roof_curing": j.Concrete.RoofCuring, "release.air": j.Release.Air}[key]
}

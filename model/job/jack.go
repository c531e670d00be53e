package job

import (
	"fmt"

	"boxwalk/model/units"

	"github.com/goccy/go-yaml/ast"
)

// JackCapacity is what a screw jack carries: one value, or rows by its reading.
type JackCapacity struct {
	Single units.Force // 0 is not stated
	Rows   []JackRow
}

// JackRow is what a jack carries at a reading.
type JackRow struct {
	Extension units.Length `yaml:"extension" example:"300 mm" above:"0 mm" max:"5 m" doc:"The jack's reading, from the sill's underside to the plate's underside."`
	Capacity  units.Force  `yaml:"capacity" example:"45 kN" above:"0 kN" max:"10000 kN" doc:"What it carries there; straight between two rows."`
}

// DecodeNode reads a force or a list of {extension, capacity}.
func (c *JackCapacity) DecodeNode(d *Decoder, n ast.Node, path string) {
	if !d.IsList(n) {
		d.ValueTagged(n, path, &c.Single, `example:"60 kN" min:"0 kN" max:"10000 kN"`)
		return
	}
	if !d.ValueTagged(n, path, &c.Rows, `minitems:"1" maxitems:"50"`) {
		return
	}
	sys := d.System()
	for i := 1; i < len(c.Rows); i++ {
		before, row := c.Rows[i-1], c.Rows[i]
		if row.Extension <= before.Extension {
			d.FailAt(item(path, i)+".extension", row.Extension.Text(sys)+" is not more than in the row before", "rows go from the least extension to the greatest", "write more than "+before.Extension.Text(sys))
		}
		if row.Capacity > before.Capacity {
			d.FailAt(item(path, i)+".capacity", fmt.Sprintf("%s is more than %s of a jack that is extended less", units.KindForce.Text(float64(row.Capacity), sys), units.KindForce.Text(float64(before.Capacity), sys)), "a jack carries less the further it is out", "write at most "+units.KindForce.Text(float64(before.Capacity), sys))
		}
	}
}

// JSONSchemaNode describes both forms.
func (JackCapacity) JSONSchemaNode() map[string]any {
	return oneOf("60 kN", SchemaOf[units.Force](`min:"0 kN" max:"10000 kN"`), listOf(SchemaOf[JackRow]("")))
}

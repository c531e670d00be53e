package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"boxwalk/model/units"
)

// Capacities say what the stated capacities of a file are: whose numbers, and what
// loads are held against them. Without them no capacity of the file is used.
type Capacities struct {
	CapacityBasis `yaml:",inline"`
	But           map[string]CapacityBasis `yaml:"but" optional:"true" doc:"Capacities of another basis or source, by their key, such as jack.capacity."`
}

// CapacityBasis is what a stated capacity is worth and who says so.
type CapacityBasis struct {
	Basis  string `yaml:"basis" enum:"permissible|factored" doc:"permissible: safety is in the number, and loads are held against it as they are. factored: a design resistance, and loads are multiplied by load_factors of the job first."`
	Source string `yaml:"source" example:"owner's load tables of 2029" doc:"Where the numbers are from, in the words of whoever answers for them."`
}

// Bases of a capacity.
const (
	Permissible = "permissible"
	Factored    = "factored"
)

// LoadFactors multiply loads that are held against a factored capacity.
type LoadFactors struct {
	Dead     units.Number `yaml:"dead" default:"1.35" source:"EN 1990 table A1.2(B), from memory" safer:"more" min:"1" max:"5" doc:"On what weighs: carrier, panels, concrete."`
	Live     units.Number `yaml:"live" default:"1.5" source:"EN 1990 table A1.2(B), from memory" safer:"more" min:"1" max:"5" doc:"On people, tools and placing, and on what it takes to pull, hold and steer the carrier."`
	Pressure units.Number `yaml:"pressure" default:"1.5" source:"DIN 18218, partial factor on the pressure of fresh concrete, from memory" safer:"more" min:"1" max:"5" doc:"On the pressure of fresh concrete."`
	Wind     units.Number `yaml:"wind" default:"1.5" source:"EN 1990 table A1.2(B), from memory" safer:"more" min:"1" max:"5" doc:"On wind."`
}

// Rating is one capacity as a file states it.
type Rating struct {
	Key   string   // such as wheels.capacity
	File  string   // gear or job
	Value *float64 // SI; nil where it is not stated
	CapacityBasis
}

// Rated is a capacity of a file under its key with what the file says of it.
func Rated[T ~float64](c *Capacities, file, key string, value *T) Rating {
	r := Rating{Key: key, File: file}
	if value != nil {
		v := float64(*value)
		r.Value = &v
	}
	if c != nil {
		r.CapacityBasis = c.of(key)
	}
	return r
}

// of is the basis of a capacity by its key.
func (c *Capacities) of(key string) CapacityBasis {
	if own, is := c.But[key]; is {
		return own
	}
	return c.CapacityBasis
}

// Rated is a capacity of the gear file under its key.
func (g *Gear) Rated(key string, value *float64) Rating {
	return Rated(g.Capacities, "gear", key, value)
}

// Rated is a capacity of the job file under its key.
func (j *Job) Rated(key string, value *float64) Rating {
	return Rated(j.Capacities, "job", key, value)
}

// IfStated is a number where 0 is not stated: nil for that.
func IfStated[T ~float64](v T) *float64 {
	if v == 0 {
		return nil
	}
	f := float64(v)
	return &f
}

// Pointed is an optional number as a plain one.
func Pointed[T ~float64](v *T) *float64 {
	if v == nil {
		return nil
	}
	f := float64(*v)
	return &f
}

// capacityKeys are the keys of a file that state a capacity (tag rated), without the
// places in lists.
func capacityKeys(root reflect.Type) []string {
	var out []string
	var walk func(t reflect.Type, path string)
	walk = func(t reflect.Type, path string) {
		for _, f := range structFields(t) {
			key := joined(path, f.name)
			if f.rule.tags.Get("rated") == "true" {
				out = append(out, key)
			}
			if leaf := leafType(f.typ); leaf.Kind() == reflect.Struct && !isUnion(leaf) && sizeOf(leaf) == 0 {
				walk(leaf, key)
			}
		}
	}
	walk(root, "")
	return out
}

// Check asks that exceptions name capacities of the file.
func (c *Capacities) Check(d *Decoder, path string) {
	c.CapacityBasis.Check(d, path)
	keys := capacityKeys(d.root)
	for _, key := range SortedKeys(c.But) {
		if slices.Contains(keys, key) {
			continue
		}
		fix := "take it out"
		if near := nearest(key, keys); near != "" {
			fix = "did you mean " + near + "?"
		}
		d.FailAt(joined(path+".but", key), fmt.Sprintf("%q is no capacity of this file", key), "capacities here are "+strings.Join(keys, ", "), fix)
	}
}

// Check asks that the source says something.
func (c *CapacityBasis) Check(d *Decoder, path string) {
	if strings.TrimSpace(c.Source) == "" {
		d.FailAt(path+".source", "says nothing", "whoever reads a verdict must know whose numbers it rests on", "write for example source: owner's load tables of 2029")
	}
}

// checkCovered asks that whoever covers a check is named.
func (j *Job) checkCovered(d *Decoder) {
	for _, id := range SortedKeys(j.CoveredBy) {
		if strings.TrimSpace(j.CoveredBy[id]) == "" {
			d.FailAt("covered_by."+id, "names nobody", "results print beside the check who covers it", "write for example "+id+": permit 12, sheet 3")
		}
	}
}

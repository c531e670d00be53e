package check

import (
	"boxwalk/model/frame"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// jackCarries is what a screw jack is stated for at a reading; nil where nothing is, such
// as beyond the last row. Less far out than the first row it carries what that has.
func jackCarries(c *job.JackCapacity, reading float64) *float64 {
	if c == nil || len(c.Rows) == 0 && c.Single == 0 {
		return nil
	}
	if len(c.Rows) == 0 {
		return job.Pointed(&c.Single)
	}
	var table frame.JackTable
	for _, row := range c.Rows {
		table = append(table, frame.Extended{Extension: row.Extension, Capacity: row.Capacity})
	}
	v, err := table.At(max(units.Length(reading), table[0].Extension))
	if err != nil {
		return nil
	}
	return job.Pointed(&v)
}

package result

import "boxwalk/model/culvert"

// AllowanceRow is how the allowance of a surface of a cell comes about: tolerance by
// tolerance, each as far as it lies square to the surface, and their root-sum-square
// on the last line. What slopes and grade breaks add stands in each entry.
type AllowanceRow struct {
	Cell      int          `json:"cell"`
	Zone      culvert.Zone `json:"zone"`
	WorstCase float64      `json:"worst_case"` // all of them added up, metres
	Working   []Line       `json:"working"`
}

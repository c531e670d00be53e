package result

// PlanRow is one piece of work of the plan of the pours, see time.cycle. Hours count
// from midnight of the day of the start.
type PlanRow struct {
	Pour   int     `json:"pour"`
	Cell   int     `json:"cell"` // 0: all cells that are cast together
	Work   string  `json:"work"` // raise, close, pour, free, roll
	Gang   string  `json:"gang"`
	From   float64 `json:"from"`   // h
	To     float64 `json:"to"`     // h
	Begins string  `json:"begins"` // date and time, or the day and time where no date is stated
	Ends   string  `json:"ends"`
	Waited float64 `json:"waited"` // h, from when all that it follows was done
	For    string  `json:"for"`    // what it waited for
}

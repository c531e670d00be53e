package carrier

// Dimension is what a finding is about, so that nobody has to read it from its name.
type Dimension int

// The dimensions of a setting.
const (
	CornerSize Dimension = iota + 1
	WallStack
	WallFoot
	KickerReach
	RoofWidth
	FillerWidth
	LegLength
	LegOverlap
	JackReading
	Gauge
	ArmOverlap
)

// Finding is a setting that was asked for or worked out, against what the gear
// can do. Margin is negative when it cannot be reached.
type Finding struct {
	Of       Dimension
	Subject  string  // the dimension in words: "leg length"
	State    string  // raised, collapsed, or the step
	Value    float64 // asked for, m
	Min, Max float64 // what the gear can do, m
	Off      float64 // distance from the nearest available increment, m
	Text     Words   // the arithmetic
	Bent     int
}

// incrementSlack is how far a reading may lie from an available increment and
// still count as on it: a pin's usual play, judgement.
const incrementSlack = 0.5e-3

// rangeSlack covers rounding of readings that stand exactly at an end of their
// range; a micrometre is far below what anyone can set.
const rangeSlack = 1e-6

// Reached tells whether the gear can do what is asked.
func (f Finding) Reached() bool {
	return f.Value >= f.Min-rangeSlack && f.Value <= f.Max+rangeSlack && f.Off <= incrementSlack
}

// Margin is how far the value lies inside the range; negative outside.
func (f Finding) Margin() float64 { return min(f.Value-f.Min, f.Max-f.Value) }

package result

import "boxwalk/model/geom"

// Setting is how one adjuster stands, raised and collapsed, at one bent.
type Setting struct {
	Cell      int     `json:"cell"`
	Pour      int     `json:"pour"`
	Bent      int     `json:"bent"`
	Adjuster  string  `json:"adjuster"`
	Raised    float64 `json:"raised"`
	Collapsed float64 `json:"collapsed"`
	Unit      string  `json:"unit"`
}

// StepRow is one step at one pour, as the crew does it, with the gaps at its
// end.
type StepRow struct {
	Cell    int       `json:"cell"`
	Pour    int       `json:"pour"`
	Name    string    `json:"name"`
	Hold    []string  `json:"hold"` // what a named person confirms before it begins
	Say     string    `json:"say"`
	Caution string    `json:"caution"`
	Removes []string  `json:"removes"`
	Moves   []MoveRow `json:"moves"`
	End     []EndRow  `json:"end"`
	EndOf   *PourRef  `json:"end_of"`      // where End stands, if it is that of a pour which is alike; nil where it stands here
	Level   *LevelRow `json:"level"`       // nil in steps in which no jack is turned while it carries
	Lag     *LagRow   `json:"out_of_step"` // nil in steps that turn fewer than two adjusters beside jacks
}

// PourRef names one pour of one cell.
type PourRef struct {
	Cell int `json:"cell"`
	Pour int `json:"pour"`
}

// LevelRow is how far jacks may get ahead of each other in a step, metres.
type LevelRow struct {
	Kept float64 `json:"kept"` // what the checks are made with: tolerance jack_level
	Safe float64 `json:"safe"` // up to which nothing is entered; at most strip.level
	Say  string  `json:"say"`  // the same for the crew, in the job's units
}

// LagRow is how far adjusters that a step turns together may get out of step, metres.
type LagRow struct {
	Kept float64 `json:"kept"` // what the checks are made with: tolerance lag
	Say  string  `json:"say"`  // the same for the crew, in the job's units
}

// MoveRow is one adjuster's reading over a step.
type MoveRow struct {
	Adjuster string  `json:"adjuster"`
	From     float64 `json:"from"`
	To       float64 `json:"to"`
	Follows  bool    `json:"follows"`
	Unit     string  `json:"unit"`
}

// EndRow is the least gap at a step's end between parts of one role and a zone
// or parts of another role; the part named is the one that governs.
type EndRow struct {
	Part    string  `json:"part"`
	Role    string  `json:"role"`
	Side    string  `json:"side"`
	Against string  `json:"against"`
	Value   Bracket `json:"value"`
}

// PartRow is the bracket of one part against one zone over one step. Upper is
// +Inf where the part is only known to stay at least Lower away.
type PartRow struct {
	Cell, Pour int
	Step       string
	Part, Role string
	Zone       string
	Contact    bool // declared to touch during this step
	Value      Bracket
	At         float64
}

// RaisingRow is one step of raising the carrier for a pour, before that is cast: a
// step of the collapse taken back, in which something moves or is put back.
type RaisingRow struct {
	Cell     int           `json:"cell"`
	Pour     int           `json:"pour"`
	Name     string        `json:"name"`
	Hold     []string      `json:"hold"` // what a named person has seen before it begins
	Say      string        `json:"say"`
	Caution  string        `json:"caution"`     // that of the step taken back
	Moves    []MoveRow     `json:"moves"`       // readings at its beginning and end
	PutsBack []string      `json:"puts_back"`   // after everything has moved
	Level    *RaisingLevel `json:"level"`       // nil in steps in which no jack moves the carrier
	Lag      *LagRow       `json:"out_of_step"` // as in StepRow
	Unproved []string      `json:"not_proved"`  // the checks of raising that do not pass in this step, by id and subject
}

// RaisingLevel is how far places at which the carrier is raised may get ahead of
// each other in a step. How much would still be safe is not worked out.
type RaisingLevel struct {
	Kept float64 `json:"kept"` // metres, what the checks are made with: lifting pass or last, or tolerance jack_level
	Say  string  `json:"say"`  // the same for the crew, in the job's units

	What  string `json:"-"` // what gets ahead: pads or jacks
	Order string `json:"-"` // what Say says whether proved or not
}

// RollingRow is the way from where the carrier stands for one pour to where it stands
// for the next that it casts, or out over an end, as the crew takes it.
type RollingRow struct {
	Cell     int      `json:"cell"`
	Pour     int      `json:"pour"`
	To       int      `json:"to"`   // the pour it rolls to; 0 out over an end
	Name     string   `json:"name"` // which way, how far and where to
	Way      float64  `json:"way"`  // metres along the inverts, negative back
	Hold     []string `json:"hold"` // what a named person has seen before it begins
	Say      string   `json:"say"`
	Caution  string   `json:"caution"`
	Unproved []string `json:"not_proved"` // the checks of the way that do not pass, by id and subject

	Poses []RolledPose `json:"-"` // from its beginning to its end; none where nobody asked for more than verdicts
}

// RolledPose is where the carrier is at a share of its way, from where it stands
// collapsed, in the frame of cell and pour. Between two of them geom.Between keeps within
// 0.05 mm of where the carrier rolls, as geom.Keys looks at it.
type RolledPose struct {
	Share float64
	Pose  geom.Pose
}

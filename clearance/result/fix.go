package result

// FixRow is one change in a file with which a check, or the whole job, passes. From and To
// are SI; where CountedFrom is not empty they are counted from that reading.
type FixRow struct {
	Text        string  `json:"text"`
	Dimension   string  `json:"dimension"`
	Ease        Ease    `json:"by"`
	File        string  `json:"file"`
	Key         string  `json:"key"`
	CountedFrom string  `json:"counted_from"`
	From        float64 `json:"from"`
	To          float64 `json:"to"`
	Unit        string  `json:"unit"`

	Check  string   `json:"check"`  // the check that it fixes by itself; empty for the whole job
	Breaks []string `json:"breaks"` // ids of which something passes no longer with it
	Passes bool     `json:"passes"` // the whole job passes with it
}

// Ease is who can make a change. The zero value is the easiest.
type Ease int

func (e Ease) String() string { return [numEases]string{"site", "yard", "works"}[e] }

// MarshalText writes the ease as a word.
func (e Ease) MarshalText() ([]byte, error) { return []byte(e.String()), nil }

// The eases.
const (
	OnSite   Ease = iota // a reading, a setting, a wait, a stronger line: the gear stays as it is
	InYard               // a panel, a packing, a tube: the gear changes
	InWorks              // what is cast changes
	numEases = iota
)

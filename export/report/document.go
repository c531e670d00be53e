package report

import (
	"boxwalk/clearance/result"
	"boxwalk/export/plot"
)

// Document is a report.
type Document struct {
	Title   string // Calculation report
	Job     string // number and name
	Verdict string // in a word or two
	Stamp   string // NOT CLEARED, or empty
	Origin  string // version and inputs, for the foot of every page
	Letter  bool   // on letter paper, else A4
	Dated   string // date of issue as the job states it; empty where it is stamped
	Front   []Block
	Parts   []Chapter
}

// Chapter is one chapter.
type Chapter struct {
	ID     string // letters and -, for links
	Title  string
	Blocks []Block
}

// Block is one of the kinds below.
type Block interface{ block() }

// Tone is how much a text or row matters.
type Tone int

// The tones.
const (
	Plain  Tone = iota
	Note        // small, beside the matter
	Source      // the same, in the tool's own words: where a number comes from
	Strong
	Alarm // fails, open or not cleared
)

// Heading is a heading below that of the chapter.
type Heading struct {
	ID, Text string
	Tone     Tone
}

// Paragraph is running text.
type Paragraph struct {
	Text string
	Tone Tone
}

// Bullets is a list.
type Bullets struct{ Items []string }

// Facts are names with what they are.
type Facts struct{ Rows [][2]string }

// Table is a table with headings.
type Table struct {
	Caption string
	Heads   []Head
	Rows    []Row
	Fixed   bool // in the tool's own words, whatever units the job has
}

// Head is a column: numbers stand at the right; Share is how much of the width it may
// take beside the others.
type Head struct {
	Title  string
	Number bool
	Share  float64
}

// Row is one row. Of is the entries of the result that it shows.
type Row struct {
	Cells []Cell
	Tone  Tone
	Of    *Shown
}

// Shown ties what is printed to the entries of the result that it is from: their id and
// subjects.
type Shown struct {
	ID       string
	Subjects []string
}

// Cell is a text, or a number as it is printed with the one of the result, to its last
// bit.
type Cell struct {
	Text  string
	Field string // of the entry: value, allowance, limit, margin; empty for a text
	Exact float64
}

// Working is how an entry's number comes about.
type Working struct {
	Title string
	Of    *Shown // nil where it is not that of an entry
	Lines []result.Line
	Also  []string // of an imperial job: each line's value in its units, where it has other ones
}

// Figure is a diagram.
type Figure struct{ Drawing plot.Drawing }

// SignOff are boxes for name, date and signature.
type SignOff struct{ Roles []string }

func (Heading) block()   {}
func (Paragraph) block() {}
func (Bullets) block()   {}
func (Facts) block()     {}
func (Table) block()     {}
func (Working) block()   {}
func (Figure) block()    {}
func (SignOff) block()   {}

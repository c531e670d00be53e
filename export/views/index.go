package views

import (
	"fmt"
	"strconv"
	"strings"

	"boxwalk/export/sheet"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// index is the first sheet of the set: what belongs to it, its revisions and status,
// what release asks for, and every caution in full.
func (o *drafter) index(of []plan) plan {
	return plan{
		name: "index", title: indexTitle, supplement: plural(len(of)+1, "sheet"), kind: "Index", whole: true, notes: indexNotes,
		build: func(s *sheet.Sheet, _ float64) error {
			s.Add(o.sheetTable(s, of), o.statusTable(s), o.revisionTables(s))
			return nil
		},
	}
}

const indexTitle = "Index and cautions"

// indexNotes say what to do with the sheet.
var indexNotes = []string{"Every other sheet carries the first cautions only and points here."}

// mostListed is how many sheets are listed one by one; of longer sets those that
// follow each other under one title share a row.
const mostListed = 32

// The columns of numbers and names of sheets, mm at most.
const (
	numberWidth = 50
	listedWidth = 130
)

// sheetTable lists the sheets of the set.
func (o *drafter) sheetTable(s *sheet.Sheet, of []plan) *sheet.View {
	rows := [][]string{{o.sheetNumber(1), indexTitle}}
	for i := 0; i < len(of); {
		k := i + 1
		for len(of) >= mostListed && k < len(of) && of[k].title == of[i].title {
			k++
		}
		row := []string{o.sheetNumber(i + 2), of[i].title + ": " + of[i].supplement}
		if k > i+1 {
			row = []string{o.sheetNumber(i+2) + fmt.Sprintf(" to -%02d", k+1), of[i].title + ", " + plural(k-i, "sheet")}
		}
		rows = append(rows, row)
		i = k
	}
	return s.Table("Sheets", s.Fixed([]sheet.Column{{Title: "Number", Width: numberWidth}, {Title: "Sheet", Width: listedWidth}}, rows), rows)
}

// sheetNumber is the number of a sheet of the set: that of the job, and the sheet.
func (o *drafter) sheetNumber(n int) string {
	return strings.TrimPrefix(fmt.Sprintf("%s-%02d", shortened(o.study.Job.Job.Number), n), "-")
}

// longestName is how many characters of a name tables of the index have room for.
const longestName = 30

// shortened is a name that may be of any length as tables have it.
func shortened(name string) string {
	if runes := []rune(name); len(runes) > longestName {
		return string(runes[:longestName-1]) + "…"
	}
	return name
}

// blankRevisions are the rows left for later ones.
const blankRevisions = 3

// revisionTables are the revisions, and what the specification asks for before release.
func (o *drafter) revisionTables(s *sheet.Sheet) *sheet.View {
	d := o.study.Job.Sheet
	by, date := d.Approver, d.Date
	if !o.approved() {
		by, date = "", ""
	}
	revisions := [][]string{{shortened(d.Revision), shortened(date), shortened(d.Creator), shortened(by)}}
	for range blankRevisions {
		revisions = append(revisions, []string{"", "", "", ""})
	}
	return s.SideBySide(tableGap,
		s.Table("Revisions", []sheet.Column{{Title: "Rev.", Width: 14}, {Title: "Date", Width: 24}, {Title: "Created by", Width: 28}, {Title: "Approved by", Width: 28}}, revisions),
		s.Table("Asked for before release", []sheet.Column{{Title: "Of"}, {Title: "At least", Width: 56}}, o.releaseRows()))
}

func (o *drafter) statusTable(s *sheet.Sheet) *sheet.View {
	return s.Table("", []sheet.Column{{Title: "Status of the set", Width: 170}}, [][]string{{o.status()}})
}

// status is what the set may be used for.
func (o *drafter) status() string {
	stamp, reason := o.stamp()
	if stamp != "" {
		return stamp + ". " + reason
	}
	out := "All checks made hold. That is no release: see the hold points. What is not checked stands with the cautions."
	if o.approved() {
		return out + " Approved as " + o.result.ApprovalHash() + "."
	}
	out = forChecking + ". " + out
	if h := o.result.ApprovalHash(); h != "" {
		out += " To approve: sheet: {approver, approved: " + h + "} in the job file."
	}
	return out
}

// releaseRows are what the specification asks for, as the job states it.
func (o *drafter) releaseRows() [][]string {
	var out [][]string
	for _, r := range []struct {
		name string
		of   *job.ReleaseOf
	}{{"walls", o.study.Job.Release.Walls}, {"roof", o.study.Job.Release.Roof}} {
		out = append(out, []string{r.name, o.releaseText(r.of)})
	}
	return out
}

func (o *drafter) releaseText(r *job.ReleaseOf) string {
	if r == nil {
		return "not stated; as the specification asks"
	}
	var parts []string
	if r.Strength != nil {
		parts = append(parts, units.KindPressure.Text(float64(*r.Strength), o.system()))
	}
	if r.Share != nil {
		parts = append(parts, strconv.FormatFloat(100*float64(*r.Share), 'g', 4, 64)+" % of the specified strength")
	}
	if r.Least != nil {
		parts = append(parts, units.KindDuration.Text(float64(*r.Least), o.system()))
	}
	return strings.Join(parts, " and ")
}

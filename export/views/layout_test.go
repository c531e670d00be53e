package views

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/worked"
	"boxwalk/export/table"
)

// A mark as sheets letter it: W1L, W1L/3, F2 (4).
var markText = regexp.MustCompile(`^([A-Z]{1,2}[0-9]+[LR]?)(/[0-9]+)?\b`)

func TestEveryMarkOfThePartsListStandsOnALayout(t *testing.T) {
	jobs, err := os.ReadDir(worked.Path("jobs"))
	if err != nil {
		t.Fatal(err)
	}
	for i, job := range jobs {
		if i%worked.Campaign(4, 1) != 0 {
			continue
		}
		s := worked.Job(t, job.Name())
		list, err := Sheets(s, check.Run(s, check.Options{Version: "test", Only: []string{"setup.length"}}))
		if err != nil {
			t.Fatal(err)
		}
		shown := map[string]bool{}
		for _, n := range list {
			if !strings.Contains(n.Name, "-layout") {
				continue
			}
			for _, text := range sheetText(n.Sheet) {
				for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }) {
					if m := markText.FindStringSubmatch(word); m != nil {
						shown[m[1]] = true
					}
				}
			}
		}
		for _, row := range table.PartList(s).Rows {
			if mark := row[0]; mark != "" && !shown[mark] {
				t.Errorf("%s: %s %s stands on no layout", job.Name(), mark, row[1])
			}
		}
	}
}

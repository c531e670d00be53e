package views

import (
	"testing"

	"boxwalk/clearance"
	"boxwalk/export/sheet"
)

func TestDebug(t *testing.T) {
	if *samples == "" {
		t.Skip()
	}
	s := load(t, "../../testdata/jobs/one-pour/job.yaml")
	r := clearance.Check(s, clearance.Options{})
	o := &office{study: s, result: r}
	for _, p := range []plan{o.raised(o.cells()[0]), o.collapsed(o.cells()[0])} {
		for _, paper := range o.papers() {
			for _, n := range []float64{10, 20, 50} {
				sh := o.blank(p, paper)
				if err := p.build(sh, n); err != nil {
					t.Fatal(err)
				}
				err := sh.Arrange()
				t.Log(p.name, paper.Name(), n, err)
				if err == nil {
					for _, v := range sheet.Overlaps(sh) {
						t.Log("   ", v)
					}
				}
			}
		}
	}
}

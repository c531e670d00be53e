package table

import (
	"bytes"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

func TestAlongCSVHasARowForEveryGapForceAndWheel(t *testing.T) {
	r := &result.Result{Along: []result.AlongRow{{Cell: 1, Pour: 2, Rolled: 4.5, Station: 12.5, Governs: []string{"wall"},
		Gaps:    []result.AlongGap{{Zone: "roof", Part: "R1", Gap: 0.12, Allowance: 0.02}, {Zone: "wall", Part: "W1L", Gap: 0.1, Allowance: 0.02}},
		Pulling: &result.AlongPull{Start: 2.5, Hold: 1},
		Wheels:  []result.AlongLine{{At: 1.35, RigidLeft: 4, RigidRight: 5, SoftLeft: 6, SoftRight: 7}}}}}
	var out bytes.Buffer
	if err := Along(&out, r, units.Metric); err != nil {
		t.Fatal(err)
	}
	rows, err := uncommented(&out).ReadAll()
	if err != nil || len(rows) != 1+2+2+4 {
		t.Fatal(len(rows), err)
	}
	for i, want := range map[int][]string{
		1: {"1", "2", "4500.000", "12500.000", "gap, sample", "roof, R1", "120.000", "mm", "20.000", "no"},
		2: {"1", "2", "4500.000", "12500.000", "gap, sample", "wall, W1L", "100.000", "mm", "20.000", "yes"},
		3: {"1", "2", "4500.000", "12500.000", "pull to start", "", "2.500", "kN", "", ""},
		8: {"1", "2", "4500.000", "12500.000", "wheel load, soft frame", "wheel line 1 right", "7.000", "kN", "", ""},
	} {
		for k, cell := range want {
			if rows[i][k] != cell {
				t.Errorf("row %d: %q, want %q", i, rows[i][k], cell)
			}
		}
	}
}

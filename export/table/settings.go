package table

import (
	"io"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// Settings writes settings.csv: what each adjuster reads raised and collapsed.
// Bents, pours and cells that read the same share a row.
func Settings(w io.Writer, r *result.Result, s units.System) error {
	m := units.Shown("m", s)
	if s == units.Imperial {
		m.Decimals = 3
	}
	rows := [][]string{{"cells", "pours", "bents", "adjuster", "raised (" + m.Name + ")", "collapsed (" + m.Name + ")"}}
	for _, g := range settingGroups(r.Settings, m.Nearest) {
		rows = append(rows, []string{runs(g.cells), runs(g.pours), g.bents, plain(g.adjuster), g.raised, g.collapsed})
	}
	return written(w, r, slices.Values(rows))
}

// settingKey is a reading as it is printed: what prints the same is the same.
type settingKey struct{ adjuster, raised, collapsed string }

// settingGroup is one reading and a full block of cells and pours it holds in,
// at the same bents.
type settingGroup struct {
	settingKey
	bents        string
	cells, pours []int
}

// settingGroups draws equal readings together: bents of one place first, then
// places with the same bents, then cells with the same pours.
func settingGroups(list []result.Setting, print func(float64) string) []settingGroup {
	type at struct {
		settingKey
		place
	}
	bents, order := map[at][]int{}, []at{}
	for _, s := range list {
		k := at{settingKey{s.Adjuster, print(s.Raised), print(s.Collapsed)}, place{s.Cell, s.Pour}}
		if bents[k] == nil {
			order = append(order, k)
		}
		bents[k] = append(bents[k], s.Bent)
	}
	type same struct {
		settingKey
		bents string
	}
	places, kinds := map[same][]place{}, []same{}
	for _, k := range order {
		s := same{k.settingKey, runs(bents[k])}
		if places[s] == nil {
			kinds = append(kinds, s)
		}
		places[s] = append(places[s], k.place)
	}
	var out []settingGroup
	for _, s := range kinds {
		for _, b := range blocks(places[s]) {
			out = append(out, settingGroup{s.settingKey, s.bents, b.cells, b.pours})
		}
	}
	return out
}

package views

import (
	"fmt"

	"boxwalk/clearance"
	"boxwalk/export/scene"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// rollingShots are the carrier on its way to the next pour: where it starts,
// where the clearance governs, and where it arrives. Where nothing was sampled
// there is the start alone.
func (o *office) rollingShots(st stand) []shot {
	b := st.bay
	start := geom.Identity()
	out := []shot{{name: "rolling-start", title: "Rolling ahead, start", st: st, rolled: &start}}
	var rows []clearance.AlongRow
	for _, a := range o.alongOf(b.Cell.Number) {
		if a.Pour == b.Pour.Number {
			rows = append(rows, a)
		}
	}
	if len(rows) == 0 {
		return out
	}
	if e := o.entryOf(b, "roll.clear", ""); e != nil && e.Where.Station != nil && e.Value != nil {
		for _, a := range rows {
			if abs(a.Station-*e.Where.Station) < 1e-9 {
				unit := " mm"
				if o.units().Imperial {
					unit = ""
				}
				title := fmt.Sprintf("Rolling: %s%s to the %s", o.bareDown(e.Value.Lower), unit, culvert.Zone(e.Where.Zone).Words())
				out = append(out, shot{name: "rolling-governs", title: title, st: st, rolled: &a.Pose})
				break
			}
		}
	}
	end, title := rows[len(rows)-1], "Rolling ahead, at the next pour"
	if b.Leaves {
		title = "Rolling ahead, out over the end"
	}
	return append(out, shot{name: "rolling-end", title: title, st: st, rolled: &end.Pose})
}

// steelScene is the wall reinforcement tied ahead, as the curtains of bars that
// the checks hold clear of.
func steelScene(b *model.Bay) []scene.Object {
	var out []scene.Object
	for i, c := range b.Route {
		if c.Zone != culvert.SteelAhead {
			continue
		}
		out = append(out, scene.Object{ID: fmtID("bars", i), Name: c.Name, Group: "bars " + c.Side.String(), Style: scene.Kept, Solid: c.Solid})
	}
	return out
}

// steelShown is how much of the bars on the near side is drawn above the
// kicker, so that they do not hide the carrier, m.
const steelShown = 0.35

// steelCut takes the upper part of the bars on the right off, where the viewer is.
func steelCut(b *model.Bay) scene.Cut {
	return scene.Cut{Plane: geom.Plane{N: geom.Vec{0, 0, 1}, D: b.Cell.Kicker + steelShown}, Groups: []string{"bars right"}}
}

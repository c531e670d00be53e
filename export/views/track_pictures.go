package views

import (
	"fmt"

	"boxwalk/clearance/result"
	"boxwalk/export/scene"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// rollingShots are the carrier on its way to the next pour: where it starts,
// where the clearance governs, and where it arrives. Where nothing was sampled
// there is the start alone.
func (o *drafter) rollingShots(st stand) []shot {
	b := st.bay
	start := geom.Identity()
	way := "Rolling ahead"
	if b.Rolls < 0 {
		way = "Rolling back"
	}
	out := []shot{{name: "rolling-start", title: way + ", start", st: st, rolled: &start}}
	rows := o.rowsOf(b)
	if len(rows) == 0 {
		return out
	}
	if s, ok := o.rollingGoverns(); ok {
		out = append(out, s)
	}
	end, title := rows[len(rows)-1], way+", at the next pour"
	if b.Leaves {
		title = way + ", out over the end"
	}
	return append(out, shot{name: "rolling-end", title: title, st: st, rolled: &end.Pose})
}

// rowsOf are a bay's rows along the way.
func (o *drafter) rowsOf(b *model.Bay) []result.AlongRow {
	var out []result.AlongRow
	for _, a := range o.alongOf(b.Cell.Number) {
		if a.Pour == b.Pour.Number {
			out = append(out, a)
		}
	}
	return out
}

// rollingGoverns is the carrier where the clearance on the way governs, at whatever
// pour that is.
func (o *drafter) rollingGoverns() (shot, bool) {
	for i := range o.study.Bays {
		b := &o.study.Bays[i]
		e := o.worstRolling()
		if e == nil || e.Where.Frame != b.Name() {
			continue
		}
		for _, a := range o.rowsOf(b) {
			if abs(a.Station-*e.Where.Station) > 1e-9 {
				continue
			}
			unit := " mm"
			if o.units().Imperial {
				unit = ""
			}
			title := fmt.Sprintf("Rolling from pour %d: %s%s to the %s", b.Pour.Number, o.bareDown(e.Value.Lower), unit, culvert.Zone(e.Where.Zone).Words())
			return shot{name: "rolling-governs", title: title, st: last(b), rolled: &a.Pose}, true
		}
	}
	return shot{}, false
}

// worstRolling is the entry of roll.clear that governs; checks are in that
// order.
func (o *drafter) worstRolling() *result.Entry {
	for i, e := range o.result.Checks {
		if e.ID == "roll.clear" && e.Where.Station != nil && e.Value != nil {
			return &o.result.Checks[i]
		}
	}
	return nil
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

// alongOf are the rows of a cell, pour by pour.
func (o *drafter) alongOf(cell int) []result.AlongRow {
	var out []result.AlongRow
	for _, a := range o.result.Along {
		if a.Cell == cell {
			out = append(out, a)
		}
	}
	return out
}

package main

import (
	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/export/table"
	"boxwalk/export/views"
	"boxwalk/model"
	"boxwalk/model/units"
)

// longColumn is the width in which long entries of a list are broken, mm of
// paper: six columns of it would fill the frame of an A3 sheet.
const longColumn = 62

// lists are the tables that get sheets of their own in the drawing set.
func lists(s *model.Study, r *result.Result, u units.System) []views.List {
	return []views.List{
		list("settings", "Settings", "Setting table", table.SettingList(r, u)),
		list("parts", "Parts list", "Parts list", table.PartList(s)),
		list("set-out", "Set-out", "Set-out", table.SetOutList(s)),
	}
}

func list(name, title, kind string, t table.List) views.List {
	out := views.List{Name: name, Title: title, Kind: kind, Rows: t.Rows, Sums: t.Sums, Notes: t.Notes}
	for _, h := range t.Heads {
		c := sheet.Column{Title: h.Title, Right: h.Number}
		if h.Long {
			c.Width = longColumn
		}
		out.Columns = append(out.Columns, c)
	}
	return out
}

package table

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/units"
)

// onGround is how levels, eastings and northings are told: metres or feet to the
// thousandth, as surveyors have them.
func onGround(s units.System) units.Measure {
	if s == units.Imperial {
		return units.Measure{Name: "ft", Times: 1 / 0.3048, Decimals: 3}
	}
	return units.Measure{Name: "m", Times: 1, Decimals: 3}
}

// SetOut writes setout.csv: every place of every pour of every cell that is set out,
// with its station and offset on the alignment, easting, northing and levels.
func SetOut(w io.Writer, s *model.Study, r *result.Result) error {
	system := jobSystem(s)
	g := onGround(system)
	head := []string{"cell", "pour", "point", "bent", "side"}
	for _, name := range []string{"ahead of the rear end", "corner ahead of its end", "station", "left of the alignment", "easting", "northing", "invert level", "soffit level"} {
		head = append(head, name+" ("+g.Name+")")
	}
	return written(w, r, func(yield func([]string) bool) {
		if !yield(head) {
			return
		}
		for i := range s.Bays {
			b := &s.Bays[i]
			for _, p := range s.SetOut(b) {
				row := []string{strconv.Itoa(b.Cell.Number), strconv.Itoa(b.Pour.Number), p.What, numberOf(p.Bent), sideOf(p.Side)}
				for _, v := range []float64{p.Along, p.Ahead, p.Station, p.Offset, p.Easting, p.Northing, p.Invert, p.Soffit} {
					row = append(row, g.Nearest(v))
				}
				if !yield(row) {
					return
				}
			}
		}
	})
}

// numberOf is empty for none.
func numberOf(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// SetOutList is setout.csv for a drawing: a bent shares its row with its jacks.
func SetOutList(s *model.Study) List {
	system := jobSystem(s)
	g, along := onGround(system), onTape(system)
	out := List{
		Heads: []Head{{Title: "Cell", Number: true}, {Title: "Pour", Number: true}, {Title: "Point"}, {Title: "Ahead of rear end, " + along.name, Number: true},
			{Title: "Station", Number: true}, {Title: "Left, " + g.Name, Number: true}, {Title: "E, " + g.Name, Number: true}, {Title: "N, " + g.Name, Number: true},
			{Title: "Invert", Number: true}, {Title: "Soffit", Number: true}, {Title: "Jack left", Number: true}, {Title: "Jack right", Number: true}},
		Notes: []string{
			"Stations and offsets are in plan on the alignment, left positive; what is ahead of a pour's rear end is measured along the pour, on its own grade, from that end on the cell's centreline. Points are on the centreline unless a side is named: there at the face of the wall.",
			"Levels in " + g.Name + ": invert at the top of the slab that lies there, soffit plumb above it on the pour's own grade, camber in it. Jack left, jack right: invert under the jack plates. Each jack by itself: setout.csv.",
			datum(s),
		},
	}
	for i := range s.Bays {
		b := &s.Bays[i]
		out.Rows = append(out.Rows, setOutRows(b, s.SetOut(b), g, along, system)...)
	}
	return out
}

// datum says what levels, eastings and northings count from.
func datum(s *model.Study) string {
	a := s.Start()
	g := onGround(jobSystem(s))
	text := "Alignment starts at station " + a.Station.Text(jobSystem(s)) + ", E " + g.Nearest(float64(a.Easting)) + ", N " + g.Nearest(float64(a.Northing)) + ", level " + g.Nearest(float64(a.Elevation)) + " " + g.Name + "."
	if a.Easting == 0 && a.Northing == 0 && a.Elevation == 0 {
		text += " The job file states no place on the ground: E, N and levels count from there, N along the bearing of 0 deg."
	}
	return text
}

// setOutRows are the rows of one bay.
func setOutRows(b *model.Bay, list []model.SetPoint, g units.Measure, along tape, system units.System) [][]string {
	jack := func(bent int, side culvert.Side) string {
		i := slices.IndexFunc(list, func(p model.SetPoint) bool {
			return p.What == model.AtJack && p.Bent == bent && p.Side == side
		})
		if i < 0 {
			return ""
		}
		return g.Nearest(list[i].Invert)
	}
	var out [][]string
	for _, p := range list {
		if p.What == model.AtJack {
			continue
		}
		row := []string{strconv.Itoa(b.Cell.Number), strconv.Itoa(b.Pour.Number), strings.TrimRight(p.What+" "+numberOf(p.Bent)+sideOf(p.Side), " "),
			along.short(p.Along), units.Station(p.Station).Text(system), g.Nearest(p.Offset), g.Nearest(p.Easting), g.Nearest(p.Northing), g.Nearest(p.Invert), g.Nearest(p.Soffit), "", ""}
		if p.What == model.AtBent {
			row[10], row[11] = jack(p.Bent, culvert.Left), jack(p.Bent, culvert.Right)
		}
		out = append(out, row)
	}
	return out
}

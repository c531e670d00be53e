package step

import (
	"fmt"
	"io"

	"boxwalk/export/assembly"
	"boxwalk/model/geom"
)

// Head is what the file says of itself.
type Head struct {
	Name    string   // of the file
	Origin  string   // the tool and the files that it was made from
	Remarks []string // what whoever opens it has to know
}

// undated stands for the date, which the format asks for and a tool without a clock
// does not have.
const undated = "1970-01-01T00:00:00"

// Encode writes an assembly: one product for each shape, an assembly for each body, one
// of all. Errors: those of w.
func Encode(w io.Writer, a assembly.Assembly, h Head) error {
	e := encoder{file: newFile(), shapes: map[string]product{}}
	var bodies []child
	for _, g := range a.Groups {
		var placed []child
		for _, p := range g.Pieces {
			placed = append(placed, e.piece(p))
		}
		bodies = append(bodies, child{e.file.assembly(g.Name, placed...), g.Name, g.Pose})
	}
	e.file.assembly(a.Name, bodies...)
	e.add("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',%s,%v)", list(e.styled...), e.context)
	return e.write(w, h)
}

func (f *file) write(w io.Writer, h Head) error {
	said := ""
	for i, line := range append([]string{h.Origin}, h.Remarks...) {
		if i > 0 {
			said += ","
		}
		said += text(line)
	}
	_, err := fmt.Fprintf(w, "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((%s),'2;1');\nFILE_NAME(%s,'%s',(''),(''),'boxwalk','boxwalk','');\nFILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));\nENDSEC;\nDATA;\n",
		said, text(h.Name), undated)
	if err != nil {
		return err
	}
	if _, err := f.data.WriteTo(w); err != nil {
		return err
	}
	_, err = io.WriteString(w, "ENDSEC;\nEND-ISO-10303-21;\n")
	return err
}

// encoder writes each shape once.
type encoder struct {
	*file
	shapes map[string]product
}

// piece is a part placed where it lies raised.
func (e *encoder) piece(p assembly.Piece) child {
	at, key := p.Corner(), p.Shape()
	made, ok := e.shapes[key]
	if !ok {
		made = e.shape(p, at)
		e.shapes[key] = made
	}
	return child{made, p.At, geom.Translation(at)}
}

// shape is a product of a piece's solids, seen from its corner.
func (e *encoder) shape(p assembly.Piece, at geom.Vec) product {
	var solids []id
	home := geom.Translation(at.Mul(-1))
	for i, s := range p.Solids {
		name := named(p.Mark, i+1)
		if r := p.Round; r != nil {
			solids = append(solids, e.cylinder(name, assembly.Round{X: r.X - at[0], Z: r.Z - at[2], Radius: r.Radius, From: r.From - at[1], To: r.To - at[1]}))
		} else {
			solids = append(solids, e.solid(name, s.Moved(home)))
		}
	}
	for _, s := range solids {
		e.paint(s, p.Colour())
	}
	return e.part(p.Name+" "+named(p.Mark, p.Half), solids...)
}

// named is a mark, with the number of a piece of it from the second on.
func named(mark string, piece int) string {
	if piece < 2 {
		return mark
	}
	return fmt.Sprintf("%s.%d", mark, piece)
}

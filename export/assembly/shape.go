package assembly

import (
	"encoding/binary"
	"fmt"
	"math"

	"boxwalk/model/geom"
)

// Corner is the least corner of the box round a piece.
func (p Piece) Corner() geom.Vec {
	box := geom.EmptyBox()
	for _, s := range p.Solids {
		box = box.Union(s.Box())
	}
	return box.Min
}

// Shape tells shapes apart to a nanometre, and what is not of the same mark.
func (p Piece) Shape() string {
	at := p.Corner()
	key := fmt.Appendf(nil, "%s|%s|%d", p.Name, p.Mark, p.Half)
	if p.Zone != "" { // concrete and what stays have no marks
		key = fmt.Appendf(nil, "%s|%s", p.Name, p.Zone)
	}
	for _, s := range p.Solids {
		key = append(key, '|')
		for _, v := range s.Vertices {
			for i, c := range v {
				key = binary.AppendVarint(key, int64(math.Round((c-at[i])*1e9)))
			}
		}
	}
	return string(key)
}

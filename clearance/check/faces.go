package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// faceChecks hold the raised panels against the design faces: each role's
// distance from the concrete it forms, and the section's outline against gaps
// between panels.
func (b *bay) faceChecks() []Judged {
	var out []Judged
	limit := b.limits.of("setup.faces")
	design := b.Cell.Design(b.Carrier.Rear-1, b.Carrier.Rear+float64(b.Carrier.Gear.Form.Length)+1)
	faces := make([]sweep.Part, len(design))
	for k, s := range design {
		faces[k] = sweep.NewPart(sweep.Ground, s.Solid)
	}
	for _, role := range []carrier.Role{carrier.WallPanel, carrier.CornerPanel, carrier.RoofPanel, carrier.Filler} {
		var list []candidate
		for i, p := range b.Carrier.Parts {
			if p.Role == role && p.Name != carrier.PocketFloor && p.Piece == 0 {
				list = append(list, b.faceCandidate(i, design, faces))
			}
		}
		if len(list) > 0 {
			out = append(out, entry("setup.faces", b.subject(string(role)+"s on their faces"), list, limit, result.Max, ""))
		}
	}
	return append(out, entry("setup.faces", b.subject("gaps between faces"), b.openings(), limit, result.Max, ""))
}

// faceCandidate is how far a panel stands from the concrete it forms, or digs
// into it.
func (b *bay) faceCandidate(part int, design []culvert.Solid, faces []sweep.Part) candidate {
	v := sweep.At(measure.AtRest{}, sweep.Ground, b.Parts[part], faces, 0)
	for n := part + 1; n < len(b.Carrier.Parts) && b.Carrier.Parts[n].Piece > 0; n++ {
		if piece := sweep.At(measure.AtRest{}, sweep.Ground, b.Parts[n], faces, 0); piece.Upper < v.Upper {
			v = piece // of a panel in several pieces the one that lies on the face
		}
	}
	off := result.Between(math.Max(0, math.Max(v.Lower, -v.Upper)), math.Max(math.Abs(v.Lower), math.Abs(v.Upper)))
	zone := design[v.Against].Zone
	text := fmt.Sprintf("%s is %s clear of the design face of the %s", b.label(part), b.mm(off.Upper), zone.Words())
	if v.Upper < 0 {
		text = fmt.Sprintf("%s lies %s inside the design face of the %s", b.label(part), b.mm(off.Upper), zone.Words())
	}
	return candidate{Value: off, where: b.where("raised", part, string(zone), v), text: text}
}

// openings is the widest open gap on each piece of the section.
func (b *bay) openings() []candidate {
	var out []candidate
	for _, o := range b.Formed(b.limits.of("setup.faces").Value) {
		worst, at := b.Opening(o)
		w := b.at("raised")
		w.Zone = o.Name
		text := fmt.Sprintf("panel faces, fillers and plates cover the %s", o.Name)
		if worst > 1e-6 {
			text = fmt.Sprintf("the %s is open over %s at %s along the pour", o.Name, b.mm(worst), b.Distance(at))
		}
		c := candidate{Value: *result.Exactly(worst), where: w, text: text}
		if o.Name == "soffit" {
			c.remedy = b.soffitRemedy(worst)
		}
		out = append(out, c)
	}
	return out
}

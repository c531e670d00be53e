package views

import (
	"boxwalk/export/scene"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// stand is the carrier of one bay as it stands at the end of a step; raised is
// the step before the first.
type stand struct {
	bay  *model.Bay
	step int
}

const raisedStep = -1

// last is the bay at the end of the last step that can be made.
func last(b *model.Bay) stand {
	st := stand{b, raisedStep}
	for k, s := range b.Steps {
		if s.Stop != nil {
			break
		}
		st.step = k
	}
	return st
}

// pose of a body, in the frame of cell and pour; a step that cannot be made
// leaves everything where it was.
func (st stand) pose(body int) geom.Pose {
	for k := st.step; k >= 0; k-- {
		if s := st.bay.Steps[k]; s.Path != nil {
			return s.Pose(body)
		}
	}
	return geom.Identity()
}

func (st stand) present(p carrier.Part) bool {
	return st.step < 0 || st.bay.Steps[st.step].PresentAfter(p)
}

// parts are those still there, moved to where they stand.
func (st stand) parts() []carrier.Part {
	poses := make([]geom.Pose, len(st.bay.Carrier.Mechanism.Bodies))
	for i := range poses {
		poses[i] = st.pose(i)
	}
	var out []carrier.Part
	for _, p := range st.bay.Carrier.Parts {
		if st.present(p) {
			p.Solid = p.Moved(poses[p.Body])
			out = append(out, p)
		}
	}
	return out
}

// styles is what a role is drawn as.
var styles = map[carrier.Role]scene.Style{
	carrier.WallPanel: scene.WallPanel, carrier.CornerPanel: scene.CornerPanel, carrier.RoofPanel: scene.RoofPanel,
	carrier.Filler: scene.Filler, carrier.LinkBar: scene.Link, carrier.Lug: scene.Link, carrier.Tie: scene.Link,
	carrier.JackScrew: scene.Link, carrier.JackPlate: scene.Link, carrier.RoofScrew: scene.Link, carrier.Wheel: scene.Wheel,
}

// styleOf is steel unless the role says otherwise.
func styleOf(r carrier.Role) scene.Style {
	if s, ok := styles[r]; ok {
		return s
	}
	return scene.Steel
}

// object is a part as a scene holds it.
func (st stand) object(p carrier.Part) scene.Object {
	o := scene.Object{ID: p.At(), Name: p.Label(), Group: st.bay.Carrier.Mechanism.Bodies[p.Body].Name, Style: styleOf(p.Role), Solid: p.Solid, Mass: p.Mass.High, Round: p.Role == carrier.Wheel}
	if p.Role == carrier.LinkBar {
		o.Group = p.Label()[len(p.At())+1:] + " " + p.Side.String()
	}
	return o
}

// hangers that stay, nearest to a station along the pour.
func (st stand) hangers(x, reach float64) []scene.Object {
	var out []scene.Object
	for i, c := range st.bay.Concrete {
		if c.Zone == culvert.Hanger && abs(c.Box().Center()[0]-x) < reach {
			out = append(out, scene.Object{ID: fmtID("kept", i), Name: c.Name, Group: "kept", Style: scene.Kept, Solid: c.Solid})
		}
	}
	return out
}

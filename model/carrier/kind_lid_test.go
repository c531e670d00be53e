package carrier

import (
	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// roof_lid is a kind of collapse made up for tests, and all there is to it: a
// one-piece roof with its corner panels lies like a lid on wall panels that
// reach a little up the haunch. The walls draw straight in under it on the
// sliding arms of the headers, a brace moves each; then all comes down. There
// are no fillers.
var _ = register(kind{
	name: "roof_lid",
	needs: []need{
		{"frame.header.arm", diag.Problem{Key: "frame.header", Summary: "roof_lid needs sliding arms", Fix: "give frame.header.arm: {section, length, behind, overlap}"}},
		{"corner.return", diag.Problem{Key: "corner", Summary: "roof_lid needs wall panels that reach onto the haunch", Fix: "for example return: 80 mm"}},
	},
	takes: []string{"roof.pocket", "roof.stringers.middle"},
	bodies: []member{
		{name: bodyWall, on: bodyFrame, arms: true, joint: func(_ *builder, side culvert.Side) motion.Joint { return along(geom.Vec{0, -float64(side), 0}) }},
		{name: bodyRoof, on: bodyFrame, middle: true, joint: straightDown, screw: &screw{"lid jack", func(*job.Gear) *job.Adjust { return nil }}},
	},
	share: 1,
	parts: func(b *builder) {
		lid := func(culvert.Side) string { return bodyRoof }
		b.wallPanels(b.wallTopWithReturn)
		b.walers()
		b.ties()
		b.corners(lid)
		b.wholePanels()
		b.stringers(lid, 0, b.s.Panel, b.s.Panel, (*builder).onTube)
		b.arms()
	},
	rests: func(b *builder) ([]Strip, []Hung) {
		return []Strip{{Side: culvert.Both, From: -b.s.Half, To: b.s.Half}}, []Hung{{Side: culvert.Left, At: b.s.ArmOuter, On: Arm, From: b.s.Half, To: b.s.Half}}
	},
	widths: func(s Setting) []Width { return []Width{{"lid", s.Panel, -s.Panel}} },
	measures: func(g *job.Gear) []Measure {
		return []Measure{{Name: "Wall panel up the haunch", Value: float64(g.Corner.Return)}}
	},
})

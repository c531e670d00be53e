package check

import (
	"math"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// A panel 2 m long on a hinge that may differ by 0.01 rad either way: its edge
// gets 2 R sin(0.005) from its middle place. The bound is that within 1 %, and
// 95 % of it would be too little.
func TestOutOfStepBoundIsAttainedByAPanelOnItsHinge(t *testing.T) {
	const reach, angle = 2.0, 0.01
	m := &motion.Mechanism{Bodies: []motion.Body{{Name: "wall", Parent: motion.Ground,
		Joint: motion.Joint{Kind: motion.Revolute, Axis: geom.Vec{1, 0, 0}, Link: motion.None}}}}
	path, err := motion.NewPath(m, []motion.Drive{{From: -angle, To: angle}})
	if err != nil {
		t.Fatal(err)
	}
	panel := carrier.Part{Solid: geom.Prism([]geom.Point2{{-reach, 0}, {0, 0}, {0, 0.01}, {-reach, 0.01}}, 0, 1)}
	edge := math.Hypot(reach, 0.01)
	exact := 2 * edge * math.Sin(angle/2)
	bound := measure.Swing(path, panel)
	if bound < exact || bound > 1.01*exact {
		t.Errorf("bound %.6f m, the edge moves %.6f m", bound, exact)
	}
	if 0.95*bound >= exact {
		t.Errorf("95 %% of the bound, %.6f m, still holds the edge's %.6f m", 0.95*bound, exact)
	}
}

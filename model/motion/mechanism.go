package motion

import (
	"fmt"
	"math"

	"boxwalk/model/geom"
)

// Ground is the parent of a body that hangs on nothing that moves.
const Ground = -1

// None marks a joint that no link drives.
const None = -1

// JointKind is how a body hangs on its parent.
type JointKind int

// The kinds of joint. An Aim is a revolute joint whose angle always points the
// body from its pin to the far pin of a link: half of a link's own bar.
const (
	Fixed JointKind = iota
	Prismatic
	Revolute
	Aim
)

// Joint hangs a body on its parent. Coordinates are those of the carrier frame
// as raised. Axis is, for a prismatic joint, the displacement per unit of the
// coordinate (of any length); for a revolute one the unit turning axis through
// Pin. Link is the link whose length sets the coordinate, or None when the
// coordinate is set directly; for an Aim it is the link pointed along.
type Joint struct {
	Kind JointKind
	Axis geom.Vec
	Pin  geom.Vec
	Link int
}

// Body is one rigid body. Its parent comes before it in the mechanism.
type Body struct {
	Name   string
	Parent int
	Joint  Joint
}

// Link is a straight bar of adjustable length between a pin on body A and a
// pin on body B.
type Link struct {
	Name       string
	A, B       int
	PinA, PinB geom.Vec
}

// Raised is the link's length as raised.
func (l Link) Raised() float64 { return l.PinB.Sub(l.PinA).Len() }

// Mechanism is the tree of bodies and the links between them.
type Mechanism struct {
	Bodies []Body
	Links  []Link
}

// Check reports the first defect of the tree: a parent that does not come
// before its child, an axis without length, a link on a body that is not
// there, or a driven joint whose link does not end on the body it drives.
func (m *Mechanism) Check() error {
	for i, b := range m.Bodies {
		if b.Parent < Ground || b.Parent >= i {
			return fmt.Errorf("body %q hangs on body %d, which does not come before it", b.Name, b.Parent)
		}
		if b.Joint.Kind != Fixed && !(b.Joint.Axis.Len() > 0) {
			return fmt.Errorf("the joint of body %q has no axis", b.Name)
		}
		if err := m.checkDrive(i); err != nil {
			return err
		}
	}
	for _, l := range m.Links {
		if l.A < Ground || l.A >= len(m.Bodies) || l.B < 0 || l.B >= len(m.Bodies) {
			return fmt.Errorf("link %q ends on a body that is not there", l.Name)
		}
		if !(l.Raised() > 0) {
			return fmt.Errorf("link %q has no length as raised", l.Name)
		}
	}
	return nil
}

func (m *Mechanism) checkDrive(i int) error {
	j := m.Bodies[i].Joint
	if j.Kind == Fixed || j.Link == None {
		return nil
	}
	if j.Link < 0 || j.Link >= len(m.Links) {
		return fmt.Errorf("body %q is driven by link %d, which is not there", m.Bodies[i].Name, j.Link)
	}
	if j.Kind != Aim && m.Links[j.Link].B != i {
		return fmt.Errorf("link %q drives body %q but does not end on it", m.Links[j.Link].Name, m.Bodies[i].Name)
	}
	return nil
}

// Chain lists the bodies from just below ref down to body. It panics unless
// ref is Ground or an ancestor of body: only those frames are asked for.
func (m *Mechanism) Chain(ref, body int) []int {
	var up []int
	for b := body; b != ref; b = m.Bodies[b].Parent {
		if b == Ground {
			panic(fmt.Sprintf("motion: body %d is no ancestor of body %d", ref, body))
		}
		up = append(up, b)
	}
	for i, j := 0, len(up)-1; i < j; i, j = i+1, j-1 {
		up[i], up[j] = up[j], up[i]
	}
	return up
}

// Common is the nearest common ancestor of two bodies, a body counting as its
// own ancestor.
func (m *Mechanism) Common(a, b int) int {
	for a != b {
		if a > b {
			a = m.Bodies[a].Parent
		} else {
			b = m.Bodies[b].Parent
		}
	}
	return a
}

// frame is two directions that span the plane square to an axis, chosen so
// that angles about the axis grow from the first to the second.
func frame(axis geom.Vec) (e1, e2 geom.Vec) {
	least := 0
	for i := range axis {
		if math.Abs(axis[i]) < math.Abs(axis[least]) {
			least = i
		}
	}
	var pick geom.Vec
	pick[least] = 1
	e1 = pick.Sub(axis.Mul(axis.Dot(pick))).Normalize()
	return e1, axis.Cross(e1)
}

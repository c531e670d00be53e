package carrier

import "boxwalk/model/motion"

// Width is a breadth of the roof at the soffit, between two places across the
// cell, y in m.
type Width struct {
	Name     string
	From, To float64
}

// Measure is a dimension of the gear that its kind of collapse has beside the
// setting: m, or a slope.
type Measure struct {
	Name  string
	Value float64
	Slope bool
}

// Widths are those of fillers and roof panels, as drawings state them.
func (c *Carrier) Widths() []Width { return kindOf(c.Gear).widths(c.Setting) }

// Measures are those of the carrier's kind; none if it has none.
func (c *Carrier) Measures() []Measure {
	if m := kindOf(c.Gear).measures; m != nil {
		return m(c.Gear)
	}
	return nil
}

// PanelBeside is the width of a roof panel that leaves the filler this width.
func (c *Carrier) PanelBeside(filler float64) float64 {
	return c.panelBeside(filler, kindOf(c.Gear).share)
}

// Hinged are the bodies that turn about a hinge, by their places in Mechanism.
// The frame, which only leans, is none, nor are links.
func (c *Carrier) Hinged() []int {
	var out []int
	for i, b := range c.Mechanism.Bodies {
		if b.Joint.Kind == motion.Revolute && b.Name != bodyFrame {
			out = append(out, i)
		}
	}
	return out
}

// DrawsIn tells whether a body moves across the cell by itself, as a roof half
// does on its arms, and not only down with what it stands on.
func (c *Carrier) DrawsIn(body int) bool {
	for i := body; i != motion.Ground; i = c.Mechanism.Bodies[i].Parent {
		if j := c.Mechanism.Bodies[i].Joint; j.Kind == motion.Prismatic && j.Axis[1] != 0 {
			return true
		}
	}
	return false
}

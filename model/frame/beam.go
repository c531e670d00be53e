package frame

import (
	"errors"
	"fmt"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Beam is a straight beam that bends by Euler and Bernoulli: plane sections,
// small deflections, no shear deformation. Places are measured from its left
// end; loads and deflections are positive downward, reactions upward, moments
// where they sag, shears where the left part pushes the right part up, slopes
// and couples where they turn the beam down to the right.
type Beam struct {
	Stretches []Stretch // from left to right
	Supports  []Support // in any order, no two in one place
	Links     []Link
}

// Stretch is a length of constant bending stiffness.
type Stretch struct {
	Length units.Length // m
	EI     float64      // kN m²
}

// Restraint is what a support does against one movement; the zero value is
// free. It holds both ways: where a beam merely lies on a support whose force
// comes out below 0, it lifts off, and [Beam.Lie] has the answer.
type Restraint struct {
	Rigid  bool
	Spring float64 // kN/m or kN m per rad, where not rigid
}

// Support is what holds a beam at a place against moving down and turning.
type Support struct {
	At         units.Length // m
	Down, Turn Restraint
}

// Pin returns a support that does not give and lets the beam turn.
func Pin(at units.Length) Support { return Support{At: at, Down: Restraint{Rigid: true}} }

// Clamp returns a support that neither gives nor turns.
func Clamp(at units.Length) Support {
	return Support{At: at, Down: Restraint{Rigid: true}, Turn: Restraint{Rigid: true}}
}

// Bed returns a support that gives under load, in kN/m.
func Bed(at units.Length, spring float64) Support {
	return Support{At: at, Down: Restraint{Spring: spring}}
}

// Link is a bar that holds a beam from below at an angle, pinned to it at an arm
// below its axis: shortening = w cos angle − θ arm sin angle.
type Link struct {
	At    units.Length // m, of the pin, along the beam
	Axial float64      // kN/m, of the bar along itself
	Angle units.Angle  // from square to the beam, above 0 where it leans to the right as it goes away
	Arm   units.Length // m, of the pin below the axis
}

// PointLoad is a force, a couple, or both at a place.
type PointLoad struct {
	At   units.Length // m
	Down units.Force  // kN
	Turn load.Moment  // kN m
}

// Distributed is a load along a length, which runs straight from one value to another.
type Distributed struct {
	From, To   units.Length  // m
	Start, End load.LineLoad // kN/m, down
}

// Loading is what comes on a beam at once.
type Loading struct {
	Points []PointLoad
	Lines  []Distributed
}

// Evenly returns a loading of one value from place to place.
func Evenly(from, to units.Length, q load.LineLoad) Loading {
	return Loading{Lines: []Distributed{{from, to, q, q}}}
}

// Length is the sum of the stretches, in m.
func (b Beam) Length() units.Length {
	var sum units.Length
	for _, s := range b.Stretches {
		sum += s.Length
	}
	return sum
}

func (b Beam) check() error {
	err := errors.Join(count("stretches", len(b.Stretches), 1), count("supports", len(b.Supports), 0), count("links", len(b.Links), 0))
	for _, s := range b.Stretches {
		err = errors.Join(err,
			above("length of a stretch", float64(s.Length), 1e-6, mostLength, "m"),
			above("bending stiffness", s.EI, 1e-9, mostEI, "kN m²"))
	}
	if err != nil {
		return err
	}
	for i, s := range b.Supports {
		err = errors.Join(err, b.on("support", s.At), s.Down.check(), s.Turn.check())
		for j, other := range b.Supports[:i] {
			if s.At-other.At < near && other.At-s.At < near {
				err = errors.Join(err, refused(fmt.Sprintf("supports %d and %d are in one place", j+1, i+1)))
			}
		}
	}
	for _, l := range b.Links {
		err = errors.Join(err, b.on("link", l.At),
			above("stiffness of a link", l.Axial, 0, mostSpring, "kN/m"),
			within("angle of a link", float64(l.Angle), -1.5, 1.5, "rad"),
			within("arm of a link", float64(l.Arm), -10, 10, "m"))
	}
	return err
}

func (b Beam) on(what string, at units.Length) error {
	return within("place of a "+what, float64(at), -near, float64(b.Length())+near, "m")
}

func (r Restraint) check() error {
	if r.Rigid && r.Spring != 0 {
		return refused("a support that is rigid and a spring")
	}
	return within("stiffness of a support", r.Spring, 0, mostSpring, "kN/m")
}

func (b Beam) checkLoading(l Loading) error {
	err := errors.Join(count("point loads", len(l.Points), 0), count("line loads", len(l.Lines), 0))
	for _, p := range l.Points {
		err = errors.Join(err, b.on("point load", p.At),
			within("point load", float64(p.Down), -mostForce, mostForce, "kN"),
			within("couple", float64(p.Turn), -mostForce, mostForce, "kN m"))
	}
	for _, q := range l.Lines {
		err = errors.Join(err, b.on("line load", q.From), b.on("line load", q.To),
			above("length of a line load", float64(q.To-q.From), near, mostLength, "m"),
			within("line load", float64(q.Start), -mostLine, mostLine, "kN/m"),
			within("line load", float64(q.End), -mostLine, mostLine, "kN/m"))
	}
	return err
}

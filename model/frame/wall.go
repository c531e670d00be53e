package frame

import (
	"errors"
	"math"
	"slices"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Wall is a wall panel that hangs on a hinge at its top and is held against
// fresh concrete by braces to the carrier and by ties through the concrete.
type Wall struct {
	Hinge  units.Length // m, height of the hinge in the frame of the pressure
	Height units.Length // m, from the hinge down to the foot
	Width  units.Length // m of wall that these braces and ties carry
	EI     float64      // kN m², of all uprights of the panel over that width
	Ties   []Prop
	Braces []Prop
}

// Prop is a tie or a brace: what holds a wall panel back.
type Prop struct {
	Below units.Length // m, of its pin below the hinge
	Axial float64      // kN/m, along itself: E A / L; of a tie through to a panel that gives as much, E A over half its length
	Angle units.Angle  // from square to the wall, above 0 where it runs down as it goes away from the concrete
	Arm   units.Length // m, of its pin behind the line from hinge to foot
}

// WallForces are the forces in one state of the wall.
type WallForces struct {
	Ties   []units.Force // kN, tension
	Braces []units.Force // kN, compression
	Slack  []bool        // ties that would have to push, and carry nothing
	Hinge  units.Force   // kN, square to the wall, toward the concrete where above 0
	Along  units.Force   // kN by which braces and ties lift the panel against its hinge
	Moment Range[load.Moment]
	Give   Range[units.Length] // m, away from the concrete
}

// WallAnswer is a wall by stiffness, and what it would be if one kind of prop
// took all: the truth lies between where stiffness is in doubt.
type WallAnswer struct {
	Together                     WallForces
	TiesAlone, BracesAlone       WallForces
	TiesCanAlone, BracesCanAlone bool
	Ties, Braces                 []units.Force // kN, the greatest of each over these states, at least 0
	Source                       load.Source
}

var wallSource = load.Source{Text: "beam on springs", Flag: load.Derived}

// Under returns the forces of a wall panel under a pressure. The panel is a beam
// from hinge to foot that bends by its stiffness; props are springs at their
// angle and arm; the panel's own weight is not in it. kN, m. Errors: ranges; no
// prop; ties whose slack does not settle. Source: statics (derived).
func (w Wall) Under(d load.Diagram) (WallAnswer, error) {
	q, err := w.loading(d)
	if err != nil {
		return WallAnswer{}, err
	}
	out := WallAnswer{TiesCanAlone: len(w.Ties) > 0, BracesCanAlone: len(w.Braces) > 0, Source: wallSource}
	var bad [3]error
	out.Together, bad[0] = w.held(w.Ties, w.Braces, q)
	if out.TiesCanAlone {
		out.TiesAlone, bad[1] = w.held(w.Ties, nil, q)
	}
	if out.BracesCanAlone {
		out.BracesAlone, bad[2] = w.held(nil, w.Braces, q)
	}
	if err := errors.Join(bad[:]...); err != nil {
		return WallAnswer{}, err
	}
	out.Ties = greatest(len(w.Ties), out.Together.Ties, out.TiesAlone.Ties)
	out.Braces = greatest(len(w.Braces), out.Together.Braces, out.BracesAlone.Braces)
	return out, nil
}

func greatest(n int, states ...[]units.Force) []units.Force {
	out := make([]units.Force, n)
	for _, s := range states {
		for i, f := range s {
			out[i] = max(out[i], f)
		}
	}
	return out
}

// loading turns the pressure on the wall into a load along the beam, whose place
// 0 is the hinge and which runs down.
func (w Wall) loading(d load.Diagram) (Loading, error) {
	err := errors.Join(
		above("height of a wall", float64(w.Height), 0, 30, "m"),
		above("width of wall", float64(w.Width), 0, mostLength, "m"),
		within("height of the hinge", float64(w.Hinge), -mostLength, mostLength, "m"),
		count("ties", len(w.Ties), 0), count("braces", len(w.Braces), 0), d.Check())
	if err != nil {
		return Loading{}, err
	}
	var out Loading
	for i := len(d) - 1; i > 0; i-- {
		high, low := d[i], d[i-1]
		from, to := max(0, w.Hinge-high.Up), min(w.Height, w.Hinge-low.Up)
		if to-from <= near {
			continue
		}
		at := func(s units.Length) load.LineLoad {
			f := float64((w.Hinge - s - low.Up) / (high.Up - low.Up))
			return load.LineLoad((float64(low.Pressure)*(1-f) + float64(high.Pressure)*f) * float64(w.Width))
		}
		out.Lines = append(out.Lines, Distributed{from, to, at(from), at(to)})
	}
	return out, nil
}

// held solves with all ties, then turns the first that is wrong, until each that
// is left pulls and each that is out would be slack.
func (w Wall) held(ties, braces []Prop, q Loading) (WallForces, error) {
	slack := make([]bool, len(ties))
	for range mostTurns {
		r, err := w.solve(ties, slack, braces, q)
		if err != nil {
			return WallForces{}, err
		}
		f := w.forces(r, ties, slack, braces)
		if slices.Equal(f.Slack, slack) {
			return f, nil
		}
		for i := range slack {
			if slack[i] != f.Slack[i] {
				slack[i] = f.Slack[i]
				break
			}
		}
	}
	return WallForces{}, refused("which ties pull does not settle")
}

func (w Wall) solve(ties []Prop, slack []bool, braces []Prop, q Loading) (Response, error) {
	b := Beam{Stretches: []Stretch{{w.Height, w.EI}}, Supports: []Support{Pin(0)}}
	for i, t := range ties {
		if !slack[i] {
			b.Links = append(b.Links, t.link())
		}
	}
	for _, p := range braces {
		b.Links = append(b.Links, p.link())
	}
	r, err := b.Solve(q)
	if err != nil {
		return Response{}, err
	}
	return r[0], nil
}

func (p Prop) link() Link { return Link{At: p.Below, Axial: p.Axial, Angle: p.Angle, Arm: p.Arm} }

// forces sorts a response by props, and tells anew which ties would be slack.
func (w Wall) forces(r Response, ties []Prop, slack []bool, braces []Prop) WallForces {
	f := WallForces{Ties: make([]units.Force, len(ties)), Slack: make([]bool, len(ties)), Hinge: r.Supports[0].Up, Moment: r.Moment(), Give: r.Deflection()}
	links := r.Links
	for i, t := range ties {
		force := units.Force(0)
		if slack[i] {
			force = t.wouldTake(r)
		} else {
			force, links = links[0], links[1:]
		}
		f.Slack[i] = force < 0
		if !f.Slack[i] {
			f.Ties[i] = force
		}
		f.Along += units.Force(math.Sin(float64(t.Angle))) * f.Ties[i]
	}
	f.Braces = links
	for i, p := range braces {
		f.Along += units.Force(math.Sin(float64(p.Angle))) * links[i]
	}
	return f
}

// wouldTake is the force that a slack tie would have where its pin has gone.
func (p Prop) wouldTake(r Response) units.Force {
	at, err := r.At(p.Below)
	if err != nil {
		return -1
	}
	sin, cos := math.Sincos(float64(p.Angle))
	return units.Force(p.Axial * (float64(at.Deflection)*cos - float64(at.Slope)*float64(p.Arm)*sin))
}

package load

import (
	"errors"

	"boxwalk/model/units"
)

// FaceThrust is what fresh concrete does to a metre of a form's faces.
type FaceThrust struct {
	Along LineLoad // kN/m, toward greater Along
	Up    LineLoad // kN/m, of all faces together; below 0 where they carry more than lifts them
	// Lift is of the faces that slope over the concrete alone: what lifts the form
	// while the others carry nothing yet. It means nothing unless Sloped.
	Lift   LineLoad
	Sloped bool // a face slopes over concrete that presses
	Source Source
}

// OnFaces returns the thrust on a form's faces in section, a line of points
// along which the concrete lies to the left and the form to the right: on each
// face p square to it, so p times its height along and p times its width up or
// down. kPa, m; per metre. Exact for the diagram's straight stretches; a level
// face at a step takes the greater. Errors: fewer than two points, no length, a
// diagram that does not go up. Source: hydrostatics (derived).
func (d Diagram) OnFaces(line []Point) (FaceThrust, error) {
	err := d.Check()
	if len(line) < 2 || len(line) > 1000 {
		err = errors.Join(err, outsideBecause("faces of %d points, must be 2 to 1000", len(line)))
	}
	for _, p := range line {
		err = errors.Join(err,
			within("point along", float64(p.Along), -mostLength, mostLength, "m"),
			within("point up", float64(p.Up), -mostLength, mostLength, "m"))
	}
	if err != nil {
		return FaceThrust{}, err
	}
	out := FaceThrust{Source: Source{"hydrostatics", Derived}}
	for i := 1; i < len(line); i++ {
		along, up := float64(line[i].Along-line[i-1].Along), float64(line[i].Up-line[i-1].Up)
		mean := d.mean(float64(line[i-1].Up), float64(line[i].Up))
		out.Along += LineLoad(mean * up)
		out.Up -= LineLoad(mean * along)
		if lift := LineLoad(-mean * along); lift > 0 {
			out.Lift, out.Sloped = out.Lift+lift, true
		}
	}
	return answer("thrust on faces", out, float64(out.Along), float64(out.Up), float64(out.Lift))
}

// mean is the mean pressure between two heights, in kPa.
func (d Diagram) mean(a, b float64) float64 {
	low, high := min(a, b), max(a, b)
	sum, most := 0.0, 0.0
	for _, s := range d.bands() {
		from, to := max(low, s.low), min(high, s.high)
		if from > to {
			continue
		}
		sum += (s.at(from) + s.at(to)) / 2 * (to - from)
		most = max(most, s.at(from))
	}
	if low == high {
		return most
	}
	return sum / (high - low)
}

// Floating is a form that fresh concrete lifts.
type Floating struct {
	Lift   units.Force // kN
	Weight units.Force // kN, the least that is there while it lifts: form and carrier
	Held   units.Force // kN, of what holds it down
}

// Margin returns weight and what holds down over the lift. Errors: negative or
// endless forces. Source: statics (derived).
func (f Floating) Margin() (Held, error) {
	err := errors.Join(
		within("lift", float64(f.Lift), 0, mostForce, "kN"),
		within("weight", float64(f.Weight), 0, mostForce, "kN"),
		within("hold-down", float64(f.Held), 0, mostForce, "kN"))
	if err != nil {
		return Held{}, err
	}
	return held(f.Lift, f.Weight+f.Held)
}

// Held is what holds a form against what drives it.
type Held struct {
	Driving, Holding units.Force // kN
	// Ratio is holding over driving; it means nothing unless Loaded.
	Ratio  float64
	Loaded bool        // false when nothing drives it
	Lacks  units.Force // kN, what is missing to a ratio of 1; 0 when nothing is
	Source Source
}

func held(driving, holding units.Force) (Held, error) {
	h := Held{Driving: driving, Holding: holding, Lacks: max(0, driving-holding), Source: Source{"statics", Derived}}
	if driving > 0 {
		h.Loaded, h.Ratio = true, float64(holding/driving)
	}
	return answer("holding", h, float64(driving), float64(holding), h.Ratio)
}

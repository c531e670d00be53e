package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Tipping is a carrier about one tipping line: its outer wheels on one side, or
// its first or last wheel line. Lengths are square to that line.
type Tipping struct {
	Weight units.Force  // kN
	Lever  units.Length // m, centre of gravity inside the tipping line
	Height units.Length // m, of the centre of gravity above the wheels' contact
	Slope  units.Slope  // of the ground toward the tipping line; either sign counts as down
	Push   units.Force  // kN, toward the tipping line: wind, or a line's pull above the wheels
	At     units.Length // m, height of the push above the wheels' contact
}

// Stability is how far a carrier is from tipping.
type Stability struct {
	Restoring   Moment
	Overturning Moment
	// Ratio is restoring over overturning; it means nothing unless Loaded.
	Ratio  float64
	Loaded bool        // false when nothing overturns
	Angle  units.Angle // ground slope at which it tips without a push
	Source Source
}

// Margin returns restoring W cos θ · lever against overturning W sin θ · height
// + push · height of push, in kN m, and the angle atan(lever/height). The sign
// of the slope is ignored, so that the answer holds both ways. Range: lever and
// height above 0, slope ±0.5 (judgement). Errors: outside it, among others a
// centre of gravity beyond the tipping line. Source: statics (derived).
func (t Tipping) Margin() (Stability, error) {
	err := errors.Join(
		above("weight", float64(t.Weight), 0, mostForce, "kN"),
		above("lever arm to the tipping line", float64(t.Lever), 0, 100, "m"),
		above("height of the centre of gravity", float64(t.Height), 0, 100, "m"),
		within("slope", float64(t.Slope), -mostSlope, mostSlope, ""),
		within("push", float64(t.Push), 0, mostForce, "kN"),
		within("height of the push", float64(t.At), 0, 100, "m"))
	if err != nil {
		return Stability{}, err
	}
	w, theta := float64(t.Weight), math.Atan(math.Abs(float64(t.Slope)))
	s := Stability{
		Restoring:   Moment(w * math.Cos(theta) * float64(t.Lever)),
		Overturning: Moment(w*math.Sin(theta)*float64(t.Height) + float64(t.Push)*float64(t.At)),
		Angle:       units.Angle(math.Atan(float64(t.Lever / t.Height))),
		Source:      Source{"statics", Derived},
	}
	if s.Overturning > 0 {
		s.Loaded, s.Ratio = true, float64(s.Restoring/s.Overturning)
	}
	return answer("tipping margin", s, s.Ratio)
}

// TippingLevers returns the least distance from the centre of gravity to the
// tipping line across (to the nearer side) and along (to the first or last
// wheel line, whichever is nearer), wherever it may be. Errors: a centre of
// gravity outside the wheels.
func (w Wheels) TippingLevers() (across, along units.Length, err error) {
	if err := w.check(); err != nil {
		return 0, 0, err
	}
	across = w.Gauge/2 - units.Length(math.Abs(float64(w.Left))) - w.LeftOff
	along = min(w.Along-w.Lines[0], w.Lines[len(w.Lines)-1]-w.Along) - w.AlongOff
	return across, along, nil
}

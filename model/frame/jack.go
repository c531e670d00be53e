package frame

import (
	"errors"

	"boxwalk/model/units"
)

// Extended is what a screw jack carries at an extension, as its owner states.
type Extended struct {
	Extension units.Length // m
	Capacity  units.Force  // kN
}

// JackTable is a jack's capacity from the least extension to the greatest.
type JackTable []Extended

// At returns the capacity at an extension, straight between two rows. A chart
// that sags between its rows has less there: state rows close enough. Errors: no
// row, extensions that do not grow, a capacity that does, an extension outside
// the table. Source: the jack's owner.
func (t JackTable) At(extension units.Length) (units.Force, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	last := len(t) - 1
	if err := within("extension of a jack", float64(extension), float64(t[0].Extension), float64(t[last].Extension), "m"); err != nil {
		return 0, err
	}
	for i, row := range t {
		if extension == row.Extension {
			return row.Capacity, nil
		}
		if extension < row.Extension {
			before := t[i-1]
			f := units.Force((extension - before.Extension) / (row.Extension - before.Extension))
			return before.Capacity + f*(row.Capacity-before.Capacity), nil
		}
	}
	return t[last].Capacity, nil
}

func (t JackTable) check() error {
	err := count("rows of a jack's table", len(t), 1)
	for i, row := range t {
		least, most := 0.0, mostForce
		err = errors.Join(err, within("extension", float64(row.Extension), 0, 5, "m"))
		if i > 0 {
			least, most = float64(t[i-1].Extension), float64(t[i-1].Capacity)
			err = errors.Join(err, above("extension of the next row", float64(row.Extension), least, 5, "m"))
		}
		err = errors.Join(err, above("capacity of a row", float64(row.Capacity), 0, most, "kN"))
	}
	return err
}

// Spindle is a jack's screw as a column between its nut, in which it is clamped,
// and its plate, on which it is hinged and against which the leg may sway.
type Spindle struct {
	Core       units.Length   // m, of the thread, its least diameter
	Off        units.Length   // m, of the load from the axis: play, plate, plumb
	Modulus    units.Pressure // kPa
	Yield      units.Pressure // kPa
	LoadFactor float64        // on the load, at yield of the edge
}

// At returns the load that a spindle carries when extended so far: that at which
// the edge of its core yields as a cantilever column loaded off its axis, over
// the load factor. It counts the leg as stiff: where that bends too, it carries
// less. Range: extension above 0 to 2 m, load factor 1 to 10, off at least
// extension/500. Source: secant formula with K = 2 (derived); a stated capacity
// of the jack goes before it.
func (s Spindle) At(extension units.Length) (units.Force, error) {
	err := errors.Join(
		above("extension of a spindle", float64(extension), 0, 2, "m"),
		within("load factor", s.LoadFactor, 1, 10, ""))
	core, bad := Rod(s.Core)
	if err = errors.Join(err, bad); err != nil {
		return 0, err
	}
	b := Bar{Section: core, Length: extension, Factor: 2, Modulus: s.Modulus, Yield: s.Yield}
	o, err := b.AtStress(s.Yield, s.Off)
	if err != nil {
		return 0, err
	}
	return o.Load / units.Force(s.LoadFactor), nil
}

package job

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/model/units"
)

// Check holds the rules between groups of the job: hangers hang in the cells.
func (j *Job) Check(d *Decoder, path string) {
	j.checkCovered(d)
	h := j.LeftInPlace.Hangers
	if h == nil {
		return
	}
	for i, y := range h.Lines {
		h.checkLine(d, item("left_in_place.hangers.lines", i), y, &j.Culvert)
	}
}

// checkLine asks that a plate on a line lies on the flat soffit of every cell.
func (h *Hangers) checkLine(d *Decoder, path string, y units.Length, c *Culvert) {
	sys, off := d.System(), units.Length(math.Abs(float64(y)))
	for i, o := range c.Openings() {
		if room, reach := flat(o, c.Haunch.Top), off+h.Plate.Y/2; reach > room {
			d.FailAt(path, fmt.Sprintf("%s puts the plate beyond the flat soffit of cell %d", y.Text(sys), i+1),
				fmt.Sprintf("%s + half the plate %s = %s; flat to %s from the centreline", off.Text(sys), (h.Plate.Y/2).Text(sys), reach.Text(sys), room.Text(sys)), lineFix(room-h.Plate.Y/2, sys))
			return
		}
	}
}

// lineFix is how far from the centreline a plate may hang.
func lineFix(room units.Length, sys units.System) string {
	if room < 0 {
		return "use a narrower plate (left_in_place.hangers.plate)"
	}
	return "write at most " + room.Text(sys) + " to either side"
}

// Check asks that plates lie beside each other and that rod, nut and plate fit.
func (h *Hangers) Check(d *Decoder, path string) {
	sys := d.System()
	for i, a := range h.Lines {
		for k, b := range h.Lines[:i] {
			if gap := units.Length(math.Abs(float64(a - b))); gap < h.Plate.Y {
				d.FailAt(item(path+".lines", i), fmt.Sprintf("%s lays its plates over those of line %d", a.Text(sys), k+1), fmt.Sprintf("%s apart; a plate is %s wide", gap.Text(sys), h.Plate.Y.Text(sys)), "write lines at least "+h.Plate.Y.Text(sys)+" apart")
				return
			}
		}
	}
	if side := min(h.Plate.X, h.Plate.Y); h.Rod >= side {
		d.FailAt(path+".rod", h.Rod.Text(sys)+" is no thinner than its plate", "the plate is "+side.Text(sys)+" wide", "write less than "+side.Text(sys))
	}
	if h.Tail > 0 && h.Nut <= h.Rod {
		d.FailAt(path+".nut", h.Nut.Text(sys)+" is no wider than the rod", "the rod is "+h.Rod.Text(sys), "write more than "+h.Rod.Text(sys))
	}
}

// Check asks that the least coefficient is not above the most, and where it is from:
// a carrier that friction is to hold runs away where there is less of it.
func (r *Rolling) Check(d *Decoder, path string) {
	if r.Least > r.Most {
		d.FailAt(path+".least", fmt.Sprintf("%g is above the most", float64(r.Least)), fmt.Sprintf("the most is %g", float64(r.Most)), fmt.Sprintf("write at most %g", float64(r.Most)))
	}
	if r.Least > 0 && strings.TrimSpace(r.Source) == "" {
		d.FailAt(path+".least", fmt.Sprintf("%g is counted on for holding the carrier, and nobody says where it is from", float64(r.Least)),
			"without it no friction is counted on", `leave it out, or write beside it for example source: "pull test of this carrier on site"`)
	}
}

// Check asks that a step sets each adjuster once.
func (s *Step) Check(d *Decoder, path string) {
	for _, name := range SortedKeys(s.Drivers) {
		for _, side := range []string{" left", " right"} {
			if both, one := strings.CutSuffix(name, side); one {
				if _, twice := s.Drivers[both]; twice {
					d.FailAt(path+".drivers."+name, fmt.Sprintf("sets what %q sets too", both), "that name stands for both sides", "name both sides, or none")
				}
			}
		}
	}
}

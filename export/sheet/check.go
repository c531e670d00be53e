package sheet

import (
	"fmt"
	"math"
)

const largest = 1e8 // mm, 100 km: beyond it a coordinate is a mistake and writers lose digits

// Check refuses a sheet that cannot be drawn truly: no room for the cautions, a
// view without a scale, a coordinate that is not a finite number. Every writer
// calls it first.
func (s *Sheet) Check() error {
	if _, err := s.Layout(); err != nil {
		return err
	}
	if s.Lettering > 20 {
		return fmt.Errorf("sheet: lettering of %g mm; ISO 3098 ends at 20", s.Lettering)
	}
	for n, v := range s.Views {
		if err := v.check(); err != nil {
			return fmt.Errorf("sheet: view %d %q: %w", n+1, Clean(v.Title), err)
		}
	}
	return nil
}

func (v *View) check() error {
	if !(v.Scale > 0) || v.Scale > largest || !finite(v.Shift) {
		return fmt.Errorf("no valid scale and place (1:%g at %v); call Arrange", v.Scale, v.Shift)
	}
	for n, i := range v.Items {
		for _, p := range i.points() {
			if !finite(p) {
				return fmt.Errorf("item %d (%T) has the coordinate %v", n+1, i, p)
			}
		}
		if radius(i) < 0 {
			return fmt.Errorf("item %d (%T) has the radius %g", n+1, i, radius(i))
		}
	}
	return nil
}

func finite(p Point) bool {
	for _, c := range p {
		if math.IsNaN(c) || math.Abs(c) > largest {
			return false
		}
	}
	return true
}

func radius(i Item) float64 {
	switch i := i.(type) {
	case Circle:
		return i.Radius
	case Arc:
		return i.Radius
	}
	return 0
}

package carrier

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

func TestPlatesAndBarsAreWhatTheyAre(t *testing.T) {
	plate := geom.Prism(rectangle(0, 0, 0.150, 0.015), 0, 0.150)
	if m := ofSolid(JackPlate, plate); !m.Known() || math.Abs(m.High-7850*0.150*0.150*0.015) > 1e-9 {
		t.Errorf("a plate of 150 x 150 x 15 mm weighs %v", m)
	}
	// a round bar of 60 mm drawn as a square one
	screw := geom.Prism(rectangle(0, 0, 0.060, 0.5), 0, 0.060)
	if m := ofSolid(JackScrew, screw); !m.Known() || math.Abs(m.High-7850*math.Pi/4*0.060*0.060*0.5) > 1e-9 {
		t.Errorf("a screw of 60 mm and 500 mm weighs %v", m)
	}
	tube := geom.Prism(rectangle(0, 0, 0.120, 0.120), 0, 1)
	if m := ofSolid(Leg, tube); m.Known() || m.Low > 10.8 || m.High < 40.9 {
		t.Errorf("square tubes of 120 mm weigh 10.8 to 40.9 kg/m, from memory of EN 10219; %v", m)
	}
	stated := units.Number(22.6)
	if m := perMetre(&stated, 2); !m.Known() || m.High != 45.2 {
		t.Errorf("2 m of 22.6 kg/m weigh %v", m)
	}
}

// weighing is a carrier of two walls and a sill whose masses are not all known.
func weighing(total float64) *Carrier {
	at := func(r Role, x, y, z float64, m Mass, face float64) Part {
		return Part{Role: r, Mass: m, Face: face, Solid: geom.Block(geom.Box{Min: geom.Vec{x - 1, y - 0.1, z - 0.1}, Max: geom.Vec{x + 1, y + 0.1, z + 0.1}})}
	}
	g := &job.Gear{Mass: job.Masses{Extra: 10}}
	if total > 0 {
		g.Mass.Total = (*units.Mass)(&total)
	}
	return &Carrier{Gear: g,
		Parts: []Part{at(WallPanel, 0, 1, 2, Mass{100, 100}, 2), at(WallPanel, 0, -1, 2, Mass{100, 100}, 2), at(Sill, 0, 0, 0, Mass{50, 150}, 0), at(Tie, 0, 0, 1, Mass{10, 10}, 0)}}
}

func TestTheRangeOfAMassIsThatOfItsCentreToo(t *testing.T) {
	w := weighing(0).WeighRaised()
	// 200 + 10 known, a sill of 50 to 150, up to 10 kg/m2 on 4 m2 at the walls
	if w.Mass != (Mass{260, 400}) || math.Abs(w.Guessed-(150.0+40)/400) > 1e-12 {
		t.Errorf("%v, %.3f of it guessed", w.Mass, w.Guessed)
	}
	// highest with the light sill and all that sticks: (2 x 240 + 10) / (240 + 50 + 10);
	// lowest with the heavy sill and nothing: (2 x 200 + 10) / (200 + 150 + 10)
	if math.Abs(w.Most[2]-490.0/300) > 1e-9 || math.Abs(w.Least[2]-410.0/360) > 1e-9 {
		t.Errorf("centre of gravity from %v to %v", w.Least, w.Most)
	}
	// what is not known of both sides is alike
	if math.Abs(w.Least[1]) > 1e-12 || math.Abs(w.Most[1]) > 1e-12 {
		t.Errorf("off the middle by %v to %v", w.Least[1], w.Most[1])
	}
}

func TestAStatedTotalGoverns(t *testing.T) {
	w := weighing(300).WeighRaised()
	if w.Mass != (Mass{300, 340}) || math.Abs(w.Guessed-40.0/340) > 1e-12 {
		t.Errorf("%v, %.3f of it guessed", w.Mass, w.Guessed)
	}
	rolls := weighing(300).Weigh(func(p Part) bool { return p.Role != Tie }, func(int) geom.Pose { return geom.Identity() })
	if rolls.Mass != (Mass{290, 330}) {
		t.Errorf("without ties %v", rolls.Mass)
	}
	if list := weighing(300).Outweighed(); len(list) != 0 {
		t.Error(list)
	}
	// the parts weigh 100 + 100 + 50 + 10 at least
	if list := weighing(259).Outweighed(); len(list) != 1 || list[0].Key != "mass.total" {
		t.Errorf("259 kg: %v", list)
	}
}

// The centre of gravity of any masses within their ranges lies in the box, and
// its sides are reached.
func TestNoMassesPutTheCentreOutsideItsBox(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for range 300 {
		var list []share
		for range 1 + r.Intn(8) {
			low := 1 + 99*r.Float64()
			list = append(list, share{Mass{low, low * (1 + 3*r.Float64())}, geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}})
		}
		least, most := math.Inf(1), math.Inf(-1)
		for corner := range 1 << len(list) {
			var mass, moment float64
			for i, s := range list {
				m := s.mass.Low
				if corner>>i&1 == 1 {
					m = s.mass.High
				}
				mass, moment = mass+m, moment+m*s.centre[0]
			}
			least, most = min(least, moment/mass), max(most, moment/mass)
		}
		if math.Abs(furthest(list, 0, 1)-most) > 1e-9 || math.Abs(-furthest(list, 0, -1)-least) > 1e-9 {
			t.Fatalf("%v: from %v to %v, by all corners %v to %v", list, -furthest(list, 0, -1), furthest(list, 0, 1), least, most)
		}
	}
}

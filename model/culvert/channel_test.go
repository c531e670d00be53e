package culvert

import (
	"math"
	"testing"

	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/units"

	"pgregory.net/rapid"
)

// box is a job of one cell of 3.0 m by 2.4 m with haunches of 150 below.
func box(channel *job.Channel, pours ...units.Length) *job.Job {
	c := job.Culvert{Cells: job.Cells{Count: 1}, Span: 3, Rise: 2.4, Roof: 0.3, Invert: 0.3, OuterWall: 0.25, Kicker: 0.3,
		Haunch: job.Haunches{Top: &units.Size2{X: 0.2, Y: 0.2}, Bottom: &units.Size2{X: 0.15, Y: 0.15}}, Pours: job.Pours{List: pours}, Channel: channel}
	return &job.Job{Culvert: c}
}

// inverts of the first bay.
func inverts(c *Culvert) []Solid {
	var out []Solid
	for _, s := range c.Around(c.Cells[0], c.Pours[0]) {
		if s.Zone == Invert {
			out = append(out, s)
		}
	}
	return out
}

// inside tells whether a point lies in a solid, and how far from its surface.
func inside(s *geom.Solid, p geom.Vec) (in bool, off float64) {
	off = math.Inf(-1)
	for i := range s.Faces {
		off = math.Max(off, s.Plane(i).Distance(p))
	}
	return off < 0, math.Abs(off)
}

func TestInvertIsTheSlabLessTheChannel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		within := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		width := within("width", 0.05, 2.7)
		offset := within("offset", width/2-1.35, 1.35-width/2)
		depth := within("depth", 0.01, 0.29)
		j := box(&job.Channel{Offset: units.Length(offset), Width: units.Length(width), Depth: units.Length(depth)}, 5)
		j.Culvert.Skew = job.Skews{Inlet: units.Angle(within("inlet", -0.5, 0.5)), Outlet: units.Angle(within("outlet", -0.5, 0.5))}
		pieces := inverts(New(j, nil))
		for _, s := range pieces {
			if err := s.Check(); err != nil {
				t.Fatalf("%s: %v", s.Name, err)
			}
		}
		y, z := within("y", -1.9, 1.9), within("z", -0.4, 0.1)
		want := math.Abs(y) < 1.75 && z > -0.3 && z < 0 && !(math.Abs(y-offset) < width/2 && z > -depth)
		for _, edge := range []float64{math.Abs(y) - 1.75, z + 0.3, z, math.Abs(y-offset) - width/2, z + depth} {
			if math.Abs(edge) < 1e-9 {
				t.Skip("on a face")
			}
		}
		got := false
		for _, s := range pieces {
			in, _ := inside(s.Solid, geom.Vec{2.5, y, z})
			got = got || in
		}
		if got != want {
			t.Errorf("(%v, %v) in the invert: %v, want %v", y, z, got, want)
		}
	})
}

func TestFacesBetweenPiecesOfTheInvertAreNoWayOut(t *testing.T) {
	// a channel from -100 to 500, 120 deep: a point below its edge, 20 under its
	// floor, is 20 from the surface and no less; one 5 inside the edge and 50
	// under the top comes out sideways after 5
	pieces := inverts(New(box(&job.Channel{Offset: 0.2, Width: 0.6, Depth: 0.12}, 5), nil))
	for _, c := range []struct{ y, z, want float64 }{{0.5, -0.14, 0.020}, {-0.1, -0.14, 0.020}, {0.505, -0.05, 0.005}, {-0.105, -0.05, 0.005}, {0.2, -0.2, 0.080}} {
		depth := 0.0
		for _, s := range pieces {
			if in, off := inside(s.Solid, geom.Vec{2.5, c.y, c.z}); in {
				depth = math.Max(depth, off)
			}
		}
		if math.Abs(depth-c.want) > 1e-12 {
			t.Errorf("(%v, %v) lies %v deep, want %v", c.y, c.z, depth, c.want)
		}
	}
}

func TestInvertWithoutAChannelIsOnePiece(t *testing.T) {
	if n := len(inverts(New(box(nil, 5), nil))); n != 1 {
		t.Errorf("%d pieces", n)
	}
	pieces := inverts(New(box(&job.Channel{Width: 0.6, Depth: 0.1}, 5), nil))
	if len(pieces) != 3 || pieces[0].Side != Both || pieces[1].Side != Left || pieces[2].Side != Right {
		t.Errorf("%d pieces with a channel", len(pieces))
	}
}

// area of a polygon, positive counter-clockwise.
func area(loop []geom.Point2) float64 {
	var a float64
	for i, p := range loop {
		q := loop[(i+1)%len(loop)]
		a += (p[0]*q[1] - q[0]*p[1]) / 2
	}
	return a
}

func TestOpeningCountsTheChannelAndEveryHaunch(t *testing.T) {
	// 3.0 x 2.4 less two of 0.2 x 0.2 / 2 and two of 0.15 x 0.15 / 2
	clear := 3*2.4 - 0.2*0.2 - 0.15*0.15
	plain := New(box(nil, 5), nil).Cells[0].Opening()
	if len(plain) != 8 || math.Abs(area(plain)-clear) > 1e-12 {
		t.Errorf("%d corners around %v m2, want 8 around %v", len(plain), area(plain), clear)
	}
	with := New(box(&job.Channel{Offset: -0.2, Width: 0.6, Depth: 0.1}, 5), nil).Cells[0].Opening()
	if len(with) != 12 || math.Abs(area(with)-clear-0.6*0.1) > 1e-12 {
		t.Errorf("%d corners around %v m2, want 12 around %v", len(with), area(with), clear+0.06)
	}
	// a channel from toe to toe takes the two corners of the flat invert away
	full := New(box(&job.Channel{Width: 2.7, Depth: 0.1}, 5), nil).Cells[0].Opening()
	if len(full) != 10 || math.Abs(area(full)-clear-2.7*0.1) > 1e-12 {
		t.Errorf("%d corners around %v m2, want 10 around %v", len(full), area(full), clear+0.27)
	}
}

package load

import (
	"errors"
	"math"
	"testing"

	"boxwalk/model/units"
)

// A plate of 200 x 200 x 20 mm under 20 kN with a nut of 44 and a hole of 27 mm, by hand:
// M = 20 x 0.156 / 8 = 0.39 kNm over W = 0.173 x 0.02² / 6 = 1.15333e-5 m³: 33.815 MPa.
func TestAHangerPlateBends(t *testing.T) {
	h := HangerPlate{0.2, 0.2, 0.02, 0.044, 0.027}
	got, err := h.Bending(20)
	if err != nil || math.Abs(float64(got)-33815.03) > 0.01 {
		t.Errorf("%v, %v", got, err)
	}
	long := HangerPlate{0.3, 0.2, 0.02, 0.044, 0.027}
	// 20 x 0.256 / 8 = 0.64 kNm about the short side
	if got, _ := long.Bending(20); math.Abs(float64(got)-0.64/1.153333333e-5) > 1 {
		t.Errorf("%v", got)
	}
	if _, err := (HangerPlate{0.2, 0.2, 0, 0.044, 0.027}).Bending(20); !errors.Is(err, ErrRange) {
		t.Error(err)
	}
	if _, err := h.Bending(0); err != nil {
		t.Error(err)
	}
}

// A slab of 300 mm at 16 MPa: b0 = 2 (0.2 + 0.2 + 0.6) = 2 m, 0.6 x 0.22 x 4 x 2 x 0.3 =
// 0.3168 MN. 0.2 m from an edge: 0.5 + 2 (0.2 + 0.1 + 0.15) = 1.4 m.
func TestAYoungSlabIsPunched(t *testing.T) {
	h := HangerPlate{0.2, 0.2, 0.02, 0.044, 0.027}
	for _, c := range []struct{ edge, want float64 }{{5, 316.8}, {0.2, 316.8 * 1.4 / 2}} {
		if got, err := h.PunchingPlain(16000, 0.3, units.Length(c.edge)); err != nil || math.Abs(float64(got)-c.want) > 1e-9 {
			t.Errorf("%v m from the edge: %v, %v, want %v", c.edge, got, err, c.want)
		}
	}
	// three times as long as wide: 0.11 (1 + 2/3)
	long := HangerPlate{0.6, 0.2, 0.02, 0.044, 0.027}
	if got, _ := long.PunchingPlain(16000, 0.3, 50); math.Abs(float64(got)-0.6*0.11*(1+2.0/3)*4*2.8*0.3*1000) > 1e-9 {
		t.Errorf("%v", got)
	}
	if _, err := h.PunchingPlain(0, 0.3, 5); !errors.Is(err, ErrRange) {
		t.Error("no strength")
	}
}

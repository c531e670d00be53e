package statics

import "boxwalk/model/carrier"

// gravity in m/s², the standard value (ISO 80000-3), over 1000: kN per kg.
const gravity = 9.80665e-3

// Weights are what a raised carrier weighs at most, by where that comes down, kN: of
// what lies along the cell for each metre of form, of the rest for each bent.
type Weights struct {
	Soffit   float64 // kN/m, panels, corners and fillers of the roof, and what lies on them
	Stringer float64 // kN/m, each, with its pads
	Wall     float64 // kN/m, each of the two walls with what hangs on it
	Tube     float64 // kN, each
	Arm      float64 // kN, each
	Leg      float64 // kN, each
	Rest     float64 // kN, what stands on each jack besides
	Total    float64 // kN

	light                Light
	armLong, high, gauge float64 // m: an arm's length, the soffit above the plates, leg to leg
}

// Light is what is there at least where weight relieves, as Weights has it: the least
// that parts may weigh, with nothing on them.
type Light struct {
	Soffit, Stringer, Wall float64
	Share                  float64 // of tubes and arms
	Jack                   float64 // on each jack: a leg, and what stands on it besides
}

// Weigh sorts the parts by where their weight comes down. What a stated mass of the
// carrier has beyond its parts goes to the jacks.
func Weigh(c *carrier.Carrier) Weights {
	extra := float64(c.Gear.Mass.Extra)
	heavy := sorted(c, func(p carrier.Part) float64 { return p.Mass.High + extra*p.Face })
	low := sorted(c, func(p carrier.Part) float64 { return p.Mass.Low })
	parts := 0.0
	for _, kg := range heavy {
		parts += kg
	}
	total := max(parts, c.WeighRaised().Mass.High)
	heavy[onJacks] += total - parts
	long, n, each := gravity/float64(c.Gear.Form.Length), gravity/float64(len(c.Bents)), float64(lines(c))
	w := Weights{
		Soffit: heavy[onSoffit] * long, Stringer: heavy[alongForm] * long / each, Wall: heavy[onWalls] * long / 2,
		Tube: heavy[ofTubes] * n, Arm: heavy[ofArms] * n / 2, Leg: heavy[ofLegs] * n / 2, Rest: heavy[onJacks] * n / 2, Total: total * gravity,
		light:   Light{Soffit: low[onSoffit] * long, Stringer: low[alongForm] * long / each, Wall: low[onWalls] * long / 2, Jack: (low[ofLegs] + low[onJacks]) * n / 2},
		armLong: c.ArmOuter - c.ArmInner, high: c.Soffit, gauge: c.Gauge,
	}
	w.light.Share = low[ofTubes] / heavy[ofTubes]
	if heavy[ofArms] > 0 {
		w.light.Share = min(w.light.Share, low[ofArms]/heavy[ofArms])
	}
	return w
}

// place is where a part's weight comes down.
type place int

const (
	onSoffit place = iota
	alongForm
	onWalls
	ofTubes
	ofArms
	ofLegs
	onJacks
	places
)

// placeOf a part.
func placeOf(c *carrier.Carrier, p carrier.Part) place {
	switch {
	case c.OnWall(p):
		return onWalls
	case p.Role.Faced():
		return onSoffit
	}
	switch p.Role {
	case carrier.Stringer, carrier.Pad, carrier.RoofScrew:
		return alongForm
	case carrier.Header:
		return ofTubes
	case carrier.Arm:
		return ofArms
	case carrier.Leg:
		return ofLegs
	}
	return onJacks
}

// sorted sums a mass of the parts by where it comes down.
func sorted(c *carrier.Carrier, kg func(p carrier.Part) float64) [places]float64 {
	var out [places]float64
	for _, p := range c.Parts {
		out[placeOf(c, p)] += kg(p)
	}
	return out
}

// lines counts the stringers.
func lines(c *carrier.Carrier) int {
	n := 0
	for _, s := range c.Rests.Stringers {
		n += len(signs(s.Side))
	}
	return max(1, n)
}

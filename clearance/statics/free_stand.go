package statics

import (
	"math"
	"slices"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
)

// Standing is a carrier that stands free, on its jack plates or on its wheels.
type Standing struct {
	Step     string // "" raised, before anything is freed; else at the end of that step
	OnWheels bool
	Mass     carrier.Mass
	// The centre of gravity lies in a box, in the frame of the bay.
	Least, Most geom.Vec
	Rear, Front float64 // m, the outermost bents or wheel lines that carry
	Gauge       float64 // m, left to right
	Top         float64 // m above the invert
	// What faces the wind along and across the cell, m2 of outline, and its middle above
	// the invert, m.
	EndOn, Beside float64
	Middle        float64
}

// Stands are the ways in which a bay's carrier stands free: raised, at the end of every
// step that can be made, and so collapsed on its wheels, parked.
func Stands(b *model.Bay) []Standing {
	c := b.Carrier
	out := []Standing{standing(b, "", false, func(carrier.Part) bool { return true }, func(int) geom.Pose { return geom.Identity() }, c.WeighRaised())}
	wheels := false
	for _, s := range b.Steps {
		if s.Path == nil {
			break
		}
		wheels = wheels || s.Carried
		out = append(out, standing(b, s.Name, wheels, s.PresentAfter, s.Pose, c.Weigh(s.PresentAfter, s.Pose)))
	}
	return out
}

func standing(b *model.Bay, step string, wheels bool, present func(carrier.Part) bool, pose func(int) geom.Pose, w carrier.Weighed) Standing {
	c := b.Carrier
	s := Standing{Step: step, OnWheels: wheels, Mass: w.Mass, Least: w.Least, Most: w.Most, Gauge: c.Gauge}
	on := c.Bents
	if wheels {
		on = nil
		for _, at := range c.Gear.Wheels.At {
			on = append(on, c.Rear+float64(at))
		}
	}
	s.Rear, s.Front = slices.Min(on), slices.Max(on)
	outline := geom.Box{Min: geom.Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, Max: geom.Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}}
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Role == carrier.Tie || !present(*p) {
			continue
		}
		at := pose(p.Body)
		for _, v := range p.Vertices {
			q := at.Apply(v)
			for k := range 3 {
				outline.Min[k], outline.Max[k] = math.Min(outline.Min[k], q[k]), math.Max(outline.Max[k], q[k])
			}
		}
	}
	size := outline.Max.Sub(outline.Min)
	s.Top, s.Middle = outline.Max[2], (outline.Max[2]+outline.Min[2])/2
	s.EndOn, s.Beside = size[1]*size[2], size[0]*size[2]
	return s
}

// Levers are the least distances of the centre of gravity from the tipping lines across
// and along, m; below 0 it lies beyond one.
func (s Standing) Levers() (across, along float64) {
	across = s.Gauge/2 - math.Max(math.Abs(s.Least[1]), math.Abs(s.Most[1]))
	return across, math.Min(s.Least[0]-s.Rear, s.Front-s.Most[0])
}

package gltf

import (
	"slices"

	"boxwalk/export/assembly"
	"boxwalk/model/geom"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

// animate writes a motion: each body goes straight and turns evenly from key to key;
// a piece that is not there has no size.
func (e *encoder) animate(m assembly.Motion) {
	a := &gltf.Animation{Name: m.Name}
	for _, t := range m.Tracks {
		times := make([]float32, len(t.Keys))
		moved, turned := make([][3]float32, len(t.Keys)), make([][4]float32, len(t.Keys))
		for i, k := range t.Keys {
			times[i], moved[i], turned[i] = float32(k.At), single(k.Pose.T), quaternion(k.Pose)
			if i > 0 && against(turned[i], turned[i-1]) {
				turned[i] = flipped(turned[i])
			}
		}
		at := e.times(times)
		e.channel(a, e.bodies[t.Group], gltf.TRSTranslation, at, e.values(moved), gltf.InterpolationLinear)
		e.channel(a, e.bodies[t.Group], gltf.TRSRotation, at, e.values(turned), gltf.InterpolationLinear)
	}
	for _, o := range m.Off {
		times, sizes := shown(o, m.Length)
		e.channel(a, e.pieces[o.Group][o.Piece], gltf.TRSScale, e.times(times), e.values(sizes), gltf.InterpolationStep)
	}
	if len(a.Channels) > 0 {
		e.doc.Animations = append(e.doc.Animations, a)
	}
}

// shown are the sizes of a piece over a motion: one where it is there, none where not.
func shown(o assembly.Absence, length float64) (times []float32, sizes [][3]float32) {
	add := func(at float64, size float32) {
		times, sizes = append(times, float32(at)), append(sizes, [3]float32{size, size, size})
	}
	if o.From > 0 {
		add(0, 1)
	}
	add(o.From, 0)
	if o.To < length {
		add(o.To, 1)
	}
	return times, sizes
}

func (e *encoder) channel(a *gltf.Animation, node int, path gltf.TRSProperty, times, values int, how gltf.Interpolation) {
	a.Samplers = append(a.Samplers, &gltf.AnimationSampler{Input: times, Output: values, Interpolation: how})
	a.Channels = append(a.Channels, &gltf.AnimationChannel{Sampler: len(a.Samplers) - 1, Target: gltf.AnimationChannelTarget{Node: gltf.Index(node), Path: path}})
}

// times are an accessor of moments, with their bounds, as the format asks.
func (e *encoder) times(list []float32) int {
	n := e.values(list)
	e.doc.Accessors[n].Min, e.doc.Accessors[n].Max = []float64{float64(slices.Min(list))}, []float64{float64(slices.Max(list))}
	return n
}

func (e *encoder) values(list any) int { return modeler.WriteAccessor(e.doc, gltf.TargetNone, list) }

func quaternion(p geom.Pose) [4]float32 {
	q := rotation(p)
	return [4]float32{float32(q[0]), float32(q[1]), float32(q[2]), float32(q[3])}
}

// against tells whether two quaternions of nearly the same turn have opposite signs.
func against(p, q [4]float32) bool { return p[0]*q[0]+p[1]*q[1]+p[2]*q[2]+p[3]*q[3] < 0 }

func flipped(q [4]float32) [4]float32 { return [4]float32{-q[0], -q[1], -q[2], -q[3]} }

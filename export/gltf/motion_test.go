package gltf

import (
	"bytes"
	"math"
	"testing"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/check"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/export/assembly"
	"boxwalk/model"
	"boxwalk/model/geom"
	"boxwalk/model/motion"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

// promised is how far a vertex may be from where the model has it, m.
const promised = 1e-4

// film is a written file read back.
type film struct {
	t   *testing.T
	doc *gltf.Document
}

func filmed(t *testing.T, b *model.Bay, r *result.Result) film {
	t.Helper()
	raised := assembly.Of(b, assembly.Raised)
	var out bytes.Buffer
	if err := Encode(&out, raised, assembly.Motions(b, raised, r), Head{}); err != nil {
		t.Fatal(err)
	}
	f := film{t, new(gltf.Document)}
	if err := gltf.NewDecoder(&out).Decode(f.doc); err != nil {
		t.Fatal(err)
	}
	return f
}

func (f film) animation(name string) *gltf.Animation {
	for _, a := range f.doc.Animations {
		if a.Name == name {
			return a
		}
	}
	f.t.Fatalf("no animation %q", name)
	return nil
}

// read are the numbers of an accessor.
func (f film) read(n int) any {
	v, err := modeler.ReadAccessor(f.doc, f.doc.Accessors[n], nil)
	if err != nil {
		f.t.Fatal(err)
	}
	return v
}

// track is what an animation does to a node, as the format says it is played.
type track struct {
	times []float32
	moved [][3]float32
	turns [][4]float32
}

func (f film) tracks(a *gltf.Animation) map[string]*track {
	out := map[string]*track{}
	for _, c := range a.Channels {
		name, s := f.doc.Nodes[*c.Target.Node].Name, a.Samplers[c.Sampler]
		if c.Target.Path == gltf.TRSScale {
			continue
		}
		if out[name] == nil {
			out[name] = &track{times: f.read(s.Input).([]float32)}
		}
		switch c.Target.Path {
		case gltf.TRSTranslation:
			out[name].moved = f.read(s.Output).([][3]float32)
		case gltf.TRSRotation:
			out[name].turns = f.read(s.Output).([][4]float32)
		}
	}
	return out
}

// at is the pose that a viewer has at a time: linear, and slerp the shorter way.
func (k *track) at(t float64) geom.Pose {
	i := 0
	for i+2 < len(k.times) && float64(k.times[i+1]) <= t {
		i++
	}
	from, to := float64(k.times[i]), float64(k.times[i+1])
	q := math.Min(1, math.Max(0, (t-from)/(to-from)))
	a, b := quat(k.turns[i]), quat(k.turns[i+1])
	if a.Dot(b) < 0 {
		b = b.Scale(-1)
	}
	return geom.Pose{R: mgl64.QuatSlerp(a, b, q).Normalize().Mat4().Mat3(), T: vec(k.moved[i]).Mul(1 - q).Add(vec(k.moved[i+1]).Mul(q))}
}

func quat(v [4]float32) mgl64.Quat {
	return mgl64.Quat{W: float64(v[3]), V: mgl64.Vec3{float64(v[0]), float64(v[1]), float64(v[2])}}
}

func vec(v [3]float32) geom.Vec { return geom.Vec{float64(v[0]), float64(v[1]), float64(v[2])} }

// off is the farthest that a vertex of a body is shown from where it is.
func off(b *model.Bay, body int, shown, there geom.Pose) float64 {
	worst := 0.0
	for _, p := range b.Carrier.Parts {
		if p.Body != body {
			continue
		}
		for _, v := range p.Vertices {
			worst = math.Max(worst, shown.Apply(v).Sub(there.Apply(v)).Len())
		}
	}
	return worst
}

// What a viewer shows of the collapse, of rolling on and of raising is where the model
// has it, within 0.1 mm at every vertex and at 200 times of each step and way.
func TestAnimationsKeepToTheModel(t *testing.T) {
	for i, name := range []string{"quarry-lane", "ridge-lane", "pindle-beck", "thimblewick"} {
		if i%worked.Campaign(2, 1) != 0 {
			continue
		}
		s := worked.Job(t, name)
		b := &s.Bays[0]
		r := check.Run(s, check.Options{})
		f := filmed(t, b, r)
		worst := map[string]float64{}
		look := func(of string, k *track, body int, time float64, there geom.Pose) {
			worst[of] = math.Max(worst[of], off(b, body, k.at(time), there))
		}
		each := func(of string, visit func(k *track, body int)) {
			tracks := f.tracks(f.animation(of))
			for body := range b.Carrier.Mechanism.Bodies {
				if k := tracks[b.Carrier.Mechanism.Bodies[body].Name]; k != nil {
					visit(k, body)
				}
			}
		}
		const stepTime, waits = 5.0, 1.0
		each("collapse", func(k *track, body int) {
			for n, step := range b.Steps {
				for j := range 201 {
					share := float64(j) / 200
					look("collapse", k, body, float64(n)*stepTime+waits+4*share, step.Path.Pose(motion.Ground, body, share))
				}
			}
		})
		each("raising", func(k *track, body int) {
			for n, step := range b.Raising {
				for j := range 201 {
					share := float64(j) / 200
					look("raising", k, body, float64(n)*stepTime+waits+4*share, step.Path.Pose(motion.Ground, body, share))
				}
			}
		})
		found := measure.Of(s, allow.Of(s.Job), measure.Ask{Advance: true})[0]
		last, poses := b.Steps[len(b.Steps)-1], r.Rolling[0].Poses
		each("rolling", func(k *track, body int) {
			for i := 1; i < len(poses); i++ {
				from, to := poses[i-1].Share, poses[i].Share
				for j := range 9 {
					q := float64(j) / 8
					if to > from {
						time := float64(k.times[i-1]) + q*float64(k.times[i]-k.times[i-1])
						look("rolling", k, body, time, found.Bay.RolledTo(found.Rolling, from+q*(to-from)).Mul(last.Pose(body)))
					}
				}
			}
		})
		for of, by := range worst {
			t.Logf("%s, %s: %.4f mm", name, of, 1000*by)
			if !(by <= promised) {
				t.Errorf("%s, %s: a vertex is shown %.4f mm off", name, of, 1000*by)
			}
		}
		if len(worst) != 3 {
			t.Errorf("%s: %d motions looked at", name, len(worst))
		}
	}
}

func TestTheSameAssemblyGivesTheSameFile(t *testing.T) {
	s := worked.Job(t, "pindle-beck")
	b := &s.Bays[0]
	r := check.Run(s, check.Options{})
	var files [2]bytes.Buffer
	for i := range files {
		raised := assembly.Of(b, assembly.Raised)
		if err := Encode(&files[i], raised, assembly.Motions(b, raised, r), Head{Origin: "test", Remarks: []string{"a"}}); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(files[0].Bytes(), files[1].Bytes()) {
		t.Error("two files of one assembly differ")
	}
}

// Fillers go when the first step takes them off and come back when raising puts them in.
func TestPiecesThatComeOffHaveNoSizeFromThenOn(t *testing.T) {
	s := worked.Job(t, "one-pour")
	b := &s.Bays[0]
	f := filmed(t, b, check.Run(s, check.Options{}))
	sizes := func(of string) (first, last float32, n int) {
		a := f.animation(of)
		for _, c := range a.Channels {
			if c.Target.Path == gltf.TRSScale {
				v := f.read(a.Samplers[c.Sampler].Output).([][3]float32)
				first, last, n = v[0][0], v[len(v)-1][0], n+1
			}
		}
		return first, last, n
	}
	if first, last, n := sizes("collapse"); first != 1 || last != 0 || n == 0 {
		t.Errorf("collapse: %d pieces, from %g to %g", n, first, last)
	}
	if first, last, n := sizes("raising"); first != 0 || last != 1 || n == 0 {
		t.Errorf("raising: %d pieces, from %g to %g", n, first, last)
	}
	if first, last, n := sizes("rolling"); first != 0 || last != 0 || n == 0 {
		t.Errorf("rolling: %d pieces, from %g to %g", n, first, last)
	}
}

package measure

import (
	"bytes"
	"compress/gzip"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/sweep"
	"boxwalk/clearance/worked"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

var update = flag.Bool("update", false, "write testdata/clearance anew")

// sceneText is a bay of a job as a scene of testdata/clearance, which other engines read
// too: the parts that roll and all concrete that they meet, and their collapse and first
// advance in pieces of even motion. Between the ends of a step the bodies of a scene go
// straight and turn evenly about their pins, where those of the job follow their links: it
// has the dimensions of the job, not its numbers.
func sceneText(t *testing.T, name string, cell, pour int) (text, mates string) {
	s := worked.Job(t, name)
	for i := range s.Bays {
		if b := &s.Bays[i]; b.Cell.Number == cell && b.Pour.Number == pour {
			w := sceneWriter{bay: Inspect(b, s.Job, allow.Of(s.Job))}
			return w.write(t)
		}
	}
	t.Fatalf("%s has no cell %d, pour %d", name, cell, pour)
	return "", ""
}

type sceneWriter struct {
	bay    *Bay
	text   strings.Builder
	mates  strings.Builder
	solids []sweep.Part // with Ground for the concrete, in the order written
	now    []geom.Pose  // of each body
	pieces int
	body   strings.Builder
}

func word(s string) string { return strings.ReplaceAll(s, " ", "-") }

func number(x float64) string {
	return strconv.FormatFloat(math.Round(x*1e9)/1e9+0, 'f', -1, 64)
}

func (w *sceneWriter) write(t *testing.T) (text, mates string) {
	b := w.bay
	last := b.Steps[len(b.Steps)-1]
	var list []string
	add := func(id, kind string, group, body int, s *geom.Solid, part sweep.Part) {
		list = append(list, solidText(id, kind, group, s))
		part.Body = body
		w.solids = append(w.solids, part)
	}
	seen := map[string]bool{}
	for _, c := range append(append([]culvert.Solid{}, b.Concrete...), b.Route...) {
		if key := string(shapeOf(nil, c.Vertices)) + fmt.Sprint(pico(c.Vertices[0][0])); !seen[key] {
			seen[key] = true
			add(fmt.Sprintf("p%d/%s", c.Pour, word(c.Name)), word(string(c.Zone)), 0, sweep.Ground, c.Solid, sweep.NewPart(sweep.Ground, c.Solid))
		}
	}
	for i, p := range b.Carrier.Parts {
		if last.PresentAfter(p) && b.Steps[0].Present(p) && p.Role != carrier.Tie {
			add("c/"+word(p.Mark), word(string(p.Role)), p.Body+1, p.Body, p.Solid, b.Parts[i])
		}
	}
	fmt.Fprintf(&w.text, "solids %d\n%s", len(list), strings.Join(list, ""))
	fmt.Fprintf(&w.text, "groups %d\nconcrete\n", len(b.Carrier.Mechanism.Bodies)+1)
	for _, body := range b.Carrier.Mechanism.Bodies {
		w.now = append(w.now, geom.Identity())
		fmt.Fprintln(&w.text, "c/"+word(body.Name))
	}
	for k, s := range b.Steps {
		if s.Stop != nil {
			t.Fatal(s.Stop)
		}
		w.piece(fmt.Sprintf("%d-%s", k+1, word(s.Name)), "collapse", func(body int) geom.Pose { return s.Path.Pose(motion.Ground, body, 1) })
	}
	r, at := b.Advance(), 0.0
	collapsed := append([]geom.Pose(nil), w.now...)
	for i, s := range r.Segments {
		if math.Abs(s.From-at) < 1e-9 && s.to > s.From+1e-9 {
			at = s.to
			w.piece(fmt.Sprintf("roll-%d", i+1), "roll", func(body int) geom.Pose {
				if r.rigid {
					return s.Motion.Pose(sweep.Ground, 0, 1).Mul(collapsed[body])
				}
				return s.Motion.Pose(sweep.Ground, body, 1)
			})
		}
	}
	fmt.Fprintf(&w.text, "pieces %d\n%sexcluded 1\nwheel invert\n", w.pieces, w.body.String())
	return w.text.String(), w.mates.String()
}

func solidText(id, kind string, group int, s *geom.Solid) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s %d %s %d %d\n", id, group, kind, len(s.Vertices), len(s.Faces))
	for _, v := range s.Vertices {
		fmt.Fprintln(&out, number(v[0]), number(v[1]), number(v[2]))
	}
	for _, f := range s.Faces {
		fmt.Fprint(&out, len(f))
		for _, i := range f {
			fmt.Fprint(&out, " ", i)
		}
		fmt.Fprintln(&out)
	}
	return out.String()
}

// piece moves each body to where it is at the end, evenly: x goes to
// c + s d + R(s angle) (x - c), with c where its pin stands.
func (w *sceneWriter) piece(name, phase string, end func(body int) geom.Pose) {
	var moves []string
	moving := map[int]bool{}
	start := append([]geom.Pose(nil), w.now...)
	for body, from := range w.now {
		m := end(body).Mul(from.Inverse())
		axis, angle := turnOf(m)
		c := from.Apply(w.bay.Carrier.Mechanism.Bodies[body].Joint.Pin)
		if phase == "roll" {
			c = geom.Vec{w.bay.Carrier.Rear, 0, 0}
		}
		d := m.Apply(c).Sub(c)
		if angle == 0 && d.Len() < 1e-9 || !w.carries(body) {
			continue
		}
		moving[body] = true
		moves = append(moves, fmt.Sprintln(body+1, number(d[0]), number(d[1]), number(d[2]), axis[0], axis[1], axis[2], number(c[0]), number(c[1]), number(c[2]), angle))
	}
	for body := range w.now {
		w.now[body] = end(body)
	}
	switch {
	case len(moves) == 0: // parts are taken off
		return
	case phase == "collapse":
		w.touching(start, moving)
	default:
		fmt.Fprintln(&w.mates, 0)
	}
	fmt.Fprintf(&w.body, "%s %s %d\n%s", name, phase, len(moves), strings.Join(moves, ""))
	w.pieces++
}

// carries tells whether there is anything on a body.
func (w *sceneWriter) carries(body int) bool {
	return slices.ContainsFunc(w.solids, func(p sweep.Part) bool { return p.Body == body })
}

// turnOf is the axis and angle of a pose; no angle below a nanometre over metres.
func turnOf(p geom.Pose) (axis geom.Vec, angle float64) {
	r := &p.R
	a := geom.Vec{r[5] - r[7], r[6] - r[2], r[1] - r[3]}.Mul(0.5)
	if angle = math.Atan2(a.Len(), (r[0]+r[4]+r[8]-1)/2); angle < 1e-10 {
		return geom.Vec{1, 0, 0}, 0
	}
	return a.Normalize(), angle
}

// touching lists the pairs, of bodies that move, that touch where a piece begins.
func (w *sceneWriter) touching(now []geom.Pose, moving map[int]bool) {
	var pairs []string
	for i, p := range w.solids {
		if !moving[p.Body] {
			continue
		}
		box := BoxAt(p, now[p.Body])
		for k, o := range w.solids {
			if o.Body != sweep.Ground || box.Gap(boxOf(o)) > 1e-5 {
				continue
			}
			if v := sweep.At(standing{pose: now[p.Body]}, sweep.Ground, p, []sweep.Part{o}, 0); v.Upper <= 1e-6 {
				pairs = append(pairs, fmt.Sprintln(i, k))
			}
		}
	}
	fmt.Fprintf(&w.mates, "%d\n%s", len(pairs), strings.Join(pairs, ""))
}

// scenes of testdata/clearance: jobs, and the bays that they are written from.
var scenes = []struct {
	job        string
	cell, pour int
}{{"quarry-lane", 1, 2}, {"four-cells", 2, 2}, {"pindle-beck", 1, 1}, {"arms-first", 1, 1}}

func TestTheScenesOfTheSearchAreWrittenFromJobs(t *testing.T) {
	for _, s := range scenes {
		text, mates := sceneText(t, s.job, s.cell, s.pour)
		for name, want := range map[string]string{s.job + ".txt.gz": text, s.job + ".mates.gz": mates} {
			path := worked.Path("clearance", name)
			if *update {
				if err := os.WriteFile(path, zipped(want), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			if got := unzipped(t, path); got != want {
				t.Errorf("%s is not what %s makes of it; go test ./clearance/measure -run Scenes -update writes it", name, s.job)
			}
		}
	}
}

func zipped(text string) []byte {
	var out bytes.Buffer
	z, _ := gzip.NewWriterLevel(&out, gzip.BestCompression)
	z.Write([]byte(text))
	z.Close()
	return out.Bytes()
}

func unzipped(t *testing.T, path string) string {
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

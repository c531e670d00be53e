package table

import (
	"math"
	"os"
	"slices"
	"testing"

	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
)

// looks is a piece by other means than its marking uses: the box around it, its
// volume, and the lengths of its edges from the shortest.
type looks struct {
	role   carrier.Role
	name   string
	box    geom.Vec
	volume float64
	edges  []float64
}

func looksOf(parts []carrier.Part) looks {
	out := looks{role: parts[0].Role, name: parts[0].Name}
	box := parts[0].Box()
	for _, p := range parts {
		box = box.Union(p.Box())
		out.volume += p.Volume()
		for _, e := range p.Edges() {
			out.edges = append(out.edges, p.Vertices[e[0]].Sub(p.Vertices[e[1]]).Len())
		}
	}
	if out.box = box.Max.Sub(box.Min); out.role == carrier.LinkBar {
		out.box = geom.Vec{} // slanted otherwise in every cell
	}
	slices.Sort(out.edges)
	return out
}

// apart is how far two pieces differ in a length, m, or in the cube root of what
// their volumes differ by.
func (l looks) apart(o looks) float64 {
	if l.role != o.role || l.name != o.name || len(l.edges) != len(o.edges) {
		return math.Inf(1)
	}
	most := l.box.Sub(o.box).Len()
	for i, e := range l.edges {
		most = math.Max(most, math.Abs(e-o.edges[i]))
	}
	return most
}

// marked are the pieces of all carriers of a job, each with its mark.
func marked(s *model.Study, each func(mark string, l looks)) {
	for _, b := range s.Bays {
		parts := b.Carrier.Parts
		for i := 0; i < len(parts); {
			k := i + 1
			for k < len(parts) && parts[k].Piece > 0 {
				k++
			}
			each(parts[i].Mark, looksOf(parts[i:k]))
			i = k
		}
	}
}

func TestAMarkIsOneSizeInTheWholeJobAndASizeOneMark(t *testing.T) {
	list, err := os.ReadDir(worked.Path("jobs"))
	if err != nil {
		t.Fatal(err)
	}
	for _, job := range list {
		s := study(t, job.Name())
		seen, kinds, pieces := map[string]looks{}, map[string][]string{}, 0
		marked(s, func(mark string, l looks) {
			pieces++
			first, known := seen[mark]
			if !known {
				seen[mark] = l
				kinds[l.name+string(l.role)] = append(kinds[l.name+string(l.role)], mark)
				return
			}
			if d := first.apart(l); d > 2e-4 || math.Abs(first.volume-l.volume) > 1e-3*first.volume {
				t.Errorf("%s: mark %s is of two sizes, %.2f mm apart", job.Name(), mark, 1e3*d)
			}
		})
		for _, marks := range kinds {
			for i, a := range marks {
				for _, b := range marks[:i] {
					if sameSide(a, b) && seen[a].apart(seen[b]) < 5e-5 && !mirrored(s, a, b) {
						t.Errorf("%s: %s and %s look alike", job.Name(), a, b)
					}
				}
			}
		}
		t.Logf("%s: %d pieces, %d marks", job.Name(), pieces, len(seen))
	}
}

func sameSide(a, b string) bool { return a[len(a)-1] == b[len(b)-1] && a[len(a)-1] > '9' }

// mirrored tells whether the first pieces of two marks have their corners elsewhere
// in the boxes around them: two hands, or ends of a row cut from both sides.
func mirrored(s *model.Study, a, b string) bool {
	corners := map[string][]geom.Vec{}
	for _, bay := range s.Bays {
		for _, p := range bay.Carrier.Parts {
			if corners[p.Mark] == nil && p.Piece == 0 {
				for _, v := range p.Vertices {
					corners[p.Mark] = append(corners[p.Mark], v.Sub(p.Box().Min))
				}
			}
		}
	}
	for _, v := range corners[a] {
		if !slices.ContainsFunc(corners[b], func(w geom.Vec) bool { return w.Sub(v).Len() < 1e-4 }) {
			return true
		}
	}
	return false
}

func TestEveryRowOfThePartsListIsOneMark(t *testing.T) {
	for _, name := range []string{"quarry-lane", "four-cells", "fernshaw-hollow"} {
		s := study(t, name)
		size, count, want := map[string]string{}, map[string]int{}, map[string]int{}
		for _, row := range PartList(s).Rows {
			if row[0] == "" {
				continue
			}
			if have, known := size[row[0]]; known && have != row[4] {
				t.Errorf("%s: %s is %s and %s", name, row[0], have, row[4])
			}
			size[row[0]] = row[4]
			count[row[0]]++
		}
		marked(s, func(mark string, _ looks) { want[mark]++ })
		for mark := range want {
			if count[mark] == 0 {
				t.Errorf("%s: %s is not listed", name, mark)
			}
		}
		if len(want) != len(count) {
			t.Errorf("%s: %d marks listed, the carriers have %d", name, len(count), len(want))
		}
	}
}

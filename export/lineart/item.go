package lineart

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/fogleman/ln/ln"

	"boxwalk/export/scene"
)

// smooth is the cosine of 30 degrees: edges of a round solid between faces
// less far turned are not edges of the drum it stands for. It lets drums of 13
// sides and more through.
var smooth = math.Cos(math.Pi / 6)

// item is an object made ready to be drawn.
type item struct {
	*Convex
	object       int   // index in the scene
	rank         int   // place of its ID in the order of IDs
	owner        int   // item that stands for its whole: the piece of least rank
	group, whole int32 // numbers of their names; each item its own where empty
	ghost, round bool
	front        []bool // of each face: its outside is seen
	cut          []int  // of each face: the camera's cut that bared it or -1; nil if none did
	hull         []point
	rect         rect
}

// rect is an axis-parallel rectangle of the view plane.
type rect struct{ lo, hi point }

func rectOf(ps ...point) rect {
	r := rect{ps[0], ps[0]}
	for _, p := range ps[1:] {
		r.lo = point{math.Min(r.lo.x, p.x), math.Min(r.lo.y, p.y)}
		r.hi = point{math.Max(r.hi.x, p.x), math.Max(r.hi.y, p.y)}
	}
	return r
}

func (r rect) grow(m float64) rect {
	return rect{point{r.lo.x - m, r.lo.y - m}, point{r.hi.x + m, r.hi.y + m}}
}

func (r rect) meets(o rect) bool {
	return r.lo.x <= o.hi.x && o.lo.x <= r.hi.x && r.lo.y <= o.hi.y && o.lo.y <= r.hi.y
}

// items makes the objects of a cut scene ready.
func items(cut scene.Cutaway, c scene.Camera, v view) ([]item, error) {
	viewFromScene := c.ViewFromScene()
	groups, wholes := names{}, names{}
	ranks := ranksOf(cut.Scene.Objects)
	out := make([]item, 0, len(cut.Scene.Objects))
	for i, o := range cut.Scene.Objects {
		body, err := NewConvex(o.Solid, viewFromScene)
		if err != nil {
			return nil, fmt.Errorf("object %q: %w", o.ID, err)
		}
		it := item{
			Convex: body, object: cut.Source[i], rank: ranks[i],
			ghost: o.Style == scene.Ghost, round: o.Round,
		}
		it.group = groups.number(o.Group, it.ghost)
		it.whole = wholes.number(o.Whole, it.ghost)
		it.see(v)
		out = append(out, it)
	}
	findOwners(out)
	return out, nil
}

// findOwners picks the piece that stands for each whole, so that a line along
// several pieces is one.
func findOwners(its []item) {
	first := map[int32]int{}
	for i := range its {
		k, ok := first[its[i].whole]
		if !ok || its[i].rank < its[k].rank {
			first[its[i].whole] = i
		}
	}
	for i := range its {
		its[i].owner = first[its[i].whole]
	}
}

// see works out what depends on the view.
func (it *item) see(v view) {
	it.front = make([]bool, len(it.planes))
	for _, e := range it.edges {
		at := it.verts[e.from]
		it.front[e.left] = v.faces(it.planes[e.left], at)
		it.front[e.right] = v.faces(it.planes[e.right], at)
	}
	shown := make([]point, len(it.verts))
	for i, p := range it.verts {
		shown[i] = v.project(p)
	}
	it.rect = rectOf(shown...)
	it.hull = hullOf(shown)
}

// bare notes that a cut bared a face.
func (it *item) bare(f scene.Face) {
	if it.cut == nil {
		it.cut = make([]int, len(it.planes))
		for i := range it.cut {
			it.cut[i] = -1
		}
	}
	it.cut[f.Face] = f.Cut
}

// cutOf is the camera's cut that bared a face, or -1.
func (it *item) cutOf(face int) int {
	if it.cut == nil {
		return -1
	}
	return it.cut[face]
}

// onCut tells whether the viewer sees a bared face beside the edge.
func (it *item) onCut(e edge) bool {
	return it.front[e.left] && it.cutOf(int(e.left)) >= 0 || it.front[e.right] && it.cutOf(int(e.right)) >= 0
}

// kindOf is what the edge is when nothing hides it, and false when it is none:
// both faces turned away, or smooth.
func (it *item) kindOf(e edge) (Kind, bool) {
	left, right := it.front[e.left], it.front[e.right]
	switch {
	case it.onCut(e):
		return CutRim, true
	case left != right:
		return Silhouette, true
	case !left:
		return 0, false
	case it.round && it.planes[e.left].n.Dot(it.planes[e.right].n) > smooth:
		return 0, false
	}
	return Inner, true
}

// onNear tells whether the edge only bounds what a perspective leaves out.
func (v view) onNear(a, b ln.Vector) bool {
	const slack = 1e-5
	return !v.parallel() && a.Z > v.near-slack && b.Z > v.near-slack
}

// names numbers names; every empty name gets a number of its own.
type names map[string]int32

func (n names) number(name string, ghost bool) int32 {
	key := name
	switch {
	case name == "":
		key = fmt.Sprint("own\x00", len(n))
	case ghost:
		key = "ghost\x00" + name
	}
	k, ok := n[key]
	if !ok {
		k = int32(len(n))
		n[key] = k
	}
	return k
}

// ranksOf is the place of each object in the order of IDs.
func ranksOf(objects []scene.Object) []int {
	order := make([]int, len(objects))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(objects[i].ID, objects[j].ID) })
	ranks := make([]int, len(objects))
	for rank, i := range order {
		ranks[i] = rank
	}
	return ranks
}

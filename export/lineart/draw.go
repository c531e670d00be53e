package lineart

import (
	"fmt"

	"boxwalk/export/scene"
	"boxwalk/model/geom"
)

// Kind tells what a line is to its object; heavier kinds come later.
type Kind uint8

const (
	// Inner lies between two faces that are both seen.
	Inner Kind = iota
	// Silhouette bounds what is seen of an object, with the same group on both
	// sides of the line.
	Silhouette
	// Outline bounds what is seen of an object at the rim of its group's image.
	Outline
	// CutRim bounds a face bared by one of the camera's cuts.
	CutRim
	kindCount
)

// Path is a straight line that is seen, in millimetres of full size on the
// view plane: x right, y up, from the camera's target.
type Path struct {
	From, To geom.Point2
	Object   int // index in the scene as given; of a whole, its piece of first ID
	Kind     Kind
}

// Draw lists the lines of s that c sees, cuts applied, ordered by object and
// kind. Lines of coinciding edges stand once, under the heaviest kind and then
// the first ID. What is seen of a partly hidden line is left out where it is shorter
// than 0.3 mm. Errors: an
// unfit camera, or a solid whose numbers or edges are unsound; that solids are
// convex is for scene.Scene.Check.
func Draw(s scene.Scene, c scene.Camera) ([]Path, error) {
	d, err := newDrawer(s, c)
	if err != nil {
		return nil, err
	}
	for i := range d.its {
		d.item(i)
	}
	return paths(merge(d.out), d.its), nil
}

// drawer collects the lines of one picture.
type drawer struct {
	view   view
	its    []item
	grid   *grid
	seams  *seams
	strip  strip
	out    []line
	pieces []piece
	hidden []span
	seen   []span
	same   []span
}

func newDrawer(s scene.Scene, c scene.Camera) (*drawer, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	for _, o := range s.Objects {
		if o.Solid == nil {
			return nil, fmt.Errorf("object %q has no solid", o.ID)
		}
	}
	cut, err := s.Cut(cutsOf(c))
	if err != nil {
		return nil, err
	}
	v := newView(c)
	its, err := items(cut, c, v)
	if err != nil {
		return nil, err
	}
	for _, f := range cut.Faces {
		if f.Cut < len(c.Cuts) { // not the plane before the eye
			its[f.Object].bare(f)
		}
	}
	return &drawer{
		view: v, its: its, grid: newGrid(its),
		seams: newSeams(its, v), strip: strip{view: v},
	}, nil
}

// cutsOf are the camera's cuts and, in a perspective, the plane before the eye.
func cutsOf(c scene.Camera) []scene.Cut {
	if c.Distance == 0 {
		return c.Cuts
	}
	n := c.ToViewer.Normalize()
	near := geom.Plane{N: n, D: n.Dot(c.Eye()) - c.Near}
	return c.Cutting(scene.Cut{Plane: near}).Cuts
}

package lineart

import "math"

// grid finds the items near a line of the picture: a raster of cells, each
// with the numbers of the items whose rectangle meets it.
type grid struct {
	area   rect
	n      int
	dx, dy float64 // size of a cell
	start  []int32 // of each cell in list; one more at the end
	list   []int32
	stamp  []int32 // last search that met the item
	search int32
	found  []int32
}

// newGrid sets up a raster of about four cells an item, at most 128 a side.
func newGrid(its []item) *grid {
	g := &grid{n: 1, stamp: make([]int32, len(its))}
	if len(its) == 0 {
		return g
	}
	g.area = its[0].rect
	for _, it := range its[1:] {
		g.area = rectOf(g.area.lo, g.area.hi, it.rect.lo, it.rect.hi)
	}
	g.area = g.area.grow(1)
	g.n = max(4, min(128, int(2*math.Sqrt(float64(len(its))))))
	g.dx = (g.area.hi.x - g.area.lo.x) / float64(g.n)
	g.dy = (g.area.hi.y - g.area.lo.y) / float64(g.n)
	g.fill(its)
	return g
}

// fill counts, then sorts items into their cells.
func (g *grid) fill(its []item) {
	g.start = make([]int32, g.n*g.n+1)
	for _, it := range its {
		g.cells(it.rect, func(k int) { g.start[k+1]++ })
	}
	for k := range g.n * g.n {
		g.start[k+1] += g.start[k]
	}
	g.list = make([]int32, g.start[g.n*g.n])
	next := append([]int32(nil), g.start...)
	for i, it := range its {
		g.cells(it.rect, func(k int) {
			g.list[next[k]] = int32(i)
			next[k]++
		})
	}
}

func (g *grid) column(x float64) int { return clampInt((x-g.area.lo.x)/g.dx, g.n) }
func (g *grid) row(y float64) int    { return clampInt((y-g.area.lo.y)/g.dy, g.n) }

func clampInt(x float64, n int) int {
	if !(x > 0) {
		return 0
	}
	return min(int(x), n-1)
}

func (g *grid) cells(r rect, visit func(int)) {
	for y := g.row(r.lo.y); y <= g.row(r.hi.y); y++ {
		for x := g.column(r.lo.x); x <= g.column(r.hi.x); x++ {
			visit(y*g.n + x)
		}
	}
}

// near lists the items whose cells the line a-b passes, give or take margin.
// The list holds until the next call.
func (g *grid) near(a, b point, margin float64) []int32 {
	g.search++
	g.found = g.found[:0]
	if a.y > b.y {
		a, b = b, a
	}
	for y := g.row(a.y - margin); y <= g.row(b.y+margin); y++ {
		left, right := g.reach(a, b, y, margin)
		for k := y*g.n + left; k <= y*g.n+right; k++ {
			g.collect(k)
		}
	}
	return g.found
}

// reach is the range of columns the line passes in a row.
func (g *grid) reach(a, b point, row int, margin float64) (int, int) {
	from, to := a, b
	if h := b.y - a.y; h > margin {
		low := g.area.lo.y + float64(row)*g.dy - margin
		from = a.toward(b, min(1, max(0, (low-a.y)/h)))
		to = a.toward(b, min(1, max(0, (low+g.dy+2*margin-a.y)/h)))
	}
	return g.column(min(from.x, to.x) - margin), g.column(max(from.x, to.x) + margin)
}

func (g *grid) collect(cell int) {
	for _, i := range g.list[g.start[cell]:g.start[cell+1]] {
		if g.stamp[i] != g.search {
			g.stamp[i] = g.search
			g.found = append(g.found, i)
		}
	}
}

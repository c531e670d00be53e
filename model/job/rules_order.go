package job

import "fmt"

// checkOrder asks that every pour is cast once in every cell.
func (c *Culvert) checkOrder(d *Decoder, path string) {
	if len(c.Order.List) == 0 {
		return
	}
	pours, cells := len(c.Pours.Lengths()), len(c.Openings())
	seen := map[Casting]bool{}
	for i, cast := range c.Order.List {
		if why, detail := c.Order.refused(cast, seen, cells, pours); why != "" {
			at := path + ".order"
			if cast.Cell > 0 {
				at = item(at, i)
			}
			d.FailAt(at, why, detail, "name each pour from 1 on once, or write ahead")
			return
		}
		for cell := range cells {
			if cast.Cell == 0 || cast.Cell == cell+1 {
				seen[Casting{cell + 1, cast.Pour}] = true
			}
		}
	}
	if len(seen) == cells*pours {
		return
	}
	if !c.Order.Apart() {
		d.FailAt(path+".order", fmt.Sprintf("names %d of %d pours", len(c.Order.List), pours), "", "name each pour once, or write ahead")
		return
	}
	for pour := range pours {
		for cell := range cells {
			if !seen[Casting{cell + 1, pour + 1}] {
				d.FailAt(path+".order", fmt.Sprintf("does not say when pour %d of cell %d is cast", pour+1, cell+1), fmt.Sprintf("%d cells of %d pours", cells, pours),
					fmt.Sprintf("add {cell: %d, pour: %d}, or write %d for all cells together", cell+1, pour+1, pour+1))
				return
			}
		}
	}
}

// refused says why a casting cannot stand in the order; empty where it can.
func (o Order) refused(c Casting, seen map[Casting]bool, cells, pours int) (why, detail string) {
	switch {
	case c.Pour > pours:
		return fmt.Sprintf("names pour %d, which is not there", c.Pour), fmt.Sprintf("there are %d pours", pours)
	case c.Cell > cells:
		return fmt.Sprintf("names cell %d, which is not there", c.Cell), fmt.Sprintf("cells: %d", cells)
	case c.Cell > 0 && seen[c]:
		return fmt.Sprintf("names pour %d of cell %d, which it named before", c.Pour, c.Cell), "a pour is cast once in each cell"
	}
	for cell := range cells {
		if c.Cell == 0 && seen[Casting{cell + 1, c.Pour}] {
			return fmt.Sprintf("names pour %d, which it named before", c.Pour), fmt.Sprintf("there are %d pours", pours)
		}
	}
	return "", ""
}

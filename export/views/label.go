package views

import (
	"sort"

	"boxwalk/export/sheet"
)

// callout is a label with an arrow to what it names.
type callout struct {
	tip  sheet.Point
	text string
}

// calloutPitch is the distance of labels below each other, in letter heights.
const calloutPitch = 2.0

// column letters callouts below each other at x, about as high as what they
// name but not above top, so that no two arrows cross. Labels stand to the right of x if x lies right of their
// tips.
func column(s *sheet.Sheet, v *sheet.View, list []callout, x, top, n float64) {
	pitch := calloutPitch * s.LetteringHeight() * n
	mid := 0.0
	for _, c := range list {
		mid += c.tip[1] / float64(len(list))
	}
	mid = min(mid, top-pitch*float64(len(list)-1)/2)
	list = append([]callout(nil), list...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].tip[1] > list[j].tip[1] })
	knee := func(i int) sheet.Point { return sheet.Pt(x, mid+pitch*(float64(len(list)-1)/2-float64(i))) }
	// swapping two that cross shortens both arrows together, so this ends; the
	// count bounds it against rounding
	for range len(list) * len(list) {
		swapped := false
		for i := range list {
			for k := i + 1; k < len(list); k++ {
				now := knee(i).Sub(list[i].tip).Len() + knee(k).Sub(list[k].tip).Len()
				then := knee(k).Sub(list[i].tip).Len() + knee(i).Sub(list[k].tip).Len()
				if then < now-1e-6 {
					list[i], list[k] = list[k], list[i]
					swapped = true
				}
			}
		}
		if !swapped {
			break
		}
	}
	for i, c := range list {
		v.Note(c.tip, knee(i), c.text)
	}
}

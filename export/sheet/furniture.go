package sheet

import "strings"

// Furniture is everything that belongs to the sheet and not to a view: frame,
// title block, cautions, stamp and the captions of the views, in mm of paper,
// made of Line, Polyline and Text only. It is empty on a sheet without a layout,
// which Check refuses.
func (s *Sheet) Furniture() []Item {
	l, err := s.Layout()
	if err != nil {
		return nil
	}
	out := s.Paper.frameItems()
	out = append(out, s.titleItems(l.Title)...)
	if !l.Notes.Empty() {
		out = append(out, Polyline{FrameFields, l.Notes.corners(), true})
		out = append(out, l.notes.items(l.Notes, s.LetteringHeight())...)
	}
	if !l.Stamp.Empty() {
		out = append(out, s.stampItems(l.Stamp)...)
	}
	for _, v := range s.Views {
		out = append(out, s.captionItems(v)...)
	}
	return out
}

// stampHeight is the height of the stamp's letters: four times the lettering.
func (s *Sheet) stampHeight() float64 { return 4 * s.LetteringHeight() }

func (s *Sheet) stampDepth() float64 { return 1.6 * s.stampHeight() }

// stampItems letters the stamp into its band, between double rules; the reason
// stands to its right, as small as it must be.
func (s *Sheet) stampItems(band Box) []Item {
	h := s.stampHeight()
	out := []Item{
		Polyline{StampMark, band.Inset(0.8).corners(), true},
		Polyline{StampMark, band.Inset(2.2).corners(), true},
	}
	stamp := strings.ToUpper(Clean(s.Stamp))
	for h > captionHeight && TextWidth(stamp, h) > 0.6*band.Width() {
		h *= 0.9
	}
	x := band.Min[0] + s.stampHeight()
	out = append(out, Text{On: StampMark, At: Pt(x, band.Centre()[1]), Anchor: MiddleLeft, Height: h, Lines: []string{stamp}})
	left := x + TextWidth(stamp, h) + h
	height, lines := fitText(s.StampReason, s.LetteringHeight(), band.Max[0]-left-4, band.Height()-6)
	if len(lines) == 0 {
		return out
	}
	return append(out, Text{On: StampMark, At: Pt(left, band.Centre()[1]), Anchor: MiddleLeft, Height: height, Lines: lines})
}

// caption is the view's title and scale.
func (s *Sheet) caption(v *View) string {
	title := Clean(v.Title)
	if v.NoScale || v.Scale <= 0 {
		return title
	}
	return strings.TrimSpace(title + " (" + s.Units.ScaleText(v.Scale) + ")")
}

// viewCaptionHeight is one step of ISO 3098 above the lettering.
func (s *Sheet) viewCaptionHeight() float64 { return 1.4 * s.LetteringHeight() }

// captionDepth is the room that a caption needs above a view.
func (s *Sheet) captionDepth() float64 { return 2.2 * s.viewCaptionHeight() }

func (s *Sheet) captionItems(v *View) []Item {
	text := s.caption(v)
	if text == "" || v.Scale <= 0 {
		return nil
	}
	box := s.boxAt(v, v.Scale)
	if box.Empty() {
		return nil
	}
	at := Pt(box.Centre()[0], box.Max[1]+s.viewCaptionHeight()).Add(v.Shift)
	return []Item{Text{On: Notes, At: at, Anchor: BaseCentre, Height: s.viewCaptionHeight(), Lines: []string{text}}}
}

package trace

import (
	"maps"
	"slices"
)

func sortedKeys[V any](m map[int]V) []int { return slices.Sorted(maps.Keys(m)) }

// head writes everything but the claims.
func (p *Proof) head(r *records) {
	r.add(header)
	for _, n := range p.Notes {
		r.named(n, "note")
	}
	for _, in := range p.Inputs {
		r.named(in.Name, "input", in.SHA256)
	}
	r.add("result", p.Result)
	scope := "some"
	if p.Whole {
		scope = "all"
	}
	r.add("scope", scope)
	for _, z := range p.Zones {
		r.named(z.Words, "zone", z.Name)
	}
	for i, c := range p.Carriers {
		r.add("carrier", whole(i))
		c.write(r)
	}
	for i, place := range p.Places {
		r.named(place.Name, "place", whole(i), whole(place.Carrier), decimal(place.Shift))
		place.write(r, p.Carriers[place.Carrier])
	}
}

func (c *Carrier) write(r *records) {
	for i, b := range c.Bodies {
		words := []string{"body", whole(i), whole(b.Parent), b.Kind}
		if b.Kind != "fixed" {
			link := "-"
			if b.Link >= 0 {
				link = whole(b.Link)
			}
			words = append(words, vector(b.Axis), vector(b.Pin), link)
		}
		r.named(b.Name, words...)
	}
	for i, l := range c.Links {
		r.add("link", whole(i), whole(l.A), whole(l.B), vector(l.PinA), vector(l.PinB))
	}
	for _, pair := range c.Runs {
		r.add("runs", whole(pair[0]), whole(pair[1]))
	}
	for i, p := range c.Parts {
		r.named(p.Mark, append([]string{"part", whole(i), whole(p.Body)}, vectors(p.Vertices)...)...)
	}
	for _, pair := range c.Pinned {
		r.add("pinned", whole(pair[0]), whole(pair[1]))
	}
	for _, pair := range c.Seam {
		r.add("seam", whole(pair[0]), whole(pair[1]))
	}
	for _, s := range c.Steps {
		s.write(r, c)
	}
}

func (s *Step) write(r *records, c *Carrier) {
	r.named(s.Name, "step", whole(s.ID), s.Kind)
	for _, d := range s.Drives {
		r.add("drive", whole(d.Body), decimal(d.From), decimal(d.To))
	}
	if len(s.Absent) > 0 {
		r.add("absent", list(s.Absent, everyPart(c)))
	}
	if s.Frame != nil {
		s.Frame.write(r)
	}
}

func (c Carry) write(r *records) {
	words := append([]string{"carry"}, c.Level.words()...)
	words = append(append(words, vector(c.Guide), decimal(c.Base)), c.On.words()...)
	words = append(append(words, decimal(c.From), decimal(c.To)), c.Front.words()...)
	r.add(append(append(words, c.Low.words()...), c.High.words()...)...)
}

func (t Tip) write(r *records) {
	r.add(append(append([]string{"tip"}, t.Level.words()...), vector(t.Pivot), vector(t.From), vector(t.To),
		decimal(t.Yaw[0]), decimal(t.Yaw[1]), decimal(t.Pitch[0]), decimal(t.Pitch[1]))...)
}

func (l Level) words() []string  { return []string{vector(l.Origin), decimal(l.Tilt)} }
func (l Line) words() []string   { return []string{vector(l.At), decimal(l.Heading)} }
func (w Wheels) words() []string { return []string{decimal(w.Ahead), vector(w.Plane)} }

func everyPart(c *Carrier) []int {
	out := make([]int, len(c.Parts))
	for i := range out {
		out[i] = i
	}
	return out
}

func (p *Place) write(r *records, c *Carrier) {
	for _, name := range p.Twins {
		r.named(name, "twin")
	}
	for i, s := range p.Solids {
		zone := s.Zone
		if s.Kind != "" {
			zone += ":" + s.Kind
		}
		r.add(append([]string{"solid", whole(i), zone, s.Scenes}, vectors(s.Vertices)...)...)
	}
	all := everyPart(c)
	for _, f := range p.Faces {
		r.add("face", whole(f.Solid), whole(f.Step), list(f.Parts, all))
	}
	for _, f := range p.Lands {
		r.add("lands", whole(f.Solid), whole(f.Step), list(f.Parts, all))
	}
	for _, f := range p.Stands {
		r.add("stands", whole(f.Solid), list(f.Parts, all))
	}
	for _, f := range p.Rolls {
		r.add("rolls", whole(f.Solid), list(f.Parts, all))
	}
	for _, s := range p.Steps {
		s.write(r, c)
	}
}

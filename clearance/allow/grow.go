package allow

import (
	"fmt"
	"maps"
	"math"

	"boxwalk/model/job"
)

// Plumb of a wall: the lesser of 0.3 % of its height and 25 mm (ACI 117-10 4.1,
// from memory).
const (
	plumbShare = 0.003
	mostPlumb  = 0.025 // m
)

const inch = 0.0254 // m

// members are the tolerances of the thickness of a cast member, by its
// thickness. Of plus and minus the plus counts, which moves a wall's face toward
// the carrier; rounded up to whole millimetres.
var members = []struct {
	upTo   float64 // m, of the member
	plus   float64 // m
	words  string
	source string
}{
	{12 * inch, 0.010, "+3/8 in (10 mm) up to 12 in", concrete},
	{36 * inch, 0.013, "+1/2 in (13 mm) over 12 to 36 in", "ACI 117-10 4.5.1, from memory"},
	{math.Inf(1), 0.025, "+1 in (25 mm) over 36 in", "ACI 117-10 4.5.1, from memory"},
}

// grow puts in what depends on the section: a wall's height and the thickness of
// the thicker wall, in metres; 0 is not known. What the job gives stays.
func (t Tolerances) grow(rise, wall float64) Tolerances {
	out := Tolerances{entries: maps.Clone(t.entries), given: t.given}
	out.put("plumb", plumbOf(rise))
	out.put("thickness", thicknessOf(wall))
	return out
}

func (t Tolerances) put(key string, grown Entry) {
	if t.given[key] {
		return
	}
	e := t.entries[key]
	e.Value, e.Words, e.Source = grown.Value, grown.Words, grown.Source
	t.entries[key] = e
}

// plumbOf a wall; of one of unknown height the most.
func plumbOf(rise float64) Entry {
	const rule, source = "plumb of concrete formed by others: lesser of 0.3 % of the wall's height and 25 mm", "ACI 117-10 4.1, from memory"
	if rise == 0 {
		return Entry{Value: mostPlumb, Words: rule, Source: source}
	}
	return Entry{Value: math.Min(plumbShare*rise, mostPlumb), Words: rule + here(rise), Source: source}
}

// thicknessOf a wall; one of unknown thickness is taken to be up to 12 in.
func thicknessOf(wall float64) Entry {
	const toward = ", toward the carrier"
	for _, m := range members {
		if wall > m.upTo*(1+1e-9) {
			continue
		}
		words := "section size of concrete formed by others: " + m.words + toward
		if wall > 0 {
			words += here(wall)
		}
		return Entry{Value: m.plus, Words: words, Source: m.source}
	}
	return Entry{Value: math.NaN()} // no thickness is beyond the last
}

// here is the size that a rule was worked out for.
func here(v float64) string { return fmt.Sprintf(", here of %.0f mm (%.1f in)", 1e3*v, v/inch) }

// greatest are the height of the highest cell and the thickness of the thickest
// wall, in metres; 0 where the job has no section.
func greatest(j *job.Job) (rise, wall float64) {
	openings := j.Culvert.Openings()
	for _, o := range openings {
		rise = math.Max(rise, float64(o.Rise+j.Culvert.Camber))
	}
	wall = float64(j.Culvert.OuterWall)
	if len(openings) > 1 {
		wall = math.Max(wall, float64(j.Culvert.InnerWall))
	}
	return rise, wall
}

package clearance

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model"
	"boxwalk/model/job"
)

// Cure is one change to one dimension that makes a job pass.
type Cure struct {
	Dimension string  // in words: "leg tubes", "low brace in step \"wall feet in\""
	File      string  // job or gear
	Key       string  // key in that file
	From, To  float64 // metres
	Step      float64 // what it was searched to: its increment, or a millimetre
	Stepless  bool    // one Step less no longer passes, and nothing lies between
	dimension dimension
}

// Text is the cure as one sentence.
func (c Cure) Text() string {
	if c.From == 0 && c.dimension.words == "" {
		return fmt.Sprintf("add %s of %s (%s in the %s file)", c.Dimension, mm(c.To), c.Key, c.File)
	}
	return fmt.Sprintf("change %s from %s to %s (%s in the %s file)", c.Dimension, c.dimension.say(c.From), c.dimension.say(c.To), c.Key, c.File)
}

// Size is the change relative to the dimension: 0.1 is a tenth of it. What is
// not there yet changes by the whole of it, 1.
func (c Cure) Size() float64 { return c.dimension.size(c.To) }

// At is the job and the gear with the cure's dimension at another value; both
// are copies.
func (c Cure) At(j *job.Job, g *job.Gear, v float64) (*job.Job, *job.Gear) {
	return c.dimension.at(j, g, v)
}

// Applied is the job and the gear with the cure in them; both are copies.
func (c Cure) Applied(j *job.Job, g *job.Gear) (*job.Job, *job.Gear) { return c.At(j, g, c.To) }

// Cures lists single changes that make a job pass which does not, the smallest
// relative to its dimension first; of two alike the one that is easier for the
// crew: readings of a step before settings, panels and steel. It keeps the
// smallest most of those found, at most one for each dimension. Each was found
// by checking the whole job again with the change made; a job that passes, or
// that no single change within reach cures, has none.
func Cures(s *model.Study, r *Result, most int) []Cure {
	if r.Verdict == Pass || most < 1 {
		return nil
	}
	var out []Cure
	t := newTrials(s, r)
	now := t.shortfallOf(s)
	for _, d := range dimensions(s) {
		if (d.reach && now.stage > readingsFall) || (now.stage == stepsFall && t.tooLate(d)) {
			continue
		}
		within := math.Inf(1)
		if len(out) == most {
			within = out[most-1].Size()
		}
		c, ok := t.cure(d, now, within)
		if !ok {
			continue
		}
		out = append(out, c)
		slices.SortStableFunc(out, bySize)
		out = out[:min(len(out), most)]
	}
	return out
}

func bySize(a, b Cure) int {
	switch as, bs := a.Size(), b.Size(); {
	case as < bs:
		return -1
	case as > bs:
		return 1
	}
	return 0
}

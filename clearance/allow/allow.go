// Package allow works out what tolerances take off a clearance in travel.
//
// Entries that act along the same direction add: in the worst case all of
// them, and by root-sum-square as independent errors do. The carrier's own
// imprint and concrete formed by others are told apart: past its own imprint a
// carrier meets the errors it made itself.
package allow

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// Entry is one tolerance, in metres, with where it comes from.
type Entry struct {
	Key    string
	Words  string
	Value  float64
	Source string
}

const (
	judgement = "judgement"
	concrete  = "ACI 117 as used in UFGS 03700 p. 26"
)

// table lists the default entries: key in the job's tolerance group, words,
// millimetres, source. Those without a number grow with the section, see grow.
var table = []struct {
	key, words string
	mm         float64
	source     string
}{
	{"panel_face", "panel face off its place", 3, judgement},
	{"spring_back", "wall springing back when the form comes off", 3, judgement},
	{"wander", "wheels off their course", 15, judgement},
	{"yaw", "carrier turned in plan, at its ends", 10, judgement},
	{"track_level", "level difference between the two wheel tracks", 6, judgement},
	{"setting", "adjusters off their reading", 3, judgement},
	{"alignment", "concrete formed by others off alignment, 1 in", 25, concrete},
	{"thickness", "section size of concrete formed by others", 0, ""},
	{"plumb", "plumb of concrete formed by others", 0, ""},
	{"soffit_face", "roof panel face off its place", 3, judgement},
	{"roof_sag", "sag and creep of the young roof", 5, judgement},
	{"invert", "invert off level", 6, judgement},
	{"tyres", "wheels settling under load", 2, judgement},
	{"frame", "frame bending under its own weight", 3, judgement},
	{"level", "level of concrete formed by others, 3/4 in", 19, concrete},
	{"jack_level", "most that any jack is ahead of any other while they carry", 2.5, judgement},
	{"lag", "out-of-step difference between adjusters turned in one step", 10, judgement},
}

// Tolerances are all entries of a job.
type Tolerances struct {
	entries map[string]Entry
	given   map[string]bool // by the job
}

// Of takes the defaults and what the job puts in their place. The wander of
// the job's travel group counts unless the tolerance group says otherwise. What
// grows with the section is that of the job's highest cell and thickest wall; see
// [Tolerances.In] for each cell's own.
func Of(j *job.Job) Tolerances {
	t := Tolerances{entries: map[string]Entry{}, given: map[string]bool{}}
	for _, e := range table {
		t.entries[e.key] = Entry{Key: e.key, Words: e.words, Value: e.mm / 1000, Source: e.source}
	}
	if wander := &j.Travel.Wander; float64(*wander) != t.Value("wander") || j.States("travel.wander") {
		t.set("wander", wander)
	}
	o := j.Tolerance
	for key, v := range map[string]*units.Length{
		"panel_face": o.PanelFace, "spring_back": o.SpringBack, "wander": o.Wander, "yaw": o.Yaw, "track_level": o.TrackLevel,
		"setting": o.Setting, "alignment": o.Alignment, "thickness": o.Thickness, "plumb": o.Plumb, "soffit_face": o.SoffitFace,
		"roof_sag": o.RoofSag, "invert": o.Invert, "tyres": o.Tyres, "frame": o.Frame, "level": o.Level,
		"jack_level": o.JackLevel, "lag": o.Lag,
	} {
		t.set(key, v)
	}
	rise, wall := greatest(j)
	return t.grow(rise, wall)
}

func (t Tolerances) set(key string, v *units.Length) {
	e := t.entries[key]
	if v == nil {
		return
	}
	t.given[key] = true
	source := "the job"
	if float64(*v) == e.Value && e.Source != "" {
		source = job.EqualToDefault
	}
	e.Value, e.Source = float64(*v), source
	t.entries[key] = e
}

// Value of one entry, in metres.
func (t Tolerances) Value(key string) float64 { return t.entries[key].Value }

// Source of one entry.
func (t Tolerances) Source(key string) string { return t.entries[key].Source }

// All entries in the order of the table.
func (t Tolerances) All() []Entry {
	var out []Entry
	for _, e := range table {
		out = append(out, t.entries[e.key])
	}
	return out
}

// Groups of entries that act together.
var (
	lateralOwn     = []string{"panel_face", "spring_back", "wander", "yaw", "track_level", "setting"}
	lateralForeign = append(append([]string{}, lateralOwn...), "alignment", "thickness", "plumb")
	soffitOwn      = []string{"soffit_face", "roof_sag", "invert", "tyres", "frame"}
	soffitForeign  = append(append([]string{}, soffitOwn...), "level")
	lateralFoot    = []string{"panel_face", "spring_back", "wander", "yaw", "setting", "alignment"}
	vertical       = []string{"invert", "tyres", "frame"}
)

// Allowance is what tolerances take off a clearance, in metres.
type Allowance struct {
	RootSumSquare float64
	WorstCase     float64
	Keys          []string // the entries that count
}

// Standing are the tolerances of a carrier on its gauge in a section.
type Standing struct {
	Tolerances
	section culvert.Section
	gauge   float64
}

// In a section, on a gauge in metres.
func (t Tolerances) In(s culvert.Section, gauge float64) Standing {
	return Standing{t.grow(s.Rise, math.Max(s.Left, s.Right)), s, gauge}
}

// Of a zone, for a gap square to its face.
func (t Standing) Of(zone culvert.Zone) Allowance {
	var a Allowance
	var squares float64
	for _, one := range t.Terms(zone) {
		v := one.Share * one.Toward
		a.WorstCase += v
		squares += v * v
		a.Keys = append(a.Keys, one.Key)
	}
	a.RootSumSquare = math.Sqrt(squares)
	return a
}

// Term is one tolerance in an allowance: what it moves the carrier toward a face, in
// metres, and how much of that lies square to the face.
type Term struct {
	Entry
	Toward float64
	Share  float64
}

// Terms are the tolerances that count at a zone. A haunch is met sideways and from
// above or below at once, each counting with its share of the direction square
// to the face: of a haunch of run x rise, rise/l sideways and run/l up or down,
// l being the length of its face.
func (t Standing) Terms(zone culvert.Zone) []Term {
	switch zone {
	case culvert.Wall:
		return t.terms(1, lateralOwn)
	case culvert.Kicker, culvert.SteelAhead:
		return t.terms(1, lateralForeign)
	case culvert.Roof:
		return t.terms(1, soffitOwn)
	case culvert.Hanger:
		return t.terms(1, soffitForeign)
	case culvert.HaunchTop:
		return t.haunch(t.section.Top, lateralOwn, soffitOwn)
	case culvert.HaunchBottom:
		return t.haunch(t.section.Bottom, lateralFoot, vertical)
	}
	return t.terms(1, vertical)
}

// haunch are the terms square to a haunch's face; where there is none, no
// gap is measured to it.
func (t Standing) haunch(h culvert.Haunch, sideways, upright []string) []Term {
	if !h.Exists() {
		return nil
	}
	l := math.Hypot(h.Run, h.Rise)
	return append(t.terms(h.Rise/l, sideways), t.terms(h.Run/l, upright)...)
}

func (t Standing) terms(share float64, keys []string) []Term {
	out := make([]Term, len(keys))
	for i, key := range keys {
		out[i] = Term{t.entries[key], t.toward(key), share}
	}
	return out
}

// toward is what an entry moves the carrier toward a face. Tracks out of level
// by d turn it by d/gauge about its wheels: at the soffit it goes sideways by
// that times the rise, and nowhere by more.
func (t Standing) toward(key string) float64 {
	v := t.Value(key)
	if key == "track_level" {
		v *= t.section.Rise / t.gauge
	}
	return v
}

package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// leastSliding is what friction counts over: judgement, as roll.tip has it.
const leastSliding = 1.5

// freeStand is one way in which the carrier stands free, with what pushes it.
type freeStand struct {
	statics.Standing
	slope, lean float64 // of the ground along and across, invert off level
	heavy       float64 // kN, the most and the least that it may weigh
	light       float64
	job.Stand
}

// freeStands are the ways in which a carrier stands free.
func (b *bay) freeStands(s *model.Study) []freeStand {
	var out []freeStand
	grade := math.Abs(s.Culvert.GradeOf(b.Pour))
	steepest := grade
	for _, p := range s.OnTheWay(*b.Bay.Bay) {
		steepest = math.Max(steepest, math.Abs(s.Culvert.GradeOf(p)))
	}
	for _, st := range statics.Stands(b.Bay.Bay) {
		f := freeStand{Standing: st, slope: grade, Stand: s.Job.Stand, heavy: st.Mass.High * gravity / 1000, light: st.Mass.Low * gravity / 1000}
		if st.OnWheels {
			f.slope = steepest
		}
		f.slope += b.Tol.Value("invert") / (st.Front - st.Rear)
		f.lean = math.Abs(float64(s.Job.Alignment.Crossfall)) + b.Tol.Value("track_level")/st.Gauge
		out = append(out, f)
	}
	return out
}

// wind on an outline, kN.
func (f freeStand) wind(outline float64) float64 {
	return float64(f.Wind) * float64(f.Shape) * outline
}

// sideways is the horizontal load with wind on an outline: what tips and what slides.
func (f freeStand) sideways(outline float64) (load.Sideways, error) {
	push, err := load.Wind(f.Wind, float64(f.Shape), outline, units.Length(f.Middle))
	if err != nil {
		return load.Sideways{}, err
	}
	return load.Free{Vertical: units.Force(f.heavy), Top: units.Length(f.Top), Known: []load.Push{push}, Notional: float64(f.Notional), Plumb: load.PlumbShare}.Sideways()
}

// posed is the way it stands in words.
func (f freeStand) posed() string {
	switch {
	case f.Step == "":
		return "raised"
	case f.OnWheels:
		return fmt.Sprintf("on its wheels after %q", f.Step)
	}
	return fmt.Sprintf("after %q", f.Step)
}

// standTipChecks hold every way of standing free against tipping.
func (b *bay) standTipChecks(s *model.Study) []Judged {
	limit := b.limits.of("stand.tip")
	stands := b.freeStands(s)
	var out []Judged
	for _, way := range []string{"across", "along"} {
		var found []candidate
		var lines [][]result.Line
		for _, f := range stands {
			c, w, err := b.tipsFree(f, way)
			if err != nil {
				out = append(out, open("stand.tip", b.subject(way), "1", f.posed()+": "+b.told(err), b.at(f.Step)))
				continue
			}
			found, lines = append(found, c), append(lines, w)
		}
		e := entry("stand.tip", b.subject(way), found, limit, result.Min, "nothing stands")
		e.Unit = "1"
		if e.Governs >= 0 {
			e = e.with(lines[e.Governs])
		}
		out = append(out, e)
	}
	return out
}

// tipsFree is one way of standing, one way of tipping.
func (b *bay) tipsFree(f freeStand, way string) (candidate, []result.Line, error) {
	across, along := f.Levers()
	lever, slope, outline := across, f.lean, f.Beside
	if way == "along" {
		lever, slope, outline = along, f.slope, f.EndOn
	}
	h, err := f.sideways(outline)
	if err != nil {
		return candidate{}, nil, err
	}
	// the push stands against the lighter end of the mass: wind does not grow with it
	m, err := load.Tipping{Weight: units.Force(f.light), Lever: units.Length(lever), Height: units.Length(f.Most[2]), Slope: units.Slope(slope), Push: h.Tips.Force, At: h.Tips.At}.Margin()
	if err != nil {
		return candidate{}, nil, err
	}
	w := f.tipWorking(lever, slope, outline)
	text := fmt.Sprintf("%s, %s: %s at least, centre of gravity %s high and %s inside what it stands on; %s on %.1f m2 at %s high, or %.3g of its weight at the top %s high; slope %.2f %%: restoring over overturning %s",
		f.posed(), way, b.force(units.Force(f.light)), b.mm(f.Most[2]), b.mm(lever), b.windWords(f), outline, b.mm(f.Middle), float64(f.Notional), b.mm(f.Top), 100*slope, b.shown("1").Down(m.Ratio))
	return candidate{Value: *result.Exactly(m.Ratio), where: b.at(f.Step), text: text}, w.Lines(), nil
}

func (b *bay) windWords(f freeStand) string {
	return fmt.Sprintf("wind %s x %.3g", b.pressure(float64(f.Wind)), float64(f.Shape))
}

// pushes begins a working with weight and wind.
func (f freeStand) pushes(outline float64) *result.Working {
	var w result.Working
	w.Given("W_l", "weight, the least", f.light, "kN", "parts list (gear), light end")
	w.Given("W_h", "weight, the most", f.heavy, "kN", "parts list (gear), heavy end")
	w.Given("q", "wind", float64(f.Wind), "kPa", "stand.wind (job)")
	w.Given("c", "shape coefficient", float64(f.Shape), "1", "stand.shape (job)")
	w.Given("A", "outline that faces the wind", outline, "m2", "parts (gear), as they stand")
	w.Given("n", "notional load, share of the weight", float64(f.Notional), "1", "stand.notional (job)")
	w.Given("p", "for a frame out of plumb, share of the weight", load.PlumbShare, "1", load.NotionalSource().String())
	return &w
}

func (f freeStand) tipWorking(lever, slope, outline float64) *result.Working {
	w := f.pushes(outline)
	w.Given("z", "middle of the outline above the invert", f.Middle, "m", "parts (gear)")
	w.Given("h", "top above the invert", f.Top, "m", "parts (gear)")
	w.Given("g", "centre of gravity above the invert, the most", f.Most[2], "m", "parts list (gear)")
	w.Given("l", "centre of gravity inside the tipping line, the least", lever, "m", "parts list, form.first, wheels.at, gauge")
	w.Given("i", "slope with what the invert may be off", slope, "1", "alignment, tolerance.invert, tolerance.track_level (job)")
	w.Step("M_h", "overturning by wind, or by the notional load", "max(n * W_h * h, q * c * A * z + p * W_h * h)", "kNm", load.NotionalSource().String())
	w.Step("r", "restoring over overturning", "W_l * l / sqrt(1 + i^2) / (W_l * i * g / sqrt(1 + i^2) + M_h)", "1", "statics (derived)")
	return w
}

// standSlideChecks hold it against sliding along the cell: on its plates the worst of
// all ways of standing, and parked.
func (b *bay) standSlideChecks(s *model.Study) []Judged {
	var plates, wheels *freeStand
	for _, f := range b.freeStands(s) {
		at := &plates
		if f.OnWheels {
			at = &wheels
		}
		if *at == nil || f.slides()-f.light > (*at).slides()-(*at).light {
			*at = &f
		}
	}
	var out []Judged
	if plates != nil {
		out = append(out, b.slides(s, *plates, "on its plates", b.heldOnPlates(s, *plates)))
	}
	if wheels != nil {
		out = append(out, b.slides(s, *wheels, "parked", b.heldParked(s)))
	}
	return out
}

// slides is what drives it along, kN.
func (f freeStand) slides() float64 {
	h := math.Max(float64(f.Notional)*f.heavy, f.wind(f.EndOn)+load.PlumbShare*f.heavy)
	return f.heavy*math.Sin(math.Atan(f.slope)) + h
}

// holder is what holds a standing carrier: how much, of what, and what is missing.
type holder struct {
	force float64
	words []string
	key   string // of a capacity that would do, where none is stated
	basis string // of a file whose capacities have none
}

// rated adds a stated capacity, as it may be used with loads as they are.
func (h *holder) rated(b *bay, r job.Rating, factor units.Number) {
	switch {
	case r.Value == nil:
		h.key = r.Key
	case r.Basis == "":
		h.basis = r.File
	case r.Basis == job.Factored:
		h.force += *r.Value / float64(factor)
		h.words = append(h.words, fmt.Sprintf("%s %s over its load factor %.4g", r.Key, b.force(units.Force(*r.Value)), float64(factor)))
	default:
		h.force += *r.Value
		h.words = append(h.words, r.Key+" "+b.force(units.Force(*r.Value)))
	}
}

func (b *bay) heldOnPlates(s *model.Study, f freeStand) holder {
	var h holder
	if mu := s.Job.Stand.Friction; mu != nil {
		h.force = float64(*mu) * f.light * math.Cos(math.Atan(f.slope)) / leastSliding
		h.words = append(h.words, fmt.Sprintf("friction %.3g x %s over %.3g (%s)", float64(*mu), b.force(units.Force(f.light)), leastSliding, s.Job.Stand.FrictionSource))
	}
	h.rated(b, s.Job.Rated("stand.anchor", job.Pointed(s.Job.Stand.Anchor)), s.Job.LoadFactors.Wind)
	return h
}

func (b *bay) heldParked(s *model.Study) holder {
	var h holder
	if r := s.Job.Travel.Restraint; r != nil {
		h.rated(b, s.Job.Rated("travel.restraint.capacity", job.IfStated(r.Capacity)), s.Job.LoadFactors.Wind)
	}
	h.rated(b, s.Job.Rated("stand.chocks", job.Pointed(s.Job.Stand.Chocks)), s.Job.LoadFactors.Wind)
	return h
}

// slides holds what drives it against what holds it.
func (b *bay) slides(s *model.Study, f freeStand, what string, h holder) Judged {
	value := f.slides()
	w := f.pushes(f.EndOn)
	w.Given("i", "slope with what the invert may be off", f.slope, "1", "alignment, tolerance.invert (job)")
	w.Step("F", "what drives it along", "W_h * i / sqrt(1 + i^2) + max(n * W_h, q * c * A + p * W_h)", "kN", "statics (derived); "+load.NotionalSource().String())
	demand, has := b.against("kN", value, h.force)
	text := fmt.Sprintf("%s: %s at most on %.2f %%, %s on an outline of %.1f m2 end-on, drive it along with %s", f.posed(), b.force(units.Force(f.heavy)), 100*f.slope, b.windWords(f), f.EndOn, demand)
	missing := h.basis != "" || h.key != "" && value > h.force
	c := candidate{Value: *result.Exactly(value), where: b.at(f.Step), text: fmt.Sprintf("%s; %s hold %s", text, listed(h.words), has)}
	if len(h.words) == 0 {
		c.text = text + "; nothing is stated that holds it"
	}
	e := entry("stand.slide", b.subject(what), []candidate{c}, Limit{Value: h.force, Source: "statics, dry friction (derived); what holds it, from the job"}, result.Max, "")
	e.Unit = "kN"
	if missing {
		e = b.notHeld(e, h)
	}
	return e.with(w.Lines())
}

// notHeld is an entry of which a capacity is wanted that is not stated.
func (b *bay) notHeld(e Judged, h holder) Judged {
	e.Verdict, e.Limit, e.Margin = result.Open, nil, nil
	if h.basis != "" {
		e.Text += fmt.Sprintf("; the %s file does not say whether its capacities are permissible or factored: give capacities.basis there", h.basis)
		return e
	}
	e.Lacks = h.key
	e.Text += fmt.Sprintf("; what would hold it is not stated: give %s in the job file", h.key)
	if h.key == "stand.anchor" {
		e.Text += ", or stand.friction and where it is from"
	}
	return e
}

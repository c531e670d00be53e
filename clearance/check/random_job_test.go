package check

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/units"
)

// lotJob is a valid job as text, on a short form of a gear of the test data:
// one to three cells of a size that the gear reaches or nearly, one to three
// pours, with and without skew, grade, bend, lap and hangers, metric or
// imperial, with ages, temperatures and capacities from tiny to ample, some of them
// not stated.
type lotJob struct {
	chain
	wheel, jack, side, lift units.Force // stated in the gear; 0 is not
	pull, hold              units.Force
	scrub                   float64
	bent                    bool
}

// writer writes quantities in the units of a job.
type writer struct {
	*rand.Rand
	imperial bool
}

func (w writer) length(m float64) string {
	if w.imperial {
		return fmt.Sprintf("%.4f in", m/0.0254)
	}
	return fmt.Sprintf("%.1f mm", 1e3*m)
}

func (w writer) force(f units.Force) string {
	if w.imperial {
		return fmt.Sprintf("%.6f kip", float64(f)/4.4482216152605)
	}
	return fmt.Sprintf("%.6f kN", float64(f))
}

// between two values, evenly.
func (w writer) between(lo, hi float64) float64 { return lo + (hi-lo)*w.Float64() }

// capacity is ample for about such a load, one time in eight from a tenth of it to
// twice as much, and one in twenty none at all.
func (w writer) capacity(load float64) units.Force {
	switch n := w.Intn(40); {
	case n < 2:
		return 0
	case n < 7:
		return units.Force(load * math.Exp(w.between(math.Log(0.1), math.Log(2))))
	}
	return units.Force(load * w.between(3, 12))
}

// boxes are the cells a gear of the test data was worked for.
var boxes = map[string]struct{ span, rise, haunch float64 }{
	"roof-halves-24": {3.0, 2.4, 0.2}, "roof-whole-24": {3.0, 2.4, 0.2}, "roof-whole-24-jacks": {3.0, 2.4, 0.2}, "roof-halves-43": {4.27, 4.27, 0.3},
}

// stated is the gear's text with what its parts carry.
func (j lotJob) stated(gear string) string {
	var out []string
	for _, line := range strings.Split(gear, "\n") {
		switch {
		case strings.HasPrefix(line, "jack:"):
			line = stating(line, "capacity", j.jack)
		case strings.HasPrefix(line, "wheels:"):
			line = stating(stating(line, "capacity", j.wheel), "side", j.side)
		case strings.HasPrefix(line, "lifting:"):
			line = stating(line, "capacity", j.lift)
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

// built reads and builds the job.
func (j lotJob) built(t *testing.T) (*model.Study, string) {
	t.Helper()
	c := j.chain
	c.Vary = j.stated
	return c.Built(t)
}

// stating puts a force in the place of that of a key of a flow mapping on one
// line, or takes the key out where there is none.
func stating(line, key string, value units.Force) string {
	at := strings.Index(line, ", "+key+": ")
	if at < 0 {
		return line
	}
	end := at + 2 + strings.IndexAny(line[at+2:], ",}")
	if value == 0 {
		return line[:at] + line[end:]
	}
	return line[:at] + fmt.Sprintf(", %s: %.6f kN", key, float64(value)) + line[end:]
}

func newLotJob(seed int64) lotJob {
	w := writer{Rand: rand.New(rand.NewSource(seed))}
	w.imperial = w.Intn(2) == 0
	gears := []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks", "roof-halves-43"}
	j := lotJob{chain: chain{Gear: gears[w.Intn(len(gears))]}}
	box := boxes[j.Gear]
	rise := box.rise
	if w.Intn(3) == 0 {
		rise += 0.05 * float64(w.Intn(5)-2) // the pin pitch of the legs
	}
	skew, half := 0.0, box.span/2
	if w.Intn(3) == 0 {
		skew = w.between(-8, 8)
	}
	cells, pours, lap := 1+w.Intn(3), 1+w.Intn(3), 0.0
	if w.Intn(3) == 0 && pours > 1 {
		lap = w.between(0, 0.1)
	}
	long := 2.3 - lap - 2*half*math.Abs(math.Tan(skew*math.Pi/180))
	grade := []float64{0, 0, w.between(-6, 6), w.between(-1, 1)}[w.Intn(4)]
	j.bent = pours > 1 && lap == 0 && skew == 0 && w.Intn(3) == 0
	j.pull, j.hold, j.scrub = w.capacity(4)+1e-3, w.capacity(3), 0.6
	j.wheel, j.jack, j.side, j.lift = w.capacity(20), w.capacity(25), w.capacity(12), w.capacity(20)+1e-3
	hangers := worked.Hangers
	if strings.HasPrefix(j.Gear, "roof-whole") || w.Intn(3) == 0 {
		hangers = ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "job: {name: drawn by lot, number: L-%d, units: %s}\nculvert:\n  cells: %d\n  span: %s\n  rise: %s\n", seed, map[bool]string{true: "imperial", false: "metric"}[w.imperial], cells, w.length(box.span), w.length(rise))
	fmt.Fprintf(&b, "  roof: %s\n  invert: %s\n  outer_wall: 300 mm\n  inner_wall: 250 mm\n", w.length(w.between(0.25, 0.5)), w.length(w.between(0.25, 0.5)))
	fmt.Fprintf(&b, "  haunch: {top: %.0f x %.0f mm, bottom: 150 x 150 mm}\n  kicker: 300 mm\n", 1e3*box.haunch, 1e3*box.haunch)
	fmt.Fprintf(&b, "  pours: [%s]\n  lap: %s\n", strings.Join(slices.Repeat([]string{w.length(long)}, pours), ", "), w.length(lap))
	fmt.Fprintf(&b, "  skew: {inlet: %.2f deg, outlet: %.2f deg, joints: along the skew}\n", skew, skew)
	fmt.Fprintf(&b, "ends: {inlet: {apron: %s}, outlet: {apron: %s}}\n", w.length(w.between(2, 4)), w.length(w.between(1.5, 12)))
	if j.bent {
		fmt.Fprintf(&b, "alignment:\n  plan: [{tangent: %s}, {turn: %.3f deg %s}, {tangent: 30 m}]\n  grade: %.3f %%\n", w.length(long), w.between(0.05, 0.6), []string{"left", "right"}[w.Intn(2)], grade)
	} else {
		fmt.Fprintf(&b, "alignment: {grade: %.3f %%}\n", grade)
	}
	b.WriteString(hangers)
	hold := ""
	if j.hold > 0 {
		hold = fmt.Sprintf(", restraint: {capacity: %s}", w.force(j.hold))
	}
	fmt.Fprintf(&b, "travel: {pulled_by: winch, capacity: %s, scrub: %.2f%s}\ncapacities: {basis: permissible, source: drawn by lot}\n", w.force(j.pull), j.scrub, hold)
	fmt.Fprintf(&b, "schedule: {invert_age: %.1f d, walls_age: 4 d, roof_age: 4 d}\n", w.between(2, 20))
	fmt.Fprintf(&b, "concrete: {strength: %.0f MPa, cement: %s, curing: %.0f degC, walls_strength: 12 MPa, roof_strength: 21 MPa}\nstand: {wind: 0.1 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}\nanchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}\nrelease: {walls: {strength: 5 MPa}, roof: {strength: 15 MPa}}\ngear: gear.yaml\n", w.between(20, 40), []string{"N", "R", "S"}[w.Intn(3)], w.between(2, 25))
	j.Job = b.String()
	return j
}

// weights are what all parts weigh, and those that roll.
func weights(s *model.Study, i int) (raised, rolling float64) {
	b := s.Bays[i]
	last := b.Steps[len(b.Steps)-1]
	for _, p := range b.Carrier.Parts {
		raised += p.Mass.High * gravity / 1000
		if last.PresentAfter(p) {
			rolling += p.Mass.High * gravity / 1000
		}
	}
	return raised, rolling
}

// overloads are the capacities that are below what statics alone asks for, worked
// without any of the checks. A rigid frame rocks on two diagonal places of four,
// so that one of them takes half of what there is or more, whether wheels, jacks
// or, with a jack under one pad, a pad and the place across. A line pulls
// W (sin + f cos) with the coefficient on the way up, a restraint holds
// W (sin - f cos). A wheel that slides with at least the load of an even share
// takes the friction of that.
func (j lotJob) overloads(s *model.Study) []string {
	var out []string
	least := func(what string, have units.Force, need float64, stated bool) {
		if (have > 0 || stated) && float64(have) < need*(1-1e-9) {
			out = append(out, fmt.Sprintf("%s %.3f kN below %.3f kN", what, float64(have), need))
		}
	}
	t, grade := s.Job.Travel, float64(s.Job.Alignment.Grade)
	a := math.Atan(grade)
	for _, i := range s.Reported() {
		raised, rolling := weights(s, i)
		least("wheel", j.wheel, rolling/2, false)
		least("jack", j.jack, raised/2, false)
		least("lifting jack", j.lift, rolling/2, true)
		least("pull", j.pull, rolling*(math.Sin(a)+float64(t.Rolling.Most)*math.Cos(a)), true)
		least("hold", j.hold, rolling*(math.Sin(math.Abs(a))-float64(t.Rolling.Least)*math.Cos(a)), true)
		if j.bent && i < len(s.Bays) && s.Bays[i].Next > 0 && s.Bays[i].Pour.Number == 1 {
			least("side", j.side, j.scrub*rolling/4, false)
		}
	}
	return out
}

// unstated are the capacities that a pass may not do without.
func (j lotJob) unstated() []string {
	var out []string
	for what, have := range map[string]units.Force{"wheel": j.wheel, "jack": j.jack} {
		if have == 0 {
			out = append(out, what)
		}
	}
	return out
}

// howMany is a number of cases from the environment, or a default.
func howMany(t *testing.T, name string, fewer int) int {
	t.Helper()
	text := os.Getenv(name)
	if text == "" {
		return fewer
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestNoRandomJobPassesWithACapacityBelowItsLoad(t *testing.T) {
	n, passed, overloaded := howMany(t, "BOXWALK_RANDOM_JOBS", worked.Campaign(12, 30)), 0, 0
	for seed := range int64(n) {
		j := newLotJob(seed)
		s, why := j.built(t)
		if s == nil {
			t.Errorf("job %d is not valid: %s\n%s", seed, why, j.Job)
			continue
		}
		r := Run(s, Options{Brief: true})
		for _, c := range r.Checks {
			if wrong := worksOut(c); wrong != "" {
				t.Errorf("job %d: %s, %s: %s", seed, c.ID, c.Subject, wrong)
			}
		}
		over := append(j.overloads(s), j.unstated()...)
		if len(over) > 0 {
			overloaded++
		}
		if r.Verdict != result.Pass {
			continue
		}
		passed++
		if len(over) > 0 {
			t.Errorf("job %d passes with %s\n%s", seed, strings.Join(over, ", "), j.Job)
		}
		for _, c := range r.Checks {
			if v := c.Value; v != nil && (math.IsNaN(v.Lower) || math.IsNaN(v.Upper)) {
				t.Errorf("job %d: %s %s passes without a number", seed, c.ID, c.Subject)
			}
		}
	}
	t.Logf("%d jobs: %d with a capacity below its load or not stated, %d pass", n, overloaded, passed)
	if n >= 12 && (passed == 0 || overloaded < n/4) {
		t.Errorf("of %d jobs %d pass and %d are overloaded: nothing is shown", n, passed, overloaded)
	}
}

func TestAPassingRandomJobFailsWithAnyOneCapacityBelowItsLoad(t *testing.T) {
	tried := 0
	for seed := int64(0); seed < 400 && tried < 2; seed++ {
		j := newLotJob(seed)
		if len(j.unstated()) > 0 {
			continue
		}
		s, _ := j.built(t)
		if s == nil || len(j.overloads(s)) > 0 || Run(s, Options{Brief: true}).Verdict != result.Pass {
			continue
		}
		tried++
		raised, rolling := weights(s, 0)
		for what, weaken := range map[string]func(j *lotJob){
			"wheel":        func(j *lotJob) { j.wheel = units.Force(0.49 * rolling) },
			"jack":         func(j *lotJob) { j.jack = units.Force(0.49 * raised) },
			"lifting jack": func(j *lotJob) { j.lift = units.Force(0.49 * rolling) },
		} {
			weak := j
			weaken(&weak)
			s, why := weak.built(t)
			if s == nil {
				t.Fatal(why)
			}
			if over := weak.overloads(s); len(over) != len(s.Reported()) || Run(s, Options{Brief: true}).Verdict != result.Fail {
				t.Errorf("job %d, %s: %v", seed, what, over)
			}
		}
	}
	if tried == 0 {
		t.Error("none passes")
	}
}

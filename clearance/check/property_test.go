package check

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// values lists every check of a result with what is said about it, sides and
// marks told apart no more: what a mirrored job must repeat.
func values(r *result.Result) map[string]result.Entry {
	out := map[string]result.Entry{}
	for _, c := range r.Checks {
		out[c.ID+" "+mirrorName(c.Subject.String())] = c
	}
	return out
}

// mirrorName swaps left and right.
func mirrorName(s string) string {
	return strings.NewReplacer("left", "right", "right", "left").Replace(s)
}

func TestMirroredJobGivesMirroredAnswers(t *testing.T) {
	// a hanger left of the centreline, one skewed end, a crossfall: nothing here
	// is its own mirror
	job := func(line, skew, fall string) [][2]string {
		return [][2]string{{"lines: [0 m]", "lines: [" + line + "]"}, {"pours: [2.3 m]", "pours: [2.1 m]\n  skew: {inlet: " + skew + "}\n  channel: {offset: " + line + ", width: 100 mm, depth: 50 mm}"},
			{"plate: 200 x 200 x 20 mm", "plate: 200 x 120 x 20 mm"}, {"gear: gear.yaml", "alignment: {crossfall: " + fall + "}\ngear: gear.yaml"}}
	}
	a := checked(t, chain{Gear: "roof-halves-24", Jobs: job("0.03 m", "3 deg", "1 %")})
	b := checked(t, chain{Gear: "roof-halves-24", Jobs: job("-0.03 m", "-3 deg", "-1 %")})
	mirrored := values(b)
	for _, c := range a.Checks {
		m, ok := mirrored[c.ID+" "+c.Subject.String()]
		if !ok {
			t.Errorf("%s %s has no mirror", c.ID, c.Subject)
			continue
		}
		if c.Verdict != m.Verdict || !alikeBracket(c.Value, m.Value, 1e-7) || math.Abs(c.Allowance-m.Allowance) > 1e-9 {
			t.Errorf("%s %s: %v %v less %g, mirrored %v %v less %g", c.ID, c.Subject, c.Verdict, c.Value, c.Allowance, m.Verdict, m.Value, m.Allowance)
		}
	}
}

// alikeBracket compares two brackets: their ends may differ by what two
// searches of one width may, and where either witness lies by tolerance.
func alikeBracket(a, b *result.Bracket, tolerance float64) bool {
	if a == nil || b == nil {
		return a == b
	}
	near := func(x, y float64) bool { return x == y || math.Abs(x-y) <= tolerance }
	overlap := a.Lower <= b.Upper+tolerance && b.Lower <= a.Upper+tolerance
	return overlap && (near(a.Upper, b.Upper) || math.Abs(a.Upper-b.Upper) <= 1e-4)
}

func TestBearingAndPlaceChangeNothing(t *testing.T) {
	at := func(start string) []byte {
		r := checked(t, chain{Gear: "roof-whole-24", Jobs: append([][2]string{{"gear: gear.yaml", "alignment: {start: " + start + "}\ngear: gear.yaml"}}, noHangers...)})
		text, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	here := at("{bearing: 0 deg}")
	for _, start := range []string{"{bearing: 74 deg}", "{bearing: 211.3 deg, easting: 10000 m, northing: -10000 m, elevation: 182.4 m}"} {
		if !bytes.Equal(here, at(start)) {
			t.Errorf("a job at %s is answered otherwise", start)
		}
	}
}

func TestAnyNumberOfWorkersGivesTheSameBytes(t *testing.T) {
	s := chain{Gear: "roof-halves-24"}.Study(t)
	one, _ := json.Marshal(Run(s, Options{Workers: 1}))
	many, _ := json.Marshal(Run(chain{Gear: "roof-halves-24"}.Study(t), Options{Workers: 8}))
	if !bytes.Equal(one, many) {
		t.Error("one and eight workers differ")
	}
}

// randomJob changes readings and orders within sane ranges; many of them fail,
// some are blocked.
func randomJob(r *rand.Rand) [][2]string {
	f := func(lo, hi float64) string { return fmt.Sprintf("%.1f mm", lo+(hi-lo)*r.Float64()) }
	steps := []string{
		"  - {step: wall bottoms in, drivers: {low brace: " + f(580, 725) + "}}\n",
		"  - {step: ease down to break the bond, drivers: {jack: raised - " + f(5, 60) + "}}\n",
		"  - {step: arms, drivers: {turnbuckle: " + f(575, 690) + "}}\n",
		"  - {step: both, drivers: {turnbuckle: " + f(575, 690) + ", low brace: " + f(580, 725) + "}}\n",
		"  - {step: uneven, drivers: {jack left: raised - " + f(60, 110) + ", jack right: raised - " + f(60, 110) + "}}\n",
		worked.ToWheels,
	}
	r.Shuffle(4, func(i, j int) { steps[i], steps[j] = steps[j], steps[i] })
	return [][2]string{worked.Sequence(append([]string{worked.FillersOut}, steps...)...)}
}

func TestNoSampledGapIsBelowACertifiedLowerBound(t *testing.T) {
	jobs := worked.Campaign(12, 50)
	rnd := rand.New(rand.NewSource(1))
	samples := 0
	for range jobs {
		c := chain{Gear: "roof-halves-24", Jobs: randomJob(rnd)}
		s := c.Study(t)
		rows := map[string]result.PartRow{}
		for p := range Run(s, Options{}).Parts {
			rows[fmt.Sprint(p.Step, p.Part, p.Zone, p.Contact)] = p
			if p.Value.Upper < p.Value.Lower {
				t.Fatalf("bracket upside down: %+v", p)
			}
		}
		samples += sampled(t, rnd, &s.Bays[0], rows)
	}
	if samples < 50*jobs {
		t.Errorf("only %d samples were near anything", samples)
	}
}

// sampled holds random poses of random parts against the brackets.
func sampled(t *testing.T, rnd *rand.Rand, b *model.Bay, rows map[string]result.PartRow) int {
	t.Helper()
	n := 0
	for range 400 {
		step := b.Steps[rnd.Intn(len(b.Steps))]
		part := b.Carrier.Parts[rnd.Intn(len(b.Carrier.Parts))]
		solid := b.Concrete[rnd.Intn(len(b.Concrete))]
		if step.Path == nil || !step.Present(part) || measure.Through(step.Path, part) {
			continue
		}
		// one of the two rows of the pair's zone bounds it; the lesser bounds both
		lower, found := math.Inf(1), false
		for _, held := range []bool{false, true} {
			if row, ok := rows[fmt.Sprint(step.Name, part.At(), solid.Zone, held)]; ok {
				lower, found = math.Min(lower, row.Value.Lower), true
			}
		}
		gap := sweep.At(still{step.Path, rnd.Float64()}, sweep.Ground, sweep.NewPart(part.Body, part.Solid), []sweep.Part{sweep.NewPart(sweep.Ground, solid.Solid)}, 0).Upper
		switch {
		case found && gap < lower-1e-12:
			t.Fatalf("step %q: %s to %s sampled %.9f below %.9f", step.Name, part.Label(), solid.Name, gap, lower)
		case !found && gap < measure.Far-1e-12:
			t.Fatalf("step %q: %s to %s sampled %.9f, but no row says so", step.Name, part.Label(), solid.Name, gap)
		}
		if found {
			n++
		}
	}
	return n
}

// still is a path held at one place.
type still struct {
	*motion.Path
	at float64
}

func (p still) Pose(ref, body int, _ float64) geom.Pose { return p.Path.Pose(ref, body, p.at) }

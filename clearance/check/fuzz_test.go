package check

import (
	"maps"
	"math"
	"math/rand"
	"os"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// small is the worked cell with nothing in it that costs time and changes little.
const small = `
job: {name: small, number: S}
culvert: {cells: 1, span: 3.0 m, rise: 2.4 m, roof: 300 mm, invert: 300 mm, outer_wall: 250 mm, haunch: {top: 200 x 200 mm, bottom: 150 x 150 mm}, kicker: 300 mm, pours: [1.2 m]}
ends: {outlet: {apron: 4 m}}
gear: gear.yaml
`

// few are the steps of a small gear; some of them are taken, in their order.
var few = map[string][]string{
	"roof-halves-24": {"  - {step: out, removes: [fillers, ties]}\n", "  - {step: in, drivers: {low brace: 590 mm}}\n", "  - {step: down, drivers: {jack: raised - 75 mm}}\n",
		"  - {step: both, drivers: {turnbuckle: raised - 120 mm, low brace: 650 mm}}\n", "  - {step: on, drivers: {jack: wheels - 30 mm}}\n"},
	"roof-whole-24": {"  - {step: out, removes: [fillers, ties]}\n", "  - {step: in, drivers: {draw screw: 120 mm}}\n", "  - {step: one side, drivers: {jack left: raised - 10 mm}}\n", "  - {step: on, drivers: {jack: wheels - 30 mm}}\n"},
	"roof-whole-24-jacks": {"  - {step: out, removes: [fillers, ties]}\n", "  - {step: roof, drivers: {roof jack: 40 mm}}\n", "  - {step: in, drivers: {draw screw: 120 mm}}\n",
		"  - {step: on, drivers: {jack: wheels - 30 mm}}\n"},
}

// cuts make a gear small: two bents, one brace, one waler and one stringer a side.
var cuts = []struct {
	what *regexp.Regexp
	put  string
}{
	{regexp.MustCompile(`(?m)^form: .*$`), "form: {length: 1.30 m, bents: 2, spacing: 700 mm, first: 300 mm, piece: 2.4 m}"},
	{regexp.MustCompile(`(?m)^(lifting|ties|#).*\n`), ""},
	{regexp.MustCompile(`(?s)  - name: upper brace.*$`), ""},
	{regexp.MustCompile(`above_foot: \[.*?\], below_top: \[.*?\]`), "above_foot: [250 mm]"},
	{regexp.MustCompile(`from_corner: \[.*?\], from_filler: \[.*?\]`), "from_filler: [200 mm]"},
	{regexp.MustCompile(`at: \[.*?\]`), "at: [0.52 m, 0.78 m]"},
	{regexp.MustCompile(`filler_length: 1000 mm`), "filler_length: 550 mm"},
}

// tiny is a gear of testdata made small, without its steps.
func tiny(t testing.TB, name string) string {
	t.Helper()
	file, err := os.ReadFile("../../testdata/gear/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	text, _, ok := strings.Cut(string(file), "steps:\n")
	for _, c := range cuts {
		ok = ok && (c.what.MatchString(text) || c.put == "" || strings.HasPrefix(c.put, "from_filler"))
		text = c.what.ReplaceAllString(text, c.put)
	}
	if !ok {
		t.Fatalf("%s is written otherwise than it is cut", name)
	}
	return text
}

// someSteps takes one of a gear's steps, or in one of four a moving one and the
// last, which puts the carrier on its wheels.
func someSteps(r *rand.Rand, name string) string {
	all := few[name]
	n := len(all) - 1
	if r.Intn(4) == 0 {
		return "steps:\n" + all[r.Intn(n)] + all[n]
	}
	return "steps:\n" + all[r.Intn(n+1)]
}

// reader decodes texts, and keeps what it made of those that come again.
type reader[T any] map[string]*T

// read is what a text says, nil where it is refused; keep says that it will come
// again. A text as it was written comes again, a scrambled one does not.
func (known reader[T]) read(text string, keep bool) *T {
	if v, ok := known[text]; ok {
		return v
	}
	v, _, _ := job.Decode[T]("file.yaml", []byte(text), units.Metric)
	if keep {
		known[text] = v
	}
	return v
}

// trial is what FuzzCheck tries: a small gear of which some steps are taken, and
// a small job, with the numbers of one of the two scrambled.
type trial struct {
	gears reader[job.Gear]
	jobs  reader[job.Job]
	texts map[string]string
}

func newTrial(t testing.TB) trial {
	out := trial{reader[job.Gear]{}, reader[job.Job]{}, map[string]string{}}
	for name := range few {
		out.texts[name] = tiny(t, name)
	}
	return out
}

// study is nil where the texts are refused or nothing can be built of them.
func (a trial) study(r *rand.Rand, name string) (s *model.Study, gearText, jobText string) {
	gearText, jobText = a.texts[name]+someSteps(r, name), small
	scrambleGear := r.Intn(2) == 0
	if scrambleGear {
		gearText = scrambled(r, gearText)
	} else {
		jobText = scrambled(r, jobText)
	}
	g, j := a.gears.read(gearText, !scrambleGear), a.jobs.read(jobText, scrambleGear)
	if g == nil || j == nil || len(carrier.Lacks(g)) > 0 {
		return nil, gearText, jobText
	}
	s, troubles := model.Build(j, g)
	if len(troubles) > 0 {
		return nil, gearText, jobText
	}
	return s, gearText, jobText
}

// answers checks one portion of the work, or once in eight times all of it.
func answers(s *model.Study, n int) []result.Entry {
	if n%8 == 0 {
		return Run(s, Options{Workers: 1, Brief: n%32 != 0}).Checks
	}
	return PartAlone(s, []Part{Unsearched, Strips, Raises, Advances, Poured}[n%5])
}

// FuzzCheck: whatever can be built is answered, soon, and nothing passes without
// a number. The texts come from scrambling good ones, so that most can be read,
// and are small, so that many can be tried: TestASmallStudyIsAWholeOne. For the
// same end one of the two texts is scrambled at a time and the other one's
// reading kept, and seven of eight are asked for one portion of the checks.
func FuzzCheck(f *testing.F) {
	gears := slices.Sorted(maps.Keys(few))
	all := newTrial(f)
	debug.SetGCPercent(800) // an execution is a few megabytes, all of them garbage
	for i := range int64(4) {
		f.Add(i, uint8(i))
	}
	f.Fuzz(func(t *testing.T, seed int64, which uint8) {
		r := rand.New(rand.NewSource(seed))
		s, gearText, jobText := all.study(r, gears[int(which)%len(gears)])
		if s == nil {
			return
		}
		began := time.Now()
		checks := answers(s, r.Intn(32))
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("took %v\n%s\n%s", took, gearText, jobText)
		}
		for _, c := range checks {
			if c.Verdict == result.Pass && c.Value != nil && (math.IsNaN(c.Value.Lower) || math.IsNaN(c.Value.Upper)) {
				t.Errorf("%s %s passes without a number\n%s\n%s", c.ID, c.Subject, gearText, jobText)
			}
			if wrong := worksOut(c); wrong != "" {
				t.Errorf("%s %s: %s\n%s\n%s", c.ID, c.Subject, wrong, gearText, jobText)
			}
		}
	})
}

// What FuzzCheck begins with is answered as a whole: unscrambled, every gear is
// built with every choice of steps, and each check has been made.
func TestASmallStudyIsAWholeOne(t *testing.T) {
	for name := range few {
		for seed := range int64(12) {
			s, why := built([]byte(tiny(t, name)+someSteps(rand.New(rand.NewSource(seed)), name)), []byte(small))
			if s == nil {
				t.Fatalf("%s: %s", name, why)
			}
			ids := map[string]bool{}
			for _, c := range Run(s, Options{}).Checks {
				ids[c.ID] = true
			}
			for _, id := range []string{"setup.range", "strip.dig", "strip.self", "strip.clear", "raise.clear", "roll.clear", "roll.support"} {
				if !ids[id] {
					t.Errorf("%s, seed %d: no %s", name, seed, id)
				}
			}
		}
	}
}

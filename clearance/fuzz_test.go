package clearance

import (
	"math"
	"math/rand"
	"os"
	"regexp"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"boxwalk/clearance/result"
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
	"roof-halves-24": {"  - {step: out, removes: [strips, ties]}\n", "  - {step: in, drivers: {low brace: 590 mm}}\n", "  - {step: down, drivers: {jack: raised - 75 mm}}\n",
		"  - {step: both, drivers: {turnbuckle: raised - 120 mm, low brace: 650 mm}}\n", "  - {step: on, drivers: {jack: wheels - 30 mm}}\n"},
	"roof-whole-24": {"  - {step: out, removes: [strips, ties]}\n", "  - {step: in, drivers: {draw screw: 120 mm}}\n", "  - {step: one side, drivers: {jack left: raised - 10 mm}}\n", "  - {step: on, drivers: {jack: wheels - 30 mm}}\n"},
	"roof-whole-24-jacks": {"  - {step: out, removes: [strips, ties]}\n", "  - {step: roof, drivers: {roof jack: 40 mm}}\n", "  - {step: in, drivers: {draw screw: 120 mm}}\n",
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
	{regexp.MustCompile(`from_corner: \[.*?\], from_strip: \[.*?\]`), "from_strip: [200 mm]"},
	{regexp.MustCompile(`at: \[.*?\]`), "at: [0.52 m, 0.78 m]"},
	{regexp.MustCompile(`strip: 1000 mm`), "strip: 550 mm"},
}

// tiny is a gear of testdata made small, without its steps.
func tiny(t testing.TB, name string) string {
	t.Helper()
	file, err := os.ReadFile("../testdata/gear/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	text, _, ok := strings.Cut(string(file), "steps:\n")
	for _, c := range cuts {
		ok = ok && (c.what.MatchString(text) || c.put == "" || strings.HasPrefix(c.put, "from_strip"))
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

// FuzzCheck: whatever can be built is answered, soon, and nothing passes without
// a number. The texts come from scrambling good ones, so that most can be read,
// and are small, so that many can be tried: TestASmallStudyIsAWholeOne.
func FuzzCheck(f *testing.F) {
	gears := []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks"}
	texts := map[string]string{}
	for _, name := range gears {
		texts[name] = tiny(f, name)
	}
	debug.SetGCPercent(800) // an execution is a few megabytes, all of them garbage
	for i := range int64(4) {
		f.Add(i, uint8(i))
	}
	f.Fuzz(func(t *testing.T, seed int64, which uint8) {
		r := rand.New(rand.NewSource(seed))
		name := gears[int(which)%len(gears)]
		gearText, jobText := scrambled(r, texts[name]+someSteps(r, name)), scrambled(r, small)
		s, _ := built([]byte(gearText), []byte(jobText))
		if s == nil {
			return
		}
		began := time.Now()
		found := Check(s, Options{Workers: 1, Brief: seed%4 != 0})
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("took %v\n%s\n%s", took, gearText, jobText)
		}
		for _, c := range found.Checks {
			if c.Verdict == result.Pass && c.Value != nil && (math.IsNaN(c.Value.Lower) || math.IsNaN(c.Value.Upper)) {
				t.Errorf("%s %s passes without a number\n%s\n%s", c.ID, c.Subject, gearText, jobText)
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
			for _, c := range Check(s, Options{}).Checks {
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

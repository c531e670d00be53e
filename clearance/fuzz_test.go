package clearance

import (
	"math"
	"math/rand"
	"os"
	"strings"
	"testing"
	"time"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
)

// FuzzCheck: whatever can be built is answered, soon, and nothing passes without
// a number. The texts come from scrambling good ones, so that most can be read.
func FuzzCheck(f *testing.F) {
	gears := []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks", "roof-halves-43"}
	texts := map[string]string{}
	for _, name := range gears {
		file, err := os.ReadFile("../testdata/gear/" + name + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		text := string(file)
		for _, s := range short[name] {
			if !strings.Contains(text, s[0]) {
				f.Fatalf("%s has no %q to replace", name, s[0])
			}
			text = strings.ReplaceAll(text, s[0], s[1])
		}
		texts[name] = text
	}
	for i := range int64(4) {
		f.Add(i, uint8(i))
	}
	f.Fuzz(func(t *testing.T, seed int64, which uint8) {
		r := rand.New(rand.NewSource(seed))
		gearText := scrambled(r, texts[gears[int(which)%len(gears)]])
		jobText := scrambled(r, cell24)
		g, _, _ := job.Decode[job.Gear]("gear.yaml", []byte(gearText), 0)
		j, _, _ := job.Decode[job.Job]("job.yaml", []byte(jobText), 0)
		if g == nil || j == nil || len(carrier.Lacks(g)) > 0 {
			return
		}
		s, troubles := model.Build(j, g)
		if len(troubles) > 0 {
			return
		}
		began := time.Now()
		result := Check(s, Options{})
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("took %v\n%s\n%s", took, gearText, jobText)
		}
		for _, c := range result.Checks {
			if c.Verdict == Pass && c.Value != nil && (math.IsNaN(c.Value.Lower) || math.IsNaN(c.Value.Upper)) {
				t.Errorf("%s %s passes without a number\n%s\n%s", c.ID, c.Subject, gearText, jobText)
			}
		}
	})
}

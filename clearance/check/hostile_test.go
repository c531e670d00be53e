package check

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"regexp"
	"strconv"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
)

var millimetres = regexp.MustCompile(`-?[0-9.]+ mm`)

// scrambled changes a few of the millimetres in a text by factors or signs.
func scrambled(r *rand.Rand, text string) string {
	return millimetres.ReplaceAllStringFunc(text, func(m string) string {
		if r.Intn(40) > 0 {
			return m
		}
		v, err := strconv.ParseFloat(m[:len(m)-3], 64)
		if err != nil {
			return m
		}
		switch r.Intn(5) {
		case 0:
			v = 0
		case 1:
			v = -v
		case 2:
			v *= 10
		default:
			v *= math.Exp(r.NormFloat64())
		}
		return fmt.Sprintf("%.3f mm", v)
	})
}

// Whatever can be read is answered: with a verdict, without a panic, without a
// number that is none passing.
func TestWhateverCanBeReadIsAnswered(t *testing.T) {
	rounds := worked.Campaign(20, 100)
	r := rand.New(rand.NewSource(3))
	answered := 0
	for n := range rounds {
		name := []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks"}[n%3]
		file, err := os.ReadFile("../../testdata/gear/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		gearText := scrambled(r, string(replaced(t, "gear", string(file), short[name])))
		jobText := scrambled(r, cell24)
		g, _, _ := job.Decode[job.Gear]("gear.yaml", []byte(gearText), 0)
		j, _, _ := job.Decode[job.Job]("job.yaml", []byte(jobText), 0)
		if g == nil || j == nil || len(carrier.Lacks(g)) > 0 {
			continue
		}
		s, troubles := model.Build(j, g)
		if len(troubles) > 0 {
			continue
		}
		answered++
		for _, c := range Run(s, Options{}).Checks {
			if c.Verdict == result.Pass && c.Value != nil && (math.IsNaN(c.Value.Lower) || math.IsNaN(c.Value.Upper)) {
				t.Errorf("%s %s passes without a number\n%s\n%s", c.ID, c.Subject, gearText, jobText)
			}
		}
	}
	if answered < rounds/10 {
		t.Errorf("only %d of %d were readable", answered, rounds)
	}
	t.Logf("%d of %d answered", answered, rounds)
}

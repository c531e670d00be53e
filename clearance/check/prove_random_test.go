package check

import (
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// someWhere is a length in millimetres between two.
func someWhere(r *rand.Rand, lo, hi float64) string {
	return fmt.Sprintf("%.1f mm", lo+(hi-lo)*r.Float64())
}

// movesOf are steps that a kind of carrier can make, with readings anywhere in
// what its adjusters have.
func movesOf(r *rand.Rand, gear string) []string {
	step := func(name, drivers string) string { return "  - {step: " + name + ", drivers: {" + drivers + "}}\n" }
	down := func(lo, hi float64) string { return "raised - " + someWhere(r, lo, hi) }
	out := []string{
		step("crack down", "jack: "+down(5, 60)),
		step("uneven", "jack left: "+down(60, 115)+", jack right: "+down(60, 115)),
	}
	switch gear {
	case "roof-halves-24", "roof-halves-43":
		out = append(out,
			step("wall feet in", "low brace: raised - "+someWhere(r, 5, 140)),
			step("arms", "turnbuckle: raised - "+someWhere(r, 5, 120)),
			step("both", "turnbuckle: raised - "+someWhere(r, 5, 120)+", low brace: raised - "+someWhere(r, 5, 140)))
	case "roof-whole-24-jacks":
		out = append(out, step("roof down", "roof jack: "+someWhere(r, 5, 60)))
		fallthrough
	default:
		out = append(out, step("walls in", "draw screw: "+someWhere(r, 5, 130)), step("walls on", "draw screw: "+someWhere(r, 5, 130)))
	}
	r.Shuffle(len(out), func(i, k int) { out[i], out[k] = out[k], out[i] })
	return out
}

// randomBox is one of the worked carriers in a box that varies in span, rise,
// haunches and kicker, collapsed in some order by some readings. Many of them
// jam, dig or drag: what they do is a result, and a result can be proved.
func randomBox(r *rand.Rand) chain {
	gear := []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks", "roof-halves-43"}[r.Intn(4)]
	c := chain{gear: gear, job: cell24}
	span, rise := 3.0, 2.4
	if gear == "roof-halves-43" {
		c.job, span, rise = cell43, 4.27, 4.27
	}
	steps := append([]string{stripsOut}, movesOf(r, gear)...)
	c.jobs = append(c.jobs, sequence(append(steps[:1+r.Intn(len(steps))], toWheels)...))
	if r.Intn(2) == 0 {
		c.jobs = append(c.jobs, [2]string{fmt.Sprintf("span: %v m", trim(span)), fmt.Sprintf("span: %.4f m", span+0.08*(r.Float64()-0.5))},
			[2]string{fmt.Sprintf("rise: %v m", trim(rise)), fmt.Sprintf("rise: %.4f m", rise+0.05*(r.Float64()-0.5))})
	}
	if r.Intn(2) == 0 {
		side, from := 200+20*(r.Float64()-0.5), "200 x 200 mm"
		if gear == "roof-halves-43" {
			side, from = side+100, "300 x 300 mm"
		}
		haunch := fmt.Sprintf("%.1f x %.1f mm", side, side+10*(r.Float64()-0.5))
		c.jobs = append(c.jobs, [2]string{"top: " + from, "top: " + haunch})
		c.swap = append(c.swap, [2]string{"haunch: " + from, "haunch: " + haunch})
	}
	if r.Intn(2) == 0 {
		c.jobs = append(c.jobs, [2]string{"bottom: 150 x 150 mm", fmt.Sprintf("bottom: %s x %s", someWhere(r, 100, 200), someWhere(r, 100, 250))})
	}
	c.vary = func(gear string) string { return nudged(r, gear) }
	return c
}

// nudged changes one in twelve sizes of a gear by up to a third.
func nudged(r *rand.Rand, gear string) string {
	return millimetres.ReplaceAllStringFunc(gear, func(m string) string {
		v, err := strconv.ParseFloat(m[:len(m)-3], 64)
		if err != nil || r.Intn(12) > 0 {
			return m
		}
		return fmt.Sprintf("%.1f mm", v*(1+(r.Float64()-0.5)*2/3))
	})
}

// trim writes a size as the worked jobs have it.
func trim(v float64) string {
	if s := strconv.FormatFloat(v, 'f', -1, 64); len(s) > 1 {
		return s
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}

// BOXWALK_PROOFS=DIR writes the proofs and results there, for another verifier;
// BOXWALK_JOBS is how many jobs there are.
func TestAnyValidJobCanBeProvedWhateverItsVerdicts(t *testing.T) {
	jobs, dir := worked.Campaign(9, 15), os.Getenv("BOXWALK_PROOFS")
	if n, err := strconv.Atoi(os.Getenv("BOXWALK_JOBS")); err == nil {
		jobs = n
	}
	r := rand.New(rand.NewSource(15))
	jammed, seams, proved := 0, 0, 0
	for n := 0; proved < jobs; n++ {
		c := randomBox(r)
		s, why := c.built(t)
		if s == nil {
			if n > 20*jobs {
				t.Fatalf("hardly any job can be built, the last since %s", why)
			}
			continue
		}
		proved++
		e := Examine(s, Options{Proof: true})
		text, result, err := written(e, false)
		if err != nil {
			t.Errorf("%v\n%s %v %v", err, c.gear, c.swap, c.jobs)
			continue
		}
		if report := holds(t, text, result); report == nil || len(report.Unseen) > 0 {
			t.Errorf("%s %v %v\n%+v", c.gear, c.swap, c.jobs, report)
		}
		if dir != "" {
			name := filepath.Join(dir, strconv.Itoa(n))
			write(t, name+".proof", text)
			write(t, name+".json", result)
		}
		jams := jamsOf(e.Result)
		jammed, seams = jammed+min(1, jams[0]), seams+min(1, jams[1])
	}
	t.Logf("%d jobs, strip.self fails in %d, at seams in %d", proved, jammed, seams)
	if jammed < jobs/5 || seams < 1 {
		t.Errorf("strip.self fails in %d of %d, at seams in %d", jammed, proved, seams)
	}
}

func write(t *testing.T, name string, text []byte) {
	t.Helper()
	if err := os.WriteFile(name, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// jamsOf counts what fails in strip.self: all, and seams.
func jamsOf(r *result.Result) (out [2]int) {
	for _, c := range r.Checks {
		if c.ID == "strip.self" && c.Verdict == result.Fail {
			out[0]++
			if strings.HasSuffix(c.Subject.String(), ", seams") {
				out[1]++
			}
		}
	}
	return out
}

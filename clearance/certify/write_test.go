package certify

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/proof"
	"boxwalk/clearance/worked"
	"boxwalk/model"
)

// proved writes the proof of an examination and the result that it belongs to.
func proved(t *testing.T, s *model.Study, o check.Options, parts bool) (text, result []byte) {
	t.Helper()
	o.Proof = true
	text, result, err := written(check.Examine(s, o), parts)
	if err != nil {
		t.Fatal(err)
	}
	return text, result
}

// written is the proof of an examination and the result that it belongs to.
func written(e *check.Examination, parts bool) (text, result []byte, err error) {
	if result, err = json.Marshal(e.Result); err != nil {
		return nil, nil, err
	}
	sum := sha256.Sum256(result)
	var out bytes.Buffer
	err = Write(&out, e, Options{Result: hex.EncodeToString(sum[:]), Parts: parts})
	return out.Bytes(), result, err
}

// holds verifies a proof against its result.
func holds(t *testing.T, text, result []byte) *proof.Report {
	t.Helper()
	report, err := proof.Verify(bytes.NewReader(text))
	if err == nil {
		err = report.Holds(bytes.NewReader(result))
	}
	if err != nil {
		t.Error(err)
	}
	return report
}

func TestProofOfEveryWorkedCarrierHolds(t *testing.T) {
	for _, gear := range []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks", "roof-halves-43"} {
		for _, parts := range []bool{false, true} {
			text := worked.Cell24
			if strings.HasSuffix(gear, "43") {
				text = worked.Cell43
			}
			s := worked.Chain{Gear: gear, Job: text}.Study(t)
			text1, result := proved(t, s, check.Options{}, parts)
			if r := holds(t, text1, result); r != nil && !r.Whole {
				t.Errorf("%s: the proof is not of the whole", gear)
			}
		}
	}
}

// The verifier bounds curvature by formulas of its own: that its bounds stay
// within package trace's caution is what makes these hold. Failing jobs have
// proofs too: of what is stated.
func TestProofOfEveryJobHolds(t *testing.T) {
	list, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
	if err != nil || len(list) < 8 {
		t.Fatal(len(list), err)
	}
	for i, path := range list {
		if i%worked.Campaign(4, 1) != 0 {
			continue
		}
		name := filepath.Base(filepath.Dir(path))
		t.Run(name, func(t *testing.T) {
			text, result := proved(t, worked.Job(t, name), check.Options{}, false)
			r := holds(t, text, result)
			if r == nil || !r.Whole || len(r.Unproved)+len(r.Unseen) > 0 {
				t.Errorf("the proof leaves something out, or shows no points for a number: %+v", r)
			}
		})
	}
}

func TestProofIsTheSameOnOneWorkerAndOnMany(t *testing.T) {
	s := worked.Chain{Gear: "roof-halves-24", Job: worked.Cell24}.Study(t)
	one, _ := proved(t, s, check.Options{Workers: 1}, false)
	many, _ := proved(t, s, check.Options{Workers: 8}, false)
	if !bytes.Equal(one, many) {
		t.Error("the bytes differ")
	}
}

func TestProofOfSomeChecksIsOfThoseOnly(t *testing.T) {
	s := worked.Chain{Gear: "roof-halves-24", Job: worked.Cell24}.Study(t)
	for _, only := range [][]string{{"strip"}, {"roll.clear"}, {"strip.self", "raise"}, {"setup"},
		{"strip.clear"}, {"strip.dig"}, {"strip.self"}, {"strip.supports"}, {"raise.clear"}, {"strip.clear", "raise.clear"}} {
		text, result := proved(t, s, check.Options{Only: only}, false)
		if r := holds(t, text, result); r != nil && (r.Whole || (r.Claims == 0) != (only[0] == "setup")) {
			t.Errorf("%v: whole %v, %d claims", only, r.Whole, r.Claims)
		}
	}
}

// A result that states more than was certified cannot be proved: the number is
// raised in the result, and in the claim.
func TestAResultThatStatesMoreIsNotProved(t *testing.T) {
	s := worked.Chain{Gear: "roof-halves-24", Job: worked.Cell24}.Study(t)
	e := check.Examine(s, check.Options{Proof: true})
	for _, r := range e.Bays {
		for i := range r.Entries {
			if c := &r.Entries[i]; c.ID == "strip.clear" && c.Value != nil && strings.HasSuffix(c.Subject.String(), "soffit, collapsed") {
				c.Value.Lower += 1e-4
				for k := range c.From {
					c.From[k].Value.Lower += 1e-4
				}
			}
		}
	}
	if err := Write(&bytes.Buffer{}, e, Options{Result: strings.Repeat("0", 64)}); err == nil {
		t.Error("a clearance that is not there was proved")
	} else if !strings.Contains(err.Error(), "cannot be shown") {
		t.Error(err)
	}
}

// What the table of checks says a proof shows, proofs show, and nothing else.
func TestAProofShowsTheChecksThatTheTableSaysItShows(t *testing.T) {
	text, found := proved(t, worked.Job(t, "orchard-creek"), check.Options{}, false)
	shown := map[string]bool{}
	for _, e := range holds(t, text, found).Entries {
		shown[e.ID] = true
	}
	for _, c := range check.Table() {
		if c.Proved != shown[c.ID] {
			t.Errorf("%s: the table says %v, the proof %v", c.ID, c.Proved, shown[c.ID])
		}
	}
}

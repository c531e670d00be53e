package clearance

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"testing"
	"time"

	"boxwalk/clearance/proof"
)

func TestProofOfTheWorkedCarrierHolds(t *testing.T) {
	for _, gear := range []string{"roof-halves-24", "roof-whole-24"} {
		s := chain{gear: gear, job: cell24}.read(t)
		began := time.Now()
		e := Examine(s, Options{Proof: true})
		examined := time.Since(began)
		text, err := json.Marshal(e.Result)
		if err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(text)
		var out bytes.Buffer
		began = time.Now()
		if err := e.Prove(&out, ProofOptions{Result: hex.EncodeToString(sum[:])}); err != nil {
			t.Fatal(err)
		}
		wrote := time.Since(began)
		began = time.Now()
		size := out.Len()
		report, err := proof.Verify(&out)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("examined %v, wrote %v, verified %v, %d bytes, %d claims, %d planes, %d swings, %d contacts", examined, wrote, time.Since(began), size, report.Claims, report.Planes, report.Swings, report.Contacts)
		if err := report.Holds(bytes.NewReader(text)); err != nil {
			t.Error(err)
		}
		for _, l := range report.Trust.Lines() {
			t.Log(l)
		}
	}
}

package certify

import (
	"errors"
	"io"
	"math"

	"boxwalk/clearance/check"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/clearance/trace"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// Options of a written proof.
type Options struct {
	Result string // sha256 of result.json as it is written
	Parts  bool   // also prove each part's own number of clearance.csv
}

// Write writes the proof of an examination's clearances, which must have been
// made with Options.Proof. It proves what result.json states; where a step could
// not be made or a number is not known, the proof is not of the whole. An error
// that does not come from w is our own: a number that was certified and cannot
// be shown.
func Write(w io.Writer, e *check.Examination, o Options) error {
	p := &prover{Examination: e, parts: o.Parts, carriers: map[*measure.Bay]int{}, shown: map[*check.Judged]bool{},
		proof: &trace.Proof{Notes: notes(e), Result: o.Result, Whole: len(e.Scope) == 0}}
	for _, in := range e.Inputs {
		p.proof.Inputs = append(p.proof.Inputs, trace.Input(in))
	}
	for _, z := range culvert.Zones {
		p.proof.Zones = append(p.proof.Zones, trace.Zone{Name: string(z), Words: z.Words()})
	}
	for _, r := range e.Bays {
		if r == nil {
			continue
		}
		if r.Entries == nil {
			return errors.New("the examination was not made for a proof")
		}
		p.place(r)
	}
	return p.proof.Write(w, e.Workers)
}

// notes are what stands above a proof for whoever reads it: what the verdict is, what
// it does not answer for, and the cautions.
func notes(e *check.Examination) []string {
	out := []string{"All checks made hold. That is no release."}
	if !e.Cleared() {
		out[0] = "NOT CLEARED."
	}
	return append(append(out, e.Reservations()...), e.Cautions...)
}

// prover turns an examination into a proof.
type prover struct {
	*check.Examination
	parts    bool
	proof    *trace.Proof
	carriers map[*measure.Bay]int
	shown    map[*check.Judged]bool // entries that have their witness
}

// addClaim adds a claim that serves some entries, with what else the pairs that
// may touch must keep; nothing is claimed where no entry was asked for.
func (p *prover) addClaim(c trace.Claim, needs []trace.Need) {
	serves := false
	for _, n := range needs {
		serves = serves || !n.Touch
	}
	if !serves {
		return
	}
	c.Needs = needs
	p.proof.Claims = append(p.proof.Claims, &c)
}

// micro is the step in which differences of allowance are written.
const micro = 1e-6

// need is what an entry asks of the pairs of one zone that may not touch, or
// that may: its own number, more by what more is taken off a part, and no more
// than is known of the part.
func (p *prover) need(e *check.Judged, id string, zone culvert.Zone, touch bool, beyond float64) (trace.Need, bool) {
	n := trace.Need{ID: id, Lower: beyond, Far: !touch, Touch: touch, Less: map[int]int{}}
	if e.Value != nil {
		n.Lower, n.Far = e.Value.Lower, false
	}
	if math.IsInf(n.Lower, 0) || math.IsNaN(n.Lower) || e.Verdict == result.Open && e.Value == nil {
		p.proof.Whole = false
		return n, false
	}
	for _, c := range e.From {
		if c.Zone != zone || c.MayTouch != touch {
			continue
		}
		asked := math.Min(n.Lower+c.Allowance-e.Allowance, c.Value.Lower)
		um := int(math.Floor((asked-n.Lower)/micro + 1e-3))
		for _, part := range append([]int{c.Part}, c.Alike...) {
			if old, ok := n.Less[part]; um != 0 && (!ok || um < old) {
				n.Less[part] = um
			}
		}
	}
	return n, true
}

// asked tells whether an entry belongs to the result.
func (p *prover) asked(id string) bool { return len(p.Scope) == 0 || check.Matches(id, p.Scope) }

// touching is what pairs that may touch are held to where no entry says: the
// tolerance of a contact, or what was found.
func touching(id string, list []measure.Gaps, z int) trace.Need {
	n := trace.Need{ID: id, Lower: -measure.ContactTolerance, Touch: true, Less: map[int]int{}}
	for _, m := range list {
		if v := m.At(z).MayTouch.Lower; v < n.Lower && !math.IsInf(v, 0) {
			for _, part := range append([]int{m.Part}, m.Alike...) {
				n.Less[part] = int(math.Floor((v - n.Lower) / micro))
			}
		}
	}
	return n
}

// each are the numbers of the parts themselves.
func (p *prover) each(list []measure.Gaps, z int) []trace.Each {
	if !p.parts {
		return nil
	}
	var out []trace.Each
	for _, m := range list {
		e := trace.Each{Free: math.Min(measure.Far, m.At(z).MustClear.Lower), Touch: math.Inf(-1)}
		if v := m.At(z).MayTouch; v.Against >= 0 {
			e.Touch = v.Lower
		}
		for _, e.Part = range append([]int{m.Part}, m.Alike...) {
			out = append(out, e)
		}
	}
	return out
}

// standingAt is a motion held at the end of a step.
type standingAt struct{ sweep.Motion }

func (m standingAt) Pose(ref, body int, s float64) geom.Pose      { return m.Motion.Pose(ref, body, 1) }
func (standingAt) Bound(ref, body int, s0, s1 float64) geom.Bound { return geom.Bound{} }

// shifted is a motion seen from a frame that stands by ahead along x.
type shifted struct {
	sweep.Motion
	by float64
}

func (m shifted) Pose(ref, body int, s float64) geom.Pose {
	pose := m.Motion.Pose(ref, body, s)
	if body != ref {
		pose.T[0] -= m.by
	}
	return pose
}

package check

import (
	"fmt"
	"iter"
	"math"
	"slices"
	"sort"
	"strings"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/job"
)

// Options of a check.
type Options struct {
	Version  string
	Inputs   []result.Input
	Basis    string             // see result.Result
	Only     []string           // ids to keep; none keeps all
	Progress func(done, of int) // called as work goes on; may be nil
	Workers  int                // 0 is one for each core
	Proof    bool               // keep what a proof is written from
	Brief    bool               // leave out what no verdict needs: gaps of parts that do not govern, at steps' ends, and along the way; of what is not in Only, everything
}

// narrow tells whether only some checks are made.
func (o Options) narrow() bool { return o.Brief && !o.Proof && len(o.Only) > 0 }

// wanted tells whether a check is to be made.
func (o Options) wanted(c *Check) bool { return !o.narrow() || Matches(c.ID, o.Only) }

// ask is what has to be measured.
func (o Options) ask() measure.Ask {
	if !o.narrow() {
		return measure.Ask{Steps: measure.Every, Raising: true, Advance: true, EveryPart: !o.Brief || o.Proof}
	}
	var a measure.Ask
	for i := range table {
		if c := &table[i]; o.wanted(c) {
			if c.Part == Strips {
				a.Steps = measure.Every
			}
			a.Raising, a.Advance = a.Raising || c.Part == Raises, a.Advance || c.Part == Advances
		}
	}
	return a
}

// Run holds a study against every check. The result depends on the study
// only, not on the number of workers.
func Run(s *model.Study, o Options) *result.Result { return Examine(s, o).Result }

// Examination is a result and what it was worked out from, from which a proof
// of its clearances can be written.
type Examination struct {
	*result.Result
	Study   *model.Study
	Workers int
	Bays    []*Examined // by bay; nil for twins
}

// Examine is Run that keeps what was measured.
func Examine(s *model.Study, o Options) *Examination {
	r := &result.Result{Schema: result.Schema, Version: o.Version, Inputs: o.Inputs, Basis: o.Basis, Scope: o.Only,
		Job: result.JobName{Name: s.Job.Job.Name, Number: s.Job.Job.Number}, Cautions: CautionsOf(s.Job, s.Gear),
		NotRead: job.Unread(s.Job, s.Gear), Looser: looserThanDefault(s.Job, s.Gear)}
	reports := reportsOf(s, o, o.ask())
	leftOut := map[string]bool{}
	for _, t := range reportAll(s, reports, o) {
		add(r, t, o.Only)
		for _, id := range t.leftOut {
			leftOut[id] = leftOut[id] || len(o.Only) == 0 || Matches(id, o.Only)
		}
	}
	whole, left := ofJob(s, reports, o.wanted)
	add(r, &report{still: whole}, o.Only)
	for _, id := range left {
		leftOut[id] = leftOut[id] || len(o.Only) == 0 || Matches(id, o.Only)
	}
	r.NotChecked = notChecked(o.Only, s.Job, leftOut)
	if !o.Brief {
		r.Plan = planRows(s)
	}
	tellFriction(r.Looser, frictionNote(s, reports))
	if !o.Brief {
		r.Parts = partRowsOf(s, reports)
	}
	if !o.Brief {
		r.Masses, r.Allowances = massRows(s), allowanceRows(s, reports)
	}
	order(r)
	r.Verdict = result.OfJob(result.Overall(r.Checks), o.Only)
	return &Examination{Result: r, Study: s, Workers: o.Workers, Bays: reports}
}

// report is what was measured of one bay, to be judged.
type Examined struct {
	bay     *bay
	Found   *measure.Report
	brief   bool
	narrow  bool // only some checks are wanted, and no lists
	wanted  func(c *Check) bool
	onWay   *route      // worked out when first asked for
	pouring *roofPoured // likewise
	Entries []Judged    // with what they come from, where a proof is to be written
	leftOut []string    // ids of entries that somebody else covers
}

// Entry finds one of a report's entries; there is one for every check that was
// made.
func (r *Examined) Entry(id string, subject result.Subject) *Judged {
	for i := range r.Entries {
		if e := &r.Entries[i]; e.ID == id && e.Subject == subject {
			return e
		}
	}
	panic(fmt.Sprintf("clearance: no entry %s, %s", id, subject))
}

// About is the bay as the subject of an entry.
func (r *Examined) About() result.Subject { return r.bay.About() }

// RollStep is an advance of so many metres as a step is named.
func (r *Examined) RollStep(way float64) string { return r.bay.RollStep(way) }

// Distance is a length along the way, metres, in words.
func (r *Examined) Distance(v float64) string { return r.bay.Distance(v) }

// ofCheck are the entries of one check.
func ofCheck(id string, list []Judged) []Judged {
	var out []Judged
	for _, e := range list {
		if e.ID == id {
			out = append(out, e)
		}
	}
	return out
}

// way is the carrier on its way to the next pour, once for all checks of it.
func (r *Examined) way(s *model.Study) *route {
	if r.onWay == nil {
		r.onWay = r.bay.onTheWay(s)
	}
	return r.onWay
}

// reportsOf are the bays of a study with what was measured of them; nil for twins.
func reportsOf(s *model.Study, o Options, a measure.Ask) []*Examined {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	a.Workers, a.Progress = o.Workers, o.Progress
	kept := &statics.Kept{}
	out := make([]*Examined, len(s.Bays))
	for i, f := range measure.Of(s, tol, a) {
		if f != nil {
			out[i] = &Examined{bay: worded(f.Bay, s.Job, limits), Found: f, brief: o.Brief, narrow: o.narrow(), wanted: o.wanted}
			out[i].bay.kept = kept
		}
	}
	return out
}

// reportAll puts every bay in words, twins in those of the bay they are
// like, and keeps what a proof is written from.
func reportAll(s *model.Study, bays []*Examined, o Options) []*report {
	out := make([]*report, len(s.Bays))
	w := measure.NewWorkers(o.Workers, nil)
	for _, i := range s.Reported() {
		w.Add(func() {
			out[i] = bays[i].report(s)
			if o.Proof {
				bays[i].Entries = slices.Concat(out[i].still, out[i].under)
			}
		})
	}
	w.Each()
	for i, b := range s.Bays {
		if b.Twin != i {
			out[i] = bays[b.Twin].reportOf(out[b.Twin], s, &s.Bays[i])
		}
	}
	return out
}

// report is a bay in words: the checks of the carrier where it stands, those
// of it under way, and the tables.
type report struct {
	still, under []Judged
	settings     []result.Setting
	steps        []result.StepRow
	raising      []result.RaisingRow
	rolling      []result.RollingRow
	along        []result.AlongRow
	leftOut      []string // ids of entries that somebody else covers
}

func (r *Examined) report(s *model.Study) *report {
	t := &report{}
	t.still = r.judgeAll(s, false, r.wanted)
	r.bay.sayUnset(t.still)
	r.bay.sayRemedies(t.still)
	r.bay.sayFiner(t.still)
	t.settings = r.bay.settings()
	if !r.narrow {
		t.steps, t.raising = r.bay.stepRows(r.Found.Strip, r.brief), r.bay.raisingRows(ofCheck("raise.clear", t.still))
		holdSteps(t.steps, r.bay.Bay.Bay, s)
		r.bay.levels(t)
	}
	r.underWay(t, s, nil)
	t.leftOut = r.leftOut
	return t
}

// underWay adds what depends on where along the line the bay lies. The gaps on
// the way are those of a twin's rows, where there is one.
func (r *Examined) underWay(t *report, s *model.Study, twin []result.AlongRow) {
	t.under = r.judgeAll(s, true, r.wanted)
	r.bay.sayUnset(t.under)
	r.bay.sayRemedies(t.under)
	r.bay.sayFiner(t.under)
	if !r.narrow {
		all := slices.Concat(t.still, t.under)
		r.bay.unproved(t.raising, all)
		t.rolling = r.rollingRows(s, all)
	}
	if !r.brief {
		t.along = r.bay.alongRows(s, r.Found.Rolling, r.Found.Rolled, t.under, twin)
	}
}

// reportOf is a report as it reads for another of the same geometry.
func (r *Examined) reportOf(first *report, s *model.Study, b *model.Bay) *report {
	t := &report{}
	for _, c := range first.still {
		c.Subject = c.Subject.From(b.Cell.Number, b.Pour.Number)
		c.Where.Cell, c.Where.Pour, c.Where.Frame, c.From = b.Cell.Number, b.Pour.Number, b.Name(), nil
		t.still = append(t.still, c)
	}
	for _, v := range first.settings {
		v.Cell, v.Pour = b.Cell.Number, b.Pour.Number
		t.settings = append(t.settings, v)
	}
	for _, v := range first.steps {
		v.Cell, v.Pour = b.Cell.Number, b.Pour.Number
		// hundreds of gaps at hundreds of pours that are all alike: they stand once
		v.End, v.EndOf = []result.EndRow{}, &result.PourRef{Cell: r.bay.Cell.Number, Pour: r.bay.Pour.Number}
		t.steps = append(t.steps, v)
	}
	holdSteps(t.steps, b, s)
	t.raising = raisingOf(first.raising, b)
	twin := r.as(b)
	twin.underWay(t, s, first.along)
	t.leftOut = twin.leftOut
	return t
}

// partRowsOf works the rows of all bays out as they are asked for.
func partRowsOf(s *model.Study, bays []*Examined) iter.Seq[result.PartRow] {
	return func(yield func(result.PartRow) bool) {
		for _, b := range s.Bays {
			r := bays[b.Twin]
			for _, row := range r.bay.partRows(r.Found.Strip) {
				if row.Cell, row.Pour = b.Cell.Number, b.Pour.Number; !yield(row) {
					return
				}
			}
		}
	}
}

// add puts a report in a result, as far as it was asked for.
func add(r *result.Result, t *report, only []string) {
	for _, c := range slices.Concat(t.still, t.under) {
		if len(only) == 0 || Matches(c.ID, only) {
			r.Checks = append(r.Checks, c.Entry)
		}
	}
	r.Settings = append(r.Settings, t.settings...)
	r.Steps, r.Raising = append(r.Steps, t.steps...), append(r.Raising, t.raising...)
	r.Rolling = append(r.Rolling, t.rolling...)
	if len(only) == 0 || Matches("roll.clear", only) {
		r.Along = append(r.Along, t.along...)
	}
}

// Matches tells whether an id is asked for, by itself or by its group.
func Matches(id string, only []string) bool {
	for _, o := range only {
		if id == o || strings.HasPrefix(id, o+".") {
			return true
		}
	}
	return false
}

// order sorts the checks by id as in the table of checks, and within an id by
// verdict, then margin, the governing one first; of those whose margins are alike
// the first in the order of the work.
func order(r *result.Result) {
	place := map[string]int{}
	for i, c := range table {
		place[c.ID] = i
	}
	sort.SliceStable(r.Checks, func(i, j int) bool {
		a, b := r.Checks[i], r.Checks[j]
		switch {
		case place[a.ID] != place[b.ID]:
			return place[a.ID] < place[b.ID]
		case a.Verdict != b.Verdict:
			return worstFirst[a.Verdict] < worstFirst[b.Verdict]
		case a.Margin == nil || b.Margin == nil:
			return a.Margin != nil && b.Margin == nil
		}
		return math.Round(*a.Margin/alike) < math.Round(*b.Margin/alike)
	})
}

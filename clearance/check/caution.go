package check

import (
	"boxwalk/clearance/allow"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// CautionsOf a job and its gear stand on every drawing, card and report. Whatever
// number is in them is one the checks take for granted. Without a job, where only a
// proof is at hand, they point to its drawings; gear that is nil or states no lifting
// has no pass to tell.
func CautionsOf(j *job.Job, g *job.Gear) []string {
	level, pass := "the difference printed on the drawings", ""
	if j != nil {
		level = levelWords(j)
		pass = passWords(j, g)
	}
	return []string{
		"Check before use by a qualified engineer. Local codes, the project specification and the engineer of record govern; these numbers do not replace them.",
		"Do not release until a named person has released it in writing: strength or time required and reached, date and hour.",
		"Inspect before, during and after placing, and again before each move: ropes, hooks, anchors, pins, jacks.",
		"A cell is a confined space: test the air, ventilate, run no engine inside. Keep a way out clear, have a rescue plan, and somebody outside who knows who is in.",
		"Watch rain and flow upstream; agree the signal at which everybody leaves.",
		"Light every way and station. Work at height only from guarded platforms; cap or bend projecting bars.",
		"Outside panels and bulkheads are slung or propped before a tie is drawn: a form freed of its ties can fall, outward too.",
		"Each filler is slung or propped before its bolts come out, and unbolted from beside; nobody passes beneath.",
		"Before the wheels carry: only named persons at marked stations, beside the legs and inside the frame, out of panel swing and filler drop; one signaller (spotter); no screw jack ahead of any other by more than " + level + ".",
		"Wall panels press inward once the bond breaks: never pull the last brace pin.",
		"Hands clear of hinges, seams, arms, pins and pads while anything moves.",
		"A young roof hangs or stands on its supports: load nothing on it, slacken no hanger or shore while the carrier leaves.",
		"Young concrete breaks at its edges and falls: look it over and bring loose pieces down before anybody works beneath.",
		"While lifting, pack as it rises" + pass + "; nobody reaches under what a lifting jack alone holds up.",
		"Restraint on and wheels chocked before jack plates leave the invert.",
		"While rolling: nobody between carrier and concrete or in the snap-back zone of the pulling line or restraint.",
	}
}

// levelWords is the difference between jacks that the checks are made with, in
// the job's units.
func levelWords(j *job.Job) string {
	return atMost(allow.Of(j).Value("jack_level"), j.Job.Units == "imperial")
}

// passWords are the passes of lifting that the checks are made with, in the job's
// units; empty where the gear states none.
func passWords(j *job.Job, g *job.Gear) string {
	if g == nil || g.Lifting == nil {
		return ""
	}
	imperial := j.Job.Units == "imperial"
	pass := ", no pad ahead of any other by more than " + atMost(float64(g.Lifting.Pass), imperial)
	if last := g.Lifting.Last; last != nil {
		pass += ", in the last lift " + atMost(float64(*last), imperial)
	}
	return pass
}

// atMost prints metres for a crew to keep within: rounded down, so that what is
// printed is never more than what is proved.
func atMost(v float64, imperial bool) string {
	system := units.Metric
	if imperial {
		system = units.Imperial
	}
	m := units.Shown("m", system)
	return m.With(m.Down(v))
}

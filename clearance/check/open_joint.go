package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// jointDip is how far a wheel may sink into an open joint that it rolls over;
// judgement: about what it takes in its stride without being lifted out.
const jointDip = 0.002

// bridged is the widest joint that a wheel of a radius sinks into by no more than
// jointDip: the chord of that sagitta.
func bridged(radius float64) float64 { return 2 * math.Sqrt(jointDip*(2*radius-jointDip)) }

// jointChecks ask that the wheels roll over the joints of the invert: narrow ones by
// themselves, others only where somebody sees to it that they are closed.
func (r *route) jointChecks(s *model.Study) []Judged {
	gap := s.Culvert.JointGap
	if gap == 0 || len(s.Culvert.Pours) < 2 {
		return nil
	}
	radius := float64(r.bay.Carrier.Gear.Wheels.Diameter) / 2
	limit := Limit{Value: bridged(radius), Source: "geometry; a dip of 2 mm: judgement"}
	about := r.bay.subject(openJoints)
	if s.Job.Culvert.JointCover {
		return []Judged{entry("roll.support", about, nil, limit, result.Max, coverWords(r.bay.mm(gap)))}
	}
	text := fmt.Sprintf("the joints of the invert are open by %s; a wheel of %s sinks by no more than %s into one of %s: 2 sqrt(%s (%s - %s))",
		r.bay.mm(gap), r.bay.mm(2*radius), r.bay.mm(jointDip), r.bay.roundedDown(limit.Value), r.bay.mm(jointDip), r.bay.mm(2*radius), r.bay.mm(jointDip))
	c := candidate{Value: *result.Exactly(gap), where: r.bay.underway(), text: text, remedy: "close the joints flush before anything stands on them or rolls over them (culvert.joint_cover: true), or leave them narrower (culvert.joint_gap); larger wheels bridge more"}
	return []Judged{entry("roll.support", about, []candidate{c}, limit, result.Max, "").with(workedJoint(radius, gap))}
}

// coverWords say what is counted on where joints are said to be closed.
func coverWords(gap string) string {
	return fmt.Sprintf("joints of %s are counted as closed flush before anything stands on them or rolls over them (culvert.joint_cover)", gap)
}

// joints adds what a job counts on for its joints.
func (l *loosening) joints(j *job.Job) {
	if j.Culvert.JointCover && j.Culvert.JointGap > 0 {
		l.list = append(l.list, result.Looser{Key: "culvert.joint_cover", Value: 1, Unit: "1", Text: coverWords(l.said(units.KindLength, float64(j.Culvert.JointGap)))})
	}
}

package model

import (
	"fmt"

	"boxwalk/model/align"
	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// Bent tells whether a job's line is more than one tangent on one grade.
func Bent(j *job.Job) bool {
	a := j.Alignment
	return len(a.Plan) > 0 || len(a.Profile) > 0 || a.LandXML != ""
}

// LineOf is the line that a job describes by plan and profile; it is nil if there
// are any problems.
func LineOf(j *job.Job) (*align.Alignment, diag.Problems) {
	a := j.Alignment
	start := align.Start{Station: float64(a.Start.Station), Elevation: float64(a.Start.Elevation), Bearing: float64(a.Start.Bearing),
		Easting: float64(a.Start.Easting), Northing: float64(a.Start.Northing), Grade: float64(a.Grade)}
	var elements []align.Element
	for _, e := range a.Plan {
		elements = append(elements, element(e))
	}
	var profile []align.PVI
	for _, p := range a.Profile {
		v := align.PVI{Station: float64(p.Station), Elevation: float64(p.Elevation)}
		if p.Curve != nil {
			v.Curve = float64(*p.Curve)
		}
		profile = append(profile, v)
	}
	line, faults := align.New(start, elements, profile, float64(a.Crossfall))
	return line, ofLine(faults)
}

// ofLine are problems of the line at their keys in the job.
func ofLine(faults diag.Problems) diag.Problems {
	for i := range faults {
		if f := &faults[i]; f.Detail != "" {
			f.Summary, f.Detail = f.Summary+": "+f.Detail, ""
		}
	}
	return faults.Below(JobFile, "alignment")
}

func element(e job.PlanElement) align.Element {
	switch {
	case e.Tangent != nil:
		return align.Tangent(float64(*e.Tangent))
	case e.Turn != nil:
		return align.AnglePoint(float64(e.Turn.Angle))
	}
	radius := float64(e.Curve.Radius)
	if e.Curve.Turn == "right" {
		radius = -radius
	}
	return align.Arc(radius, float64(e.Curve.Length))
}

// Start is where the job's line starts: that of its file, or of the job.
func (s *Study) Start() job.AlignmentStart {
	if s.Line == nil {
		return s.Job.Alignment.Start
	}
	a := s.Line.Start()
	return job.AlignmentStart{Station: units.Station(a.Station), Elevation: units.Coordinate(a.Elevation), Bearing: units.Angle(a.Bearing),
		Easting: units.Coordinate(a.Easting), Northing: units.Coordinate(a.Northing)}
}

// shortLine is the fault of a line that ends before the last pour does.
func shortLine(j *job.Job, line *align.Alignment) diag.Problems {
	var need units.Length
	for _, l := range j.Culvert.Pours.Lengths() {
		need += l
	}
	if have := line.Length(); have < float64(need)-1e-3 {
		more := float64(need) - have
		f := diag.Problem{Key: "plan", Summary: "ends before the last pour does",
			Detail: fmt.Sprintf("the pours are %.3f m long together, the alignment %.3f m", float64(need), have),
			Fix:    fmt.Sprintf("make the last tangent %.3f m longer", more)}
		switch a := j.Alignment; {
		case a.LandXML != "":
			f.Key, f.Fix = "landxml", fmt.Sprintf("give a file whose plan and profile go on for %.3f m, or take pours away", more)
		case len(a.Plan) == 0:
			f.Key, f.Fix = "profile", fmt.Sprintf("put the last point %.3f m farther ahead", more)
		}
		return ofLine(diag.Problems{f})
	}
	return nil
}

// alongLine is the culvert of a job, on its line where it has one.
func alongLine(j *job.Job, line *align.Alignment) *culvert.Culvert {
	if line == nil {
		return culvert.New(j, nil)
	}
	return culvert.New(j, line)
}

// Package align is the alignment of a job: the centre of the whole box at the top
// of the invert, in plan (tangents, angle points, circular curves), in profile
// (grades, grade breaks, parabolic vertical curves) and with its crossfall.
//
// Distances along the alignment are measured in plan, as stations are: a length of
// one metre along the alignment rises by its grade and is longer by the secant of
// its slope. Lengths are metres, angles radians; a turn is positive to the
// left, a grade positive rising ahead. Everything is told in the job frame: its
// origin where the alignment starts, x ahead along the alignment's first direction in
// plan, y left, z up and plumb. Eastings, northings and elevations come in by
// one pose only, GroundFromJob.
package align

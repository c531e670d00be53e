package motion

// TrackJoint is where two planes of a track meet: a joint between two pours on a
// carrier's way, seen from the pour that the carrier leaves. Distances are in
// metres from that pour's origin, negative behind it; angles in radians.
type TrackJoint struct {
	At      float64 // along the track, horizontal
	Along   float64 // the same along the inverts, as a wheel rolls
	Station float64 // on the job's line from the inlet, before skew

	Turn  float64 // of the track in plan, positive left
	Break float64 // of the grade, the angle ahead less that behind, positive up
	Skew  float64 // of the joint from square to the mean of the two headings, positive: its left side farther ahead
	Grade float64 // ahead of it, rise over run
	Step  float64 // by how much the ground ahead stands above that behind, m
}

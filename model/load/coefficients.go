package load

// Coefficient is a published range of rolling resistance, force over load.
type Coefficient struct {
	Pair        string
	Least, Most float64
	Source      Source
}

// Coefficients returns published rolling coefficients in a fixed order. None is
// for a worn, loaded or dirty carrier wheel: the carrier's own, measured with a
// load cell, replaces them.
func Coefficients() []Coefficient {
	return []Coefficient{
		{"steel wheel on steel rail", 0.001, 0.003, Source{"engineeringtoolbox.com rolling friction (0.001 to 0.002); engineeringarchives.com (0.002 to 0.003)", Read}},
		{"steel wheel on dirty rail", 0.005, 0.005, Source{"engineeringtoolbox.com rolling friction, tram rail", Read}},
		{"rubber tyre on concrete", 0.01, 0.02, Source{"engineeringtoolbox.com; engineersedge.com", Read}},
		{"pneumatic tyre on hard road", 0.008, 0.008, Source{"Moyer, in Marks, as engineersedge.com has it", Read}},
		{"steel wheel on concrete, 2.5 x 36 in", 0.010, 0.010, Source{"McKibben and Davidson 1939, in Marks", Memory}},
		{"steel tyre, plain bearings, smooth concrete", 0.020, 0.020, Source{"Peurifoy, 40 lb per US ton", Memory}},
	}
}

// ArmRange is a published range of the lever arm of rolling friction.
type ArmRange struct {
	Pair        string
	Least, Most float64 // m
	Source      Source
}

// Arms returns published lever arms in a fixed order. The page gives no unit;
// inches were inferred because 0.02 in is the 0.5 mm of steel on steel.
func Arms() []ArmRange {
	source := Source{"nordengineeringdatabase.com rollingResForce; inches inferred", Read}
	return []ArmRange{
		{"steel on steel", 0.0005, 0.0005, source},
		{"polymer on steel", 0.002, 0.002, source},
		{"hard rubber on steel", 0.007, 0.007, source},
		{"polymer on concrete", 0.005, 0.005, source},
		{"hard rubber on concrete", 0.010, 0.020, source},
		{"medium rubber on concrete", 0.015, 0.035, source},
	}
}

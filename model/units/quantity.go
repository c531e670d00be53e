package units

// System is the system of units a job is written in. It decides the unit of a
// number without one, the form of a station, and how values are written back.
// The zero value is Metric.
type System uint8

// The two systems.
const (
	Metric System = iota
	Imperial
)

// String returns the word a job file uses: metric or imperial.
func (s System) String() string {
	if s == Imperial {
		return "imperial"
	}
	return "metric"
}

// Quantity is implemented by every single-valued type of this package.
type Quantity interface {
	// Kind tells which quantity the type is.
	Kind() Kind
}

// The quantities, each a float64 in the unit stated.
type (
	// Length is a distance in metres.
	Length float64
	// Coordinate is an easting or northing in metres. It is a length with a
	// range wide enough for any national grid.
	Coordinate float64
	// Station is a distance along the line of the job in metres, written
	// 1+234.5 (metric, 1234.5 m) or 12+34.5 (imperial, 1234.5 ft).
	Station float64
	// Angle is an angle in radians.
	Angle float64
	// Slope is rise over run.
	Slope float64
	// Force is a force in kilonewtons.
	Force float64
	// Mass is a mass in kilograms.
	Mass float64
	// Duration is a time span in seconds.
	Duration float64
	// UnitWeight is a weight per volume in kN/m3.
	UnitWeight float64
	// Temperature is in degrees Celsius.
	Temperature float64
	// Pressure is a pressure, stress or strength in kPa.
	Pressure float64
	// Rate is a speed in m/s, such as the rise of concrete in a form.
	Rate float64
	// Moment is a moment in kN m.
	Moment float64
	// Area is that of a section in m2.
	Area float64
	// Inertia is a second moment of area in m4.
	Inertia float64
	// Number is a pure number.
	Number float64
)

// Kind returns KindLength.
func (Length) Kind() Kind { return KindLength }

// Kind returns KindCoordinate.
func (Coordinate) Kind() Kind { return KindCoordinate }

// Kind returns KindStation.
func (Station) Kind() Kind { return KindStation }

// Kind returns KindAngle.
func (Angle) Kind() Kind { return KindAngle }

// Kind returns KindSlope.
func (Slope) Kind() Kind { return KindSlope }

// Kind returns KindForce.
func (Force) Kind() Kind { return KindForce }

// Kind returns KindMass.
func (Mass) Kind() Kind { return KindMass }

// Kind returns KindDuration.
func (Duration) Kind() Kind { return KindDuration }

// Kind returns KindUnitWeight.
func (UnitWeight) Kind() Kind { return KindUnitWeight }

// Kind returns KindTemperature.
func (Temperature) Kind() Kind { return KindTemperature }

// Kind returns KindPressure.
func (Pressure) Kind() Kind { return KindPressure }

// Kind returns KindRate.
func (Rate) Kind() Kind { return KindRate }

// Kind returns KindMoment.
func (Moment) Kind() Kind { return KindMoment }

// Kind returns KindArea.
func (Area) Kind() Kind { return KindArea }

// Kind returns KindInertia.
func (Inertia) Kind() Kind { return KindInertia }

// Kind returns KindNumber.
func (Number) Kind() Kind { return KindNumber }

// Size2 is the size of a rectangle in metres, such as a haunch: X is the run
// (or the first number written), Y the rise.
type Size2 struct{ X, Y Length }

// Size3 is the size of a block in metres, such as a plate of 200 x 200 x 20 mm.
type Size3 struct{ X, Y, Z Length }

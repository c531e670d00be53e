package load

import "boxwalk/model/units"

// Exact by definition: foot 0.3048 m, pound 0.45359237 kg, standard gravity
// 9.80665 m/s² (NIST SP 811, app. B; 3rd CGPM 1901).
const (
	foot  = 0.3048                  // m
	inch  = foot / 12               // m
	pound = 0.45359237 * 9.80665e-3 // kN, a pound-force
	psf   = pound / (foot * foot)   // kPa
	pcf   = psf / foot              // kN/m³
	hour  = 3600.0                  // s
	day   = 24 * hour               // s
	mpa   = 1000.0                  // kPa
	plf   = pound / foot            // kN/m
)

func perHour(r units.Rate) float64 { return float64(r) * hour }

func days(d units.Duration) float64 { return float64(d) / day }

func fahrenheit(t units.Temperature) float64 { return float64(t)*9/5 + 32 }

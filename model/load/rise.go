package load

import (
	"errors"

	"boxwalk/model/units"
)

// Delivery is concrete placed per hour, m³/h.
type Delivery float64

// DeliveryOf returns what a number of mixers or trucks bring: batch volume (m³)
// times their number over the time of one batch (derived; checked against US
// Army EN5151 Part C).
func DeliveryOf(batch float64, every units.Duration, mixers int) (Delivery, error) {
	err := errors.Join(
		above("batch", batch, 0, 1e3, "m³"),
		above("time per batch", float64(every), 0, 100*day, "s"),
		within("mixers", float64(mixers), 1, 1000, ""))
	if err != nil {
		return 0, err
	}
	perHour := batch * float64(mixers) * hour / float64(every)
	return answer("delivery", Delivery(perHour), perHour)
}

// RiseRate returns how fast concrete rises in walls of that plan length and
// thickness, both walls of a carrier's cell counted by the caller: delivery
// over plan area (derived; checked against US Army EN5466 p. 3-13).
func RiseRate(d Delivery, length, thickness units.Length) (units.Rate, error) {
	err := errors.Join(
		above("delivery", float64(d), 0, 1e4, "m³/h"),
		above("plan length", float64(length), 0, mostLength, "m"),
		above("thickness", float64(thickness), 0, mostLength, "m"))
	if err != nil {
		return 0, err
	}
	rate := float64(d) / hour / (float64(length) * float64(thickness))
	return answer("rate of rise", units.Rate(rate), rate)
}

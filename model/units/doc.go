// Package units holds the quantities of a job as named numbers in SI and
// reads and writes them the way people on site do: 10'-6 1/2", 3.05 m,
// 150 mm, 1.8 %, 1:20, 20 deg, 140 pcf, 18 kN, 65 degF, 0+026.
//
// Inside the program every quantity is a float64 in the unit its type states.
// Text is turned into such a number by [Parse] and back by [Kind.Text]; both
// are total and deterministic. Parse never returns NaN, an infinity or a value
// outside the sane range of its kind, and each of its errors names the reason
// and a text that would have worked.
package units

package clearance

// Cautions stand on every drawing, card and report.
var Cautions = []string{
	"Check before use by a qualified engineer. Local codes, the project specification and the engineer of record govern; these numbers do not replace them.",
	"Do not release until the strength or time shown has been confirmed in writing.",
	"Before the wheels carry: only named persons at marked stations, outside panel swing and filler drop; one signaller; passes of at most 10 mm.",
	"Filler pieces are secured before they are unbolted.",
	"Wall panels press inward once the bond breaks: never pull the last brace pin.",
	"Hold-back on and wheels chocked before jack plates leave the invert.",
	"While rolling: nobody between carrier and concrete or in the line's snap-back zone.",
	"Inspect before, during and after placing.",
}

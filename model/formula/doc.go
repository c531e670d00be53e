// Package formula is the small language in which a working is written: what a value
// is worked out from, so that it can be evaluated, set in print, and done again by
// hand. Numbers, symbols (C_w, p_max, Delta_h), + - * / ^ ( ), unary minus, and the
// functions sqrt, min, max, sin, cos, tan, exp, ln and abs. Angles are in radians;
// pi is known. A formula has no units and no hidden factors: those of its symbols
// have to go together.
//
// A power binds tighter than a minus before it and goes from the right, as in print:
// -a^2 is -(a^2), a^b^c is a^(b^c). All else goes from the left.
package formula

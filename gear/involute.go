package gear

import "math"

// Involute returns inv(a) = tan(a) - a for a pressure angle in radians, from 0
// to below pi/2.
func Involute(a float64) float64 { return math.Tan(a) - a }

// InverseInvolute returns the pressure angle in radians whose involute is v.
// Below v = 0, where there is none, it returns 0. Newton from (3 v)^(1/3), the
// first term of the series, or from pi/2 - 1/(v + pi/2) for large v; the result
// is within 1e-11 of the true angle (FuzzInverseInvolute).
func InverseInvolute(v float64) float64 {
	if !(v > 0) {
		return 0
	}
	a := math.Cbrt(3 * v)
	if v > 0.5 {
		a = math.Pi/2 - 1/(v+math.Pi/2)
	}
	for range 50 {
		t := math.Tan(a)
		step := (t - a - v) / (t * t)
		a -= step
		if math.Abs(step) <= 1e-16*a {
			break
		}
	}
	return a
}

package linkage

import (
	"math"
	"sort"
)

// A monotone is a curve through points of rising x and strictly rising or
// falling y that turns nowhere in between: cubics whose slopes are limited as
// Fritsch and Carlson, "Monotone piecewise cubic interpolation", SIAM J. Numer.
// Anal. 17 (1980) 238, give it (from memory).
type monotone struct{ x, y, slope []float64 }

// newMonotone takes at least two points, x rising.
func newMonotone(x, y []float64) monotone {
	n := len(x)
	m := monotone{x, y, make([]float64, n)}
	secant := make([]float64, n-1)
	for i := range secant {
		secant[i] = (y[i+1] - y[i]) / (x[i+1] - x[i])
	}
	m.slope[0], m.slope[n-1] = secant[0], secant[n-2]
	if n > 2 {
		m.slope[0] = endSlope(x[1]-x[0], x[2]-x[1], secant[0], secant[1])
		m.slope[n-1] = endSlope(x[n-1]-x[n-2], x[n-2]-x[n-3], secant[n-2], secant[n-3])
	}
	for i := 1; i < n-1; i++ { // the parabola through three points
		h, k := x[i]-x[i-1], x[i+1]-x[i]
		m.slope[i] = (k*secant[i-1] + h*secant[i]) / (h + k)
	}
	for i, d := range secant {
		a, b := m.slope[i]/d, m.slope[i+1]/d
		if length := math.Hypot(a, b); length > 3 {
			m.slope[i], m.slope[i+1] = 3/length*a*d, 3/length*b*d
		}
	}
	return m
}

// endSlope is the slope at the end of the parabola through three points, or 0
// where that would turn back.
func endSlope(h, k, near, far float64) float64 {
	s := near + (near-far)*h/(h+k)
	if s*near < 0 {
		return 0
	}
	return s
}

// at returns y at x; outside the points it stays at the nearest.
func (m monotone) at(x float64) float64 {
	n := len(m.x)
	if x <= m.x[0] {
		return m.y[0]
	}
	if x >= m.x[n-1] {
		return m.y[n-1]
	}
	i := sort.SearchFloat64s(m.x, x)
	h := m.x[i] - m.x[i-1]
	t := (x - m.x[i-1]) / h
	s := 1 - t
	return m.y[i-1]*s*s*(1+2*t) + m.y[i]*t*t*(3-2*t) + h*s*t*(s*m.slope[i-1]-t*m.slope[i])
}

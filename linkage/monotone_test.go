package linkage

import "testing"

// Steps and flats, where a parabola's slopes overshoot: the curve passes its points
// and never turns back between them (Fritsch and Carlson's condition).
func TestMonotoneDoesNotOvershoot(t *testing.T) {
	for _, y := range [][]float64{{0, 0.01, 1, 1.01}, {0, 10, 10.1, 10.2, 20}, {5, 4.999, 0, -0.001}} {
		x := make([]float64, len(y))
		for i := range x {
			x[i] = float64(i * i)
		}
		m := newMonotone(x, y)
		way := y[len(y)-1] - y[0]
		last := m.at(x[0])
		for i := range 2001 {
			at := x[len(x)-1] * float64(i) / 2000
			v := m.at(at)
			if (v-last)*way < 0 {
				t.Fatalf("%v turns back at %v: %v after %v", y, at, v, last)
			}
			last = v
		}
		for i := range x {
			if m.at(x[i]) != y[i] {
				t.Errorf("%v passes %v at %v", y, m.at(x[i]), x[i])
			}
		}
	}
}

// A straight line stays one, and a parabola is met to the accuracy of cubics.
func TestMonotoneFollows(t *testing.T) {
	x := []float64{0, 1, 2.5, 4}
	line, square := make([]float64, 4), make([]float64, 4)
	for i, v := range x {
		line[i], square[i] = 3*v-1, (v+1)*(v+1)
	}
	for _, at := range []float64{0.3, 1.7, 3.9} {
		if got := newMonotone(x, line).at(at); got-(3*at-1) > 1e-12 || got-(3*at-1) < -1e-12 {
			t.Errorf("line at %v: %v", at, got)
		}
		if got, want := newMonotone(x, square).at(at), (at+1)*(at+1); got-want > 1e-9 || got-want < -1e-9 {
			t.Errorf("parabola at %v: %v, want %v", at, got, want)
		}
	}
}

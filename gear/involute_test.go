package gear

import (
	"math"
	"testing"
)

// Closed forms: tan 45 deg = 1 and tan 60 deg = sqrt 3 in inv(a) = tan(a) - a.
func TestInvolute(t *testing.T) {
	for _, test := range []struct{ a, want float64 }{
		{0, 0}, {math.Pi / 4, 1 - math.Pi/4}, {math.Pi / 3, math.Sqrt(3) - math.Pi/3},
	} {
		near(t, "Involute", Involute(test.a), test.want, 1e-15)
	}
	if got := InverseInvolute(-0.1); got != 0 {
		t.Errorf("InverseInvolute(-0.1) = %g, want 0", got)
	}
}

// Undoing the involute gives the angle back over the whole range that flanks
// and pins use. Near 0 the involute itself loses digits: tan(a) - a is a^3/3.
func FuzzInverseInvolute(f *testing.F) {
	for _, deg := range []float64{0.1, 1, 14.5, 20, 25, 45, 60, 80, 89} {
		f.Add(deg * degree)
	}
	f.Fuzz(func(t *testing.T, a float64) {
		if !(a >= 1e-3 && a <= 1.55) {
			t.Skip("no flank or pin uses this angle")
		}
		if back := InverseInvolute(Involute(a)); math.Abs(back-a) > 1e-11+1e-16/(a*a) {
			t.Errorf("InverseInvolute(Involute(%.17g)) = %.17g", a, back)
		}
	})
}

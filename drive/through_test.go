package drive_test

import (
	"math"
	"testing"

	"pintle/drive"
)

// A servo turned through a function of an even ratio is the same drive as one
// with the ratio.
func TestThroughEvenRatio(t *testing.T) {
	even := figures()["striker"]
	through := even
	through.Ratio = 0
	through.Through = func(deg float64) (float64, float64) { return deg * even.Ratio, even.Ratio }
	a, b := size(t, even).Values(), size(t, through).Values()
	for name, want := range b {
		if got := a[name]; got != want {
			t.Errorf("%s = %v, want %v", name, got, want)
		}
	}
	if a, b := size(t, even), size(t, through); a.SpareTravelDeg() != b.SpareTravelDeg() {
		t.Errorf("spare travel %v and %v", a.SpareTravelDeg(), b.SpareTravelDeg())
	}
}

// By hand: the servo stands at 10 + joint + joint²/100 deg, so that its angle
// per angle of the joint is 1 + joint/50. At the ends of a swing of 45 deg,
// -22.5 and 22.5, it stands at -7.4375 and 37.5625; of a travel of -45..45 the
// end 45 is nearer. The ratio is least, 0.55, at the low end, and there the held
// torque m g r / (0.55 x 0.9) is the greatest.
func TestThroughUnevenRatio(t *testing.T) {
	s := figures()["heron"]
	s.Through = func(deg float64) (float64, float64) { return 10 + deg + deg*deg/100, 1 + deg/50 }
	d := size(t, s)
	const tol = 1e-12
	for name, test := range map[string]struct{ got, want float64 }{
		"used travel":  {d.UsedTravelDeg(), 45},
		"spare travel": {d.SpareTravelDeg(), 45 - 37.5625},
		"held torque":  {d.Values()["servo_held_torque"].(float64), 0.18 * drive.Gravity * 0.095 / (0.55 * 0.9)},
	} {
		if math.Abs(test.got-test.want) > tol {
			t.Errorf("%s = %v, want %v", name, test.got, test.want)
		}
	}
	// The highest servo speed is where speed times ratio is: v = peak sin, ratio
	// rising; it must exceed the peak joint speed and stay below 1.45 times it.
	v := d.Values()
	peak, servo := v["peak_speed_deg_s"].(float64), v["servo_peak_speed_deg_s"].(float64)
	if servo <= peak || servo >= 1.45*peak {
		t.Errorf("servo speed %v for a joint speed of %v", servo, peak)
	}
}

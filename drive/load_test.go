package drive_test

import (
	"math"
	"testing"

	"pintle/drive"
)

// The inertia of a body is the sum of its points' (definition): each shape is
// cut into many and summed.
func TestInertiaBySumming(t *testing.T) {
	const mass, n = 1.7, 400
	var disc, tube, rod, box, discMass, tubeMass float64
	for i := range n {
		share := (float64(i) + 0.5) / n
		rod += drive.Point(mass/n, 80*share)
		r := 50 * share
		disc, discMass = disc+drive.Point(r, r), discMass+r // rings weigh as their radius
		if r > 20 {
			tube, tubeMass = tube+drive.Point(r, r), tubeMass+r
		}
		for j := range n {
			y := 60 * ((float64(j)+0.5)/n - 0.5)
			box += drive.Point(mass/n/n, math.Hypot(40*(share-0.5), y))
		}
	}
	for _, test := range []struct {
		shape     string
		got, want float64
	}{
		{"disc", drive.Disc(mass, 50), disc * mass / discMass},
		{"tube", drive.Tube(mass, 20, 50), tube * mass / tubeMass},
		{"rod", drive.Rod(mass, 80), rod},
		{"box", drive.Box(mass, 40, 60), box},
		{"rod about its end from its middle", drive.Shifted(drive.Box(mass, 80, 0), mass, 40), rod},
	} {
		if math.Abs(test.got-test.want) > 1e-4*test.want {
			t.Errorf("%s: %.8g, by summing %.8g kg·m²", test.shape, test.got, test.want)
		}
	}
}

// Constants as their sources have them; the torque is worked by hand:
// 0.5 x 0.0018 x 18.63 N x 0.017 m.
func TestConstants(t *testing.T) {
	got := map[string]float64{
		"speed of 0.15 s/60deg": drive.SpeedFrom60(0.15) * math.Pi / 180,
		"mu deep groove ball":   drive.MuDeepGroove,
		"mu thrust ball":        drive.MuThrustBall,
		"mu tapered roller":     drive.MuTaperedRoller,
		"kgf.cm":                drive.Gravity / 100,
	}
	for _, row := range reference(t, "drive_constants.csv") {
		if want := number(t, row[1]); math.Abs(got[row[0]]-want) > 1e-12 {
			t.Errorf("%s = %.12g, want %.12g", row[0], got[row[0]], want)
		}
	}
	if m := drive.BearingTorque(drive.MuTaperedRoller, 18.63, 17); math.Abs(m-2.850e-4) > 1e-7 {
		t.Errorf("bearing torque %g N·m", m)
	}
}

func TestServoPulse(t *testing.T) {
	for _, s := range []drive.Servo{{Points: points(-90, 10, 90)}, {Points: points(90, 10, -90)}} {
		if s.Travel() != 180 {
			t.Errorf("travel %g", s.Travel())
		}
		for _, p := range s.Points {
			if got, ok := s.Pulse(p.AngleDeg); !ok || got != p.PulseMicroseconds {
				t.Errorf("pulse for %g deg = %g, %v", p.AngleDeg, got, ok)
			}
		}
		if got, ok := s.Pulse(50); !ok || math.Abs(got-1500) < 400 { // half way from 10 to 90
			t.Errorf("pulse for 50 deg = %g, %v", got, ok)
		}
		if _, ok := s.Pulse(90.1); ok {
			t.Error("a pulse for an angle beyond the travel")
		}
	}
}

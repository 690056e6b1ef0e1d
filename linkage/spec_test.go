package linkage_test

import (
	"math"
	"testing"

	"pintle/drive"
	"pintle/linkage"
)

// A servo measured from -30 to 60 deg turns a horn with neutral 90 from 60 to 150
// deg, or clockwise from 30 to 120, and its pulses follow.
func TestTravelFromServo(t *testing.T) {
	for clockwise, want := range map[bool][2]float64{false: {60, 150}, true: {30, 120}} {
		spec := heron()
		spec.SwingDeg, spec.Motion = 0, nil
		spec.Servo.Points = []drive.PulsePoint{{PulseMicroseconds: 1200, AngleDeg: -30}, {PulseMicroseconds: 1500}, {PulseMicroseconds: 2100, AngleDeg: 60}}
		spec.Servo.Clockwise = clockwise
		s := stroke(t, spec)
		if got := [2]float64{s.Spec().FromDeg, s.Spec().ToDeg}; got != want {
			t.Errorf("clockwise %v: the horn travels %v, want %v", clockwise, got, want)
		}
		table, ok := s.Pulses()
		if !ok {
			t.Fatal("no table")
		}
		for _, row := range table.Rows {
			angle := row.HornDeg - 90
			if clockwise {
				angle = -angle
			}
			// Both halves of the servo have 10 and 10 µs/deg: 300/30, 600/60.
			if math.Abs(row.PulseMicroseconds-(1500+10*angle)) > 1e-9 {
				t.Errorf("clockwise %v: %v µs at %v deg", clockwise, row.PulseMicroseconds, row.HornDeg)
			}
		}
	}
}

// A load 30 deg above level in the middle of its swing: 10 deg on it stands at 40
// where it rises with the lever and at 20 where it sinks (m g r cos, by hand). What
// pulls beside gravity adds; the servo bears both times the ratio over 0.9.
func TestHoldingTorqueByHand(t *testing.T) {
	for sinks, elevation := range map[bool]float64{false: 40, true: 20} {
		spec := heron()
		spec.Load = &linkage.Load{Load: drive.Load{Mass: 0.18, Offset: 95, Axis: drive.Horizontal, PostureKnown: true, MiddleDeg: 30, ExtraTorque: 0.05}, Sinks: sinks}
		s := stroke(t, spec)
		used := s.Used()
		middle := (used.LeverFromDeg + used.LeverToDeg) / 2
		want := 0.18 * drive.Gravity * 0.095 * math.Cos(elevation*deg)
		if got := s.GravityAt(middle + 10); math.Abs(got-want) > 1e-12 {
			t.Errorf("sinks %v: %v N·m, want %v", sinks, got, want)
		}
		horn, _ := s.HornFor(middle + 10)
		st, _ := s.At(horn)
		if got := s.HoldingTorque(st); math.Abs(got-(want+0.05)*st.Ratio/0.9) > 1e-9 {
			t.Errorf("sinks %v: the servo bears %v", sinks, got)
		}
		// From 7.5 to 52.5 deg of elevation the load falls m g r (sin - sin).
		fall := 0.18 * drive.Gravity * 0.095 * (math.Sin(52.5*deg) - math.Sin(7.5*deg))
		if got := s.FallEnergy(); math.Abs(got-fall) > 1e-6 {
			t.Errorf("falls through %v J, want %v", got, fall)
		}
	}
	// Where the posture is not known the middle of the swing is taken level.
	if got, want := stroke(t, heron()).FallEnergy(), 2*0.18*drive.Gravity*0.095*math.Sin(22.5*deg); math.Abs(got-want) > 1e-9 {
		t.Errorf("falls through %v J, want %v", got, want)
	}
}

// A stall torque stated for 6 V on a supply of 4.8 V pulls 0.8 times as hard.
func TestStalledForceFollowsTheSupply(t *testing.T) {
	full, low := heron(), heron()
	low.Servo.StatedVoltage, low.Servo.SupplyVoltage = 6, 4.8
	a, b := stroke(t, full), stroke(t, low)
	at, _ := a.At(90)
	if ratio := b.StalledRodForce(at) / a.StalledRodForce(at); math.Abs(ratio-0.8) > 1e-12 {
		t.Errorf("ratio %v", ratio)
	}
}

// The angle between horn and rod by its own sign: 20/60/50/70 at 0 deg has the rod
// at cos = 0.6 from the line, so that the horn, seen from its pin, stands at
// cos = -0.6 to it (by hand).
func TestHornAngleSide(t *testing.T) {
	p, _ := linkage.FourBar{Horn: 20, Rod: 60, Lever: 50, Frame: 70}.At(0)
	if got := math.Cos(p.HornAngle); math.Abs(got+0.6) > 1e-12 {
		t.Errorf("cos nu = %v, want -0.6", got)
	}
}

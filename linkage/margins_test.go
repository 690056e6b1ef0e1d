package linkage_test

import (
	"math"
	"testing"

	"pintle/drive"
	"pintle/linkage"
)

// 45/40/50/90 locks at 75.522488 deg to both sides: the margin is counted to the
// nearer end of the travel, whichever that is.
func TestDeadPointMarginBothEnds(t *testing.T) {
	spec := linkage.Spec{FourBar: linkage.FourBar{Horn: 45, Rod: 40, Lever: 50, Frame: 90}}
	for _, test := range []struct{ from, to, want float64 }{
		{-60, 40, 15.522488}, {-40, 60, 15.522488}, {-70.5, 70, 5.022488},
	} {
		spec.FromDeg, spec.ToDeg = test.from, test.to
		if got, _ := stroke(t, spec).DeadPointMargin(); math.Abs(got-test.want) > 1e-5 {
			t.Errorf("%v to %v: margin %v, want %v", test.from, test.to, got, test.want)
		}
	}
}

// By hand: 10 µs of dead band at 45 deg per 500 µs are 0.9 deg of servo; times the
// velocity ratio that is what the joint has of it. A pivot that gives 0.3 mm along
// the rod, the pin held, turns the lever about that pin: 0.3/(30 sin mu), and the
// tip 100 mm beyond the pivot moves by that turn and by the pivot's own way.
func TestPlayOfServoAndPivot(t *testing.T) {
	spec := heron()
	spec.Servo.DeadBand, spec.TipRadius, spec.PivotPlay = 10, 100, 0.3
	s := stroke(t, spec)
	st, _ := s.At(50)
	jointDeg, tip := linkage.TotalPlay(s.Plays(st))
	pivot := 0.3 / (30 * math.Sin(st.TransmissionDeg*deg))
	if math.Abs(jointDeg-0.9*st.Ratio-pivot/deg) > 1e-12 || math.Abs(tip-(0.9*st.Ratio*deg*100+100*pivot+0.3)) > 1e-12 {
		t.Errorf("%v deg, %v mm", jointDeg, tip)
	}
	if f := finding(t, s, "joint-resolution"); math.Abs(f.Value-0.9*s.Values()["ratio_max"].(float64)) > 1e-12 {
		t.Errorf("resolution %v", f.Value)
	}
}

// A servo whose second half gives other angles has a break at its middle point:
// the table has a row there, exactly.
func TestPulseTableKeepsTheBreak(t *testing.T) {
	spec := heron()
	spec.Servo.Points[2].AngleDeg = 30
	spec.NeutralDeg, spec.SwingDeg = 91.3, 35
	table, ok := stroke(t, spec).Pulses()
	if !ok {
		t.Fatal("no table")
	}
	found := false
	for _, row := range table.Rows {
		found = found || math.Abs(row.HornDeg-91.3) < 1e-9 && math.Abs(row.PulseMicroseconds-1500) < 1e-6
	}
	if !found {
		t.Errorf("no row at the measured point: %v", table.Rows)
	}
}

// On a clockwise servo the neutral pulse that takes up what the spline leaves goes
// the other way: 5.6 deg short, anticlockwise, is 62 µs less.
func TestSplineOfClockwiseServo(t *testing.T) {
	spec := heron()
	spec.Servo.Clockwise, spec.Servo.SplineTeeth, spec.Servo.Tried, spec.Servo.TriedDeg = true, 25, true, 70
	f := finding(t, stroke(t, spec), "horn-spline")
	if want := "take 1438 µs for neutral"; len(f.Remedy) < len(want) || f.Remedy[:len(want)] != want {
		t.Errorf("remedy %q, want %q", f.Remedy, want)
	}
}

// A motor by hand at one station: level load of 0.4 kg at 60 mm, 0.2354 N·m, and
// 1.44e-3 kg·m² times the lever's acceleration at 60 rpm, both times the ratio;
// over the efficiency where they resist, as they are where they drive. A sinking
// load drives where a rising one resists.
func TestMotorTorqueByHand(t *testing.T) {
	spec := ferrywoman()
	spec.Motor = &linkage.Motor{StallTorque: 1, RPM: 60}
	for _, sinks := range []bool{false, true} {
		spec.Load = &linkage.Load{Load: drive.Load{Mass: 0.4, Offset: 60, Axis: drive.Horizontal, BearingFriction: 0.01}, Sinks: sinks}
		s := stroke(t, spec)
		side := 1.0
		if sinks {
			side = -1
		}
		for i, torque := range s.MotorTorques() {
			st := s.Stations()[i]
			want := (side*0.4*drive.Gravity*0.06 + 0.4*0.06*0.06*st.Acceleration*4*math.Pi*math.Pi) * st.Ratio
			if want > 0 {
				want /= 0.9
			}
			want += 0.01 * math.Abs(st.Ratio) / 0.9
			if math.Abs(torque-want) > 1e-12 {
				t.Fatalf("sinks %v at %v deg: %v, want %v", sinks, st.HornDeg, torque, want)
			}
		}
	}
}

// Forces in a rod that stands 30 deg out of its plane are 1/cos 30 of those in the
// plane.
func TestOffsetRodBearsMore(t *testing.T) {
	straight, offset := heron(), heron()
	offset.Rod = straight.Rod / math.Cos(30*deg)
	offset.Offset = offset.Rod * math.Sin(30*deg)
	a := stroke(t, straight).Values()["rod_force_n"].(float64)
	b := stroke(t, offset).Values()["rod_force_n"].(float64)
	if math.Abs(b/a-1/math.Cos(30*deg)) > 1e-9 {
		t.Errorf("%v N and %v N", a, b)
	}
}

// The lever of a full turn swings between its limit positions exactly, not between
// the stations nearest to them: 98.213211 and 145.952268 deg for 20/60/50/70
// (closed form).
func TestLeverRangeIsExact(t *testing.T) {
	spec := linkage.Spec{FourBar: linkage.FourBar{Horn: 20, Rod: 60, Lever: 50, Frame: 70}, Turning: true, Stations: 40}
	lo, hi := stroke(t, spec).LeverRange()
	if math.Abs(lo-98.213211) > 1e-6 || math.Abs(hi-145.952268) > 1e-6 {
		t.Errorf("from %v to %v", lo, hi)
	}
}

package drive_test

import (
	"math"
	"testing"

	"pintle/check"
	"pintle/drive"
)

// A task met through a ratio is the drive sized with it.
func TestTaskIsSize(t *testing.T) {
	for name, s := range figures() {
		task, err := drive.NewTask(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, ratio := range []float64{0.4, 1, 1.5, 2.5, 4} {
			s.Ratio = ratio
			want, got := size(t, s), task.WithRatio(ratio, s.Efficiency)
			if got.PeakShare() != want.PeakShare() || got.HeldShare() != want.HeldShare() || got.SpeedShare() != want.SpeedShare() || got.SpareTravelDeg() != want.SpareTravelDeg() {
				t.Errorf("%s through %g: %+v, sized %+v", name, ratio, got, want)
			}
			excluded := ""
			for _, i := range []int{2, 0} {
				if f := want.Findings()[i]; f.Verdict == check.Fail {
					excluded = f.Check
				}
			}
			if name := task.Excluded(ratio, s.Efficiency); name != excluded {
				t.Errorf("%s through %g: excluded by %q, want %q", name, ratio, name, excluded)
			}
			for i, f := range want.Findings()[:4] {
				if got.Verdicts()[i] != f.Verdict {
					t.Errorf("%s through %g: %s is %s, found %s", name, ratio, f.Check, got.Verdicts()[i], f.Verdict)
				}
			}
		}
	}
}

// A servo on 5 V whose figures hold at 6 V has 5/6 of torque and speed (derived
// for a direct-current motor); on 7.2 V its figures are a guess.
func TestSupplyVoltage(t *testing.T) {
	s := figures()["heron"]
	plain := size(t, s)
	s.Servo.StatedVoltage, s.Servo.SupplyVoltage = 6, 5
	weak := size(t, s)
	if got, want := weak.PeakShare(), plain.PeakShare()*6/5; math.Abs(got-want) > 1e-12 {
		t.Errorf("peak share %.6f, want %.6f", got, want)
	}
	if got, want := weak.Values()["servo_no_load_deg_s"].(float64), 60/0.17*5/6; math.Abs(got-want) > 1e-9 {
		t.Errorf("%.3f deg/s, want %.3f", got, want)
	}
	if f := finding(t, weak, "servo-voltage"); f.Verdict != check.Pass {
		t.Errorf("5 V of 6 V: %s", f.Verdict)
	}
	s.Servo.SupplyVoltage = 7.2
	if f := finding(t, size(t, s), "servo-voltage"); f.Verdict != check.Caution || f.Value != 1.2 {
		t.Errorf("7.2 V of 6 V: %g is %s", f.Value, f.Verdict)
	}
}

func finding(t *testing.T, d *drive.Drive, name string) check.Finding {
	t.Helper()
	for _, f := range d.Findings() {
		if f.Check == name {
			return f
		}
	}
	t.Fatalf("no finding %s", name)
	return check.Finding{}
}

// The striker's step-up of 2 doubles play and dead band: 4 µs of 1000 µs for 90
// deg of its servo are 0.36 deg (worked by hand); its blow wants a cushion.
func TestStepUp(t *testing.T) {
	s := figures()["striker"]
	s.Servo = drive.Servo{StallTorque: 0.92, SpeedDegPerS: 353, Points: points(-45, 0, 45), DeadBand: 8, PlayDeg: 0.5}
	s.PlayDeg, s.Motion.Strikes = 0.764, true
	d := size(t, s)
	if got := d.ResolutionDeg(); math.Abs(got-2*0.36) > 1e-12 {
		t.Errorf("resolution %.4f deg, want 0.72", got)
	}
	f := finding(t, d, "joint-lost-motion")
	if math.Abs(f.Value-1.764) > 1e-12 || f.Verdict != check.Note || f.Remedy == "" {
		t.Errorf("lost motion %g is %s: %s", f.Value, f.Verdict, f.Remedy)
	}
	s.LostMotionLimitDeg = 1.7
	if f := finding(t, size(t, s), "joint-lost-motion"); f.Verdict != check.Caution {
		t.Errorf("above its limit of 1.7: %s", f.Verdict)
	}
	if f := finding(t, d, "strike"); f.Verdict != check.Caution || f.Remedy == "" {
		t.Errorf("strike: %+v", f)
	}
}

// A cable that pulls with the weight adds to it, one that pulls against it takes
// from it; where the posture is not known both count against the servo.
func TestCableTorque(t *testing.T) {
	for _, test := range []struct {
		name  string
		known bool
		axis  drive.Axis
		cable float64
		want  float64 // N·m held at the joint; weight alone 2 kg x g x 100 mm = 1.96133
	}{
		{"with the weight", true, drive.Horizontal, 0.5, 2.46133},
		{"against the weight", true, drive.Horizontal, -0.5, 1.46133},
		{"against, posture not known", false, drive.Horizontal, -0.5, 2.46133},
		{"axis upright", false, drive.Vertical, -0.5, 0.5},
	} {
		s := figures()["heron"]
		s.Load = drive.Load{Mass: 2, Offset: 100, Axis: test.axis, PostureKnown: test.known, CableTorque: test.cable}
		s.Motion = drive.Motion{SwingDeg: 1, Time: 1000, Law: drive.Cosine, Hold: true}
		got := size(t, s).Values()["servo_held_torque"].(float64) * s.Ratio * s.Efficiency
		if math.Abs(got-test.want) > 1e-4 {
			t.Errorf("%s: %.5f N·m, want %.5f", test.name, got, test.want)
		}
	}
}

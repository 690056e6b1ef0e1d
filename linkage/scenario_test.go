package linkage_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/drive"
	"pintle/linkage"
)

const kgfcm = 0.0980665 // N·m

func servo(stall, seconds60, end float64) *linkage.Servo {
	return &linkage.Servo{Servo: drive.Servo{
		StallTorque: stall, SpeedDegPerS: drive.SpeedFrom60(seconds60),
		Points: []drive.PulsePoint{{PulseMicroseconds: 1000, AngleDeg: -end}, {PulseMicroseconds: 1500}, {PulseMicroseconds: 2000, AngleDeg: end}},
	}}
}

// The figures, each with horn and lever square to the line of the axes at
// neutral, so that the rod is sqrt(frame² + (lever - horn)²).
func heron() linkage.Spec {
	return linkage.Spec{
		FourBar:    linkage.FourBar{Horn: 20, Rod: 90.55, Lever: 30, Frame: 90},
		NeutralDeg: 90, SwingDeg: 45, Servo: servo(9.4*kgfcm, 0.17, 45),
		Load:   &linkage.Load{Load: drive.Load{Mass: 0.18, Offset: 95, Axis: drive.Horizontal}},
		Motion: &drive.Motion{Time: 0.8, Law: drive.Cosine, Hold: true},
	}
}

func baker() linkage.Spec {
	return linkage.Spec{
		FourBar:    linkage.FourBar{Horn: 18, Rod: 71.02, Lever: 30, Frame: 70},
		NeutralDeg: 90, FromDeg: 50, ToDeg: 130, Servo: servo(9.4*kgfcm, 0.17, 45),
		Load:   &linkage.Load{Load: drive.Load{Mass: 0.30, Offset: 110, Axis: drive.Horizontal}},
		Motion: &drive.Motion{Time: 5, Law: drive.Cosine}, // 6 strokes a minute: two moves in 10 s
	}
}

func mayor() linkage.Spec {
	return linkage.Spec{
		FourBar:    linkage.FourBar{Horn: 12, Rod: 45.71, Lever: 20, Frame: 45},
		NeutralDeg: 90, FromDeg: 65, ToDeg: 115, SwingDeg: 25, Servo: servo(1.8*kgfcm, 0.10, 45),
		Load:   &linkage.Load{Load: drive.Load{Mass: 0.06, Offset: 40, Axis: drive.Horizontal}},
		Motion: &drive.Motion{Time: 0.15, Law: drive.Cosine},
	}
}

func ferrywoman() linkage.Spec {
	return linkage.Spec{FourBar: linkage.FourBar{Horn: 18, Rod: 73.67, Lever: 36, Frame: 80}, Turning: true}
}

func stroke(t *testing.T, spec linkage.Spec) *linkage.Stroke {
	t.Helper()
	s, err := linkage.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Figures worked out independently of this code, rounded as shown.
func TestFigures(t *testing.T) {
	wider := heron()
	wider.FromDeg, wider.ToDeg, wider.Servo = 30, 150, servo(9.4*kgfcm, 0.17, 65)
	for _, test := range []struct {
		figure, value string
		spec          linkage.Spec
		want, unit    float64 // unit of the last digit
	}{
		{"heron", "lever_swing_deg", heron(), 56.2, 0.1},
		{"heron", "lever_from_deg", heron(), 62.55, 0.01},
		{"heron", "lever_to_deg", heron(), 118.7, 0.1},
		{"heron", "ratio_neutral", heron(), 0.667, 0.001},
		{"heron", "ratio_min", heron(), 0.493, 0.001},
		{"heron", "mu_min_deg", heron(), 54.6, 0.1},
		{"heron", "holding_torque", heron(), 0.124, 0.001},
		{"heron, 60 deg", "lever_swing_deg", wider, 70.2, 0.1},
		{"heron, 60 deg", "mu_min_deg", wider, 46.8, 0.1},
		{"baker", "lever_swing_deg", baker(), 45.3, 0.1},
		{"baker", "mu_min_deg", baker(), 56.7, 0.1},
		{"baker", "holding_torque", baker(), 0.217, 0.001},
		{"mayor", "lever_swing_deg", mayor(), 29.4, 0.1},
		{"mayor", "mu_min_deg", mayor(), 64.9, 0.1},
		{"mayor", "holding_torque", mayor(), 0.016, 0.001},
		{"ferry-woman", "lever_swing_deg", ferrywoman(), 60.0, 0.1},
		{"ferry-woman", "mu_min_deg", ferrywoman(), 57.1, 0.1},
	} {
		got := stroke(t, test.spec).Values()[test.value].(float64)
		if math.Abs(got-test.want) > test.unit/2*1.001 {
			t.Errorf("%s: %s = %.5f, want %v", test.figure, test.value, got, test.want)
		}
	}
}

func verdict(s *linkage.Stroke) (worst check.Verdict, which []string) {
	worst = check.Pass
	for _, f := range s.Findings() {
		switch {
		case f.Verdict == check.Fail:
			worst = check.Fail
			which = append(which, f.Check)
		case f.Verdict == check.Caution:
			if worst != check.Fail {
				worst = check.Caution
			}
			which = append(which, f.Check)
		}
	}
	return worst, which
}

func TestFigureVerdicts(t *testing.T) {
	for name, spec := range map[string]linkage.Spec{"heron": heron(), "baker": baker(), "mayor": mayor(), "ferry-woman": ferrywoman()} {
		s := stroke(t, spec)
		v, which := verdict(s)
		t.Logf("%s: %s %v", name, v, which)
		for _, f := range s.Findings() {
			t.Logf("   %s %.4f %s %s | %s | %s", f.Check, f.Value, f.Limit, f.Verdict, f.Detail, f.Remedy)
		}
		if v == check.Fail {
			t.Errorf("%s fails: %v", name, which)
		}
	}
}

// A short rod cannot be assembled: the first impossible position is named, and
// the rod that the refusal names can be assembled.
func TestRefusedRods(t *testing.T) {
	short := heron()
	short.Rod = 60
	crank := ferrywoman()
	crank.Rod = 60
	for name, spec := range map[string]linkage.Spec{"heron": short, "ferry-woman": crank} {
		_, err := linkage.New(spec)
		var field *check.FieldError
		if !errors.As(err, &field) || field.Field != "rod length" || !strings.Contains(field.Reason, "cannot be assembled with the horn at") {
			t.Errorf("%s: %v", name, err)
			continue
		}
		t.Log(name, field.Reason, "|", field.Remedy)
	}
}

func TestPositionalServoCannotTurnFully(t *testing.T) {
	spec := ferrywoman()
	spec.Servo = servo(9.4*kgfcm, 0.17, 90)
	_, err := linkage.New(spec)
	var field *check.FieldError
	if !errors.As(err, &field) || field.Field != "servo" || !strings.Contains(field.Reason, "180 deg") {
		t.Errorf("got %v", err)
	}
}

package linkage_test

import (
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/drive"
	"pintle/linkage"
)

// The exact inverse of 20/60/25/62 over 45 to 135 deg of the horn, 10 µs/deg,
// 1500 µs at 90 deg, at nine angles of the lever (independent program). The table
// must meet each within 0.5 µs, and the exact inverse within 0.005 µs: the file's own
// rows are interpolated.
func TestPulseTableReference(t *testing.T) {
	var file struct {
		Table []struct {
			Joint float64 `json:"joint_deg"`
			Pulse float64 `json:"us"`
		}
	}
	reference(t, "linkage-servo_table.json", &file)
	if len(file.Table) != 9 {
		t.Fatalf("found %d rows", len(file.Table))
	}
	spec := linkage.Spec{
		FourBar: linkage.FourBar{Horn: 20, Rod: 60, Lever: 25, Frame: 62}, NeutralDeg: 90,
		Servo: &linkage.Servo{Servo: drive.Servo{StallTorque: 1, SpeedDegPerS: 300, Points: []drive.PulsePoint{
			{PulseMicroseconds: 1050, AngleDeg: -45}, {PulseMicroseconds: 1500}, {PulseMicroseconds: 1950, AngleDeg: 45},
		}}},
	}
	s := stroke(t, spec)
	table, ok := s.Pulses()
	if !ok {
		t.Fatal("no table")
	}
	middle := (file.Table[0].Joint + file.Table[8].Joint) / 2
	for _, row := range file.Table {
		if got := table.At(row.Joint - middle); math.Abs(got-row.Pulse) > 0.5 {
			t.Errorf("at %v deg: %v µs, want %v", row.Joint, got, row.Pulse)
		}
		horn, ok := s.HornFor(row.Joint)
		if got := 1500 + 10*(horn-90); !ok || math.Abs(got-row.Pulse) > 0.005 {
			t.Errorf("at %v deg: exactly %v µs, want %v", row.Joint, got, row.Pulse)
		}
	}
	if table.Error <= 0 || table.Error >= 0.5 {
		t.Errorf("stated error %v µs", table.Error)
	}
}

// The table is strictly monotone, its rows at most 5 deg of the horn apart, and
// between rows it strays no more than it says, for a servo bent at its middle and
// one that turns the other way.
func TestPulseTableProperties(t *testing.T) {
	bent := heron()
	bent.Servo.Points[2].AngleDeg = 40
	clockwise := heron()
	clockwise.Servo.Clockwise = true
	sinking := heron()
	sinking.Load.Sinks = true
	for name, spec := range map[string]linkage.Spec{"heron": heron(), "bent": bent, "clockwise": clockwise, "sinking": sinking} {
		s := stroke(t, spec)
		table, ok := s.Pulses()
		if !ok {
			t.Fatalf("%s: no table", name)
		}
		for i, row := range table.Rows[1:] {
			before := table.Rows[i]
			first := table.Rows[1].PulseMicroseconds - table.Rows[0].PulseMicroseconds
			if row.JointDeg <= before.JointDeg || (row.PulseMicroseconds-before.PulseMicroseconds)*first <= 0 || math.Abs(row.HornDeg-before.HornDeg) > 5+1e-9 {
				t.Fatalf("%s: row %v after %v", name, row, before)
			}
		}
		half := spec.SwingDeg / 2
		for i := range 200 {
			joint := -half + spec.SwingDeg*float64(i)/199
			rises := 1.0
			if spec.Load.Sinks {
				rises = -1
			}
			used := s.Used()
			horn, _ := s.HornFor((used.LeverFromDeg+used.LeverToDeg)/2 + rises*joint)
			angle := horn - 90
			if spec.Servo.Clockwise {
				angle = -angle
			}
			exact, ok := spec.Servo.Pulse(angle)
			if !ok || math.Abs(table.At(joint)-exact) > 0.5 {
				t.Fatalf("%s at %v deg: %v µs, exactly %v", name, joint, table.At(joint), exact)
			}
		}
	}
}

// A horn of 25 teeth tried at 84 deg and wanted at 90: 6 = 0 x 14.4 + 6 stays;
// tried at 70, 20 = 1 x 14.4 + 5.6. The rod named brings the lever back, and so
// does the pulse.
func TestSplineSeat(t *testing.T) {
	spec := heron()
	spec.Servo.SplineTeeth, spec.Servo.Tried = 25, true
	for tried, want := range map[float64]struct {
		steps int
		left  float64
	}{84: {0, 6}, 70: {1, 5.6}, 110: {-1, -5.6}} {
		spec.Servo.TriedDeg = tried
		s := stroke(t, spec)
		seat, _ := s.Seat()
		if seat.Steps != want.steps || math.Abs(seat.LeftDeg-want.left) > 1e-9 {
			t.Errorf("tried at %v: %d steps, %v left, want %v", tried, seat.Steps, seat.LeftDeg, want)
		}
		neutral, _ := s.At(90)
		again := spec
		again.Rod = seat.Rod
		moved, _ := stroke(t, again).At(90 - want.left)
		if math.Abs(moved.LeverDeg-neutral.LeverDeg) > 1e-9 {
			t.Errorf("the rod of %v mm brings the lever to %v, want %v", seat.Rod, moved.LeverDeg, neutral.LeverDeg)
		}
		f := finding(t, s, "horn-spline")
		if pulse := 1500 + want.left*500/45; f.Verdict != check.Note || !strings.Contains(f.Remedy, check.Number(math.Round(pulse))+" µs") {
			t.Errorf("%v: %q", pulse, f.Remedy)
		}
	}
	spec.Servo.Tried = false
	if seat, _ := stroke(t, spec).Seat(); math.Abs(seat.LeftDeg-7.2) > 1e-12 || math.Abs(seat.PitchDeg-14.4) > 1e-12 {
		t.Errorf("untried: %+v", seat)
	}
}

// The ferry-woman's motor, oars level at mid-stroke: over a full turn the work
// against gravity sums to nothing, so with efficiency 1 and no friction the mean
// torque is 0 (energy).
func TestMotorTakesNoWorkFromGravity(t *testing.T) {
	spec := ferrywoman()
	spec.Efficiency = 1
	spec.Motor = &linkage.Motor{StallTorque: 1, RPM: 6}
	spec.Load = &linkage.Load{Load: drive.Load{Mass: 0.4, Offset: 60, Axis: drive.Horizontal, PostureKnown: true}}
	s := stroke(t, spec)
	torques := s.MotorTorques()
	sum, most := 0.0, 0.0
	for _, torque := range torques[1:] {
		sum, most = sum+torque, max(most, math.Abs(torque))
	}
	if mean := sum / float64(len(torques)-1); math.Abs(mean) > 1e-6*most || most < 0.05 {
		t.Errorf("mean torque %v with a peak of %v", mean, most)
	}
	if f := finding(t, s, "motor-torque"); math.Abs(f.Value-most) > 1e-12 {
		t.Errorf("peak %v, want %v", f.Value, most)
	}
}

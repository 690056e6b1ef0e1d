package linkage_test

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
	"pintle/drive"
	"pintle/geom"
	"pintle/linkage"
)

// Whatever the numbers: a refusal that names the quantity, or a stroke whose
// values, stations, findings, pulses and forces are all finite.
func FuzzSpec(f *testing.F) {
	f.Add(20.0, 90.55, 30.0, 90.0, 45.0, 135.0, 45.0, 0.0, 0.18, 0.8, false, false)
	f.Add(18.0, 73.67, 36.0, 80.0, 0.0, 0.0, 0.0, 0.0, 0.2, 1.0, true, false)
	f.Add(30.0, 70.0, 30.0, 70.0, 10.0, 170.0, 90.0, 5.0, 1.0, 0.1, false, true)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 1e300, -1e300, 1e9, 1e9, -1.0, 0.0, false, true)
	f.Fuzz(func(t *testing.T, horn, rod, lever, frame, from, to, swing, offset, mass, time float64, turning, crossed bool) {
		spec := linkage.Spec{
			FourBar: linkage.FourBar{Horn: horn, Rod: rod, Lever: lever, Frame: frame, Crossed: crossed},
			FromDeg: from, ToDeg: to, SwingDeg: swing, Offset: offset, NeutralDeg: (from + to) / 2, Turning: turning, Stations: 31,
			Load:   &linkage.Load{Load: drive.Load{Mass: mass, Offset: 50, Axis: drive.Horizontal}},
			Motion: &drive.Motion{Time: time, Law: drive.Cosine},
			Stock:  &linkage.RodStock{Diameter: 2}, LeverPin: &linkage.PinJoint{Diameter: 2, Thickness: 3, Width: 6, EndDistance: 3, Strength: 40, Play: 0.1, BallLimit: 18},
			TipRadius: 100,
		}
		if turning {
			spec.Motor = &linkage.Motor{StallTorque: 1, RPM: 30}
		} else {
			spec.Servo = servo(1, 0.2, 90)
			spec.Servo.SplineTeeth, spec.Servo.Tried = 25, true
		}
		s, err := linkage.New(spec)
		if err != nil {
			var field *check.FieldError
			if !errors.As(err, &field) || field.Field == "" || field.Remedy == "" {
				t.Fatalf("refused without quantity or remedy: %v", err)
			}
			return
		}
		sum := 0.0
		for name, v := range s.Values() {
			if v, ok := v.(float64); ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("%s = %v", name, v)
			}
		}
		for _, found := range s.Findings() {
			sum += found.Value
		}
		for _, st := range s.Stations() {
			sum += st.LeverDeg + st.Ratio + st.Acceleration + s.RodForce(st, 1) + s.StalledRodForce(st) + s.HoldingTorque(st)
		}
		if table, ok := s.Pulses(); ok {
			for i, row := range table.Rows {
				sum += row.PulseMicroseconds
				if i > 0 && row.JointDeg <= table.Rows[i-1].JointDeg {
					t.Errorf("row %d does not rise", i)
				}
			}
		}
		m := s.Moving()
		for _, b := range m.Bars {
			for _, p := range b.Places {
				sum += p.X + p.Y + p.Turn
			}
		}
		if s.Assembly(); math.IsNaN(sum) || math.IsInf(sum, 0) {
			t.Errorf("something is not finite: %+v", spec.FourBar)
		}
	})
}

// Whatever the sketch of five points with bars, a plate, a slider and a slot: a
// refusal or postures that are finite and keep their bars.
func FuzzMechanism(f *testing.F) {
	f.Add(0.0, 0.0, 20.0, 5.0, 60.0, 30.0, 70.0, 0.0, 40.0, 50.0, uint8(0), 180.0)
	f.Add(0.0, 0.0, 20.0, 0.0, 40.0, 0.0, 60.0, 0.0, 80.0, 0.0, uint8(7), 90.0)
	f.Add(1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, uint8(3), -400.0)
	f.Fuzz(func(t *testing.T, ox, oy, ax, ay, bx, by, px, py, cx, cy float64, extra uint8, to float64) {
		spec := linkage.MechanismSpec{
			Points: []linkage.Pin{fixed("O", ox, oy), fixed("P", px, py), pinAt("A", ax, ay), pinAt("B", bx, by)},
			Bars:   []linkage.BarSpec{{From: "O", To: "A"}, {From: "P", To: "B"}},
			Drive:  linkage.DriveSpec{Centre: "O", Pin: "A", Start: math.Atan2(ay-oy, ax-ox) / deg},
		}
		if extra&1 != 0 {
			spec.Points = append(spec.Points, pinAt("C", cx, cy))
			spec.Plates = []linkage.PlateSpec{{Points: []string{"A", "B", "C"}}}
		} else {
			spec.Bars = append(spec.Bars, linkage.BarSpec{From: "A", To: "B"})
		}
		if extra&2 != 0 {
			spec.Sliders = []linkage.SliderSpec{{Point: "B", Through: geom.Point{X: cx, Y: cy}, AngleDeg: to}}
		}
		if extra&4 != 0 {
			spec.Slots = []linkage.SlotSpec{{Point: "A", From: "P", To: "B"}}
		}
		m, err := linkage.NewMechanism(spec)
		var field *check.FieldError
		if err != nil {
			if !errors.As(err, &field) || field.Field == "" || field.Remedy == "" {
				t.Fatalf("refused without quantity or remedy: %v", err)
			}
			return
		}
		postures, limit, err := m.Follow(to, 13)
		if err != nil {
			if !errors.As(err, &field) {
				t.Fatal(err)
			}
			return
		}
		length := math.Hypot(ax-ox, ay-oy)
		for _, p := range postures {
			sum := p.Singularity
			for i := range p.Points {
				sum += p.Points[i].X + p.Points[i].Y + p.Velocity[i].X + p.Velocity[i].Y
			}
			if math.IsNaN(sum) || math.IsInf(sum, 0) {
				t.Fatalf("a posture is not finite: %+v", p)
			}
			if off := math.Abs(p.Points[2].Sub(p.Points[0]).Len() - length); off > 1e-6*(1+length) {
				t.Fatalf("the crank is %v too long", off)
			}
		}
		if limit != nil && (limit.InLine == "" || math.IsNaN(limit.Drive)) {
			t.Errorf("limit %+v", limit)
		}
	})
}

package linkage_test

import (
	"math"
	"testing"

	"pintle/geom"
	"pintle/linkage"
)

// Horn 30, rod 90, offset 10: sqrt(14300) - sqrt(3500) (closed form).
func TestSliderCrankStroke(t *testing.T) {
	c := linkage.SliderCrank{Horn: 30, Rod: 90, Offset: 10}
	if got, ok := c.Stroke(); !ok || math.Abs(got-60.421810) > 5e-7 {
		t.Errorf("stroke %v, want 60.421810", got)
	}
}

func sliderCrankMechanism(t *testing.T, c linkage.SliderCrank, hornDeg float64) *linkage.Mechanism {
	t.Helper()
	p, ok := c.At(hornDeg * deg)
	if !ok {
		t.Fatalf("%v does not close at %v", c, hornDeg)
	}
	return mechanism(t, linkage.MechanismSpec{
		Points: []linkage.Pin{
			{Name: "O", Fixed: true},
			{Name: "A", At: p.HornPin},
			{Name: "S", At: p.Slider},
			{Name: "M", At: p.HornPin.Add(p.Slider).Scale(0.5)},
		},
		Bars:    []linkage.BarSpec{{From: "O", To: "A"}},
		Plates:  []linkage.PlateSpec{{Points: []string{"A", "S", "M"}}},
		Sliders: []linkage.SliderSpec{{Point: "S", Through: geom.Point{Y: c.Offset}}},
		Drive:   linkage.DriveSpec{Centre: "O", Pin: "A", Start: hornDeg},
	})
}

// Solver and closed form agree through a full turn, on both sides.
func TestSolverMeetsSliderCrank(t *testing.T) {
	for _, c := range []linkage.SliderCrank{{Horn: 30, Rod: 90, Offset: 10}, {Horn: 30, Rod: 90, Offset: -7, Behind: true}} {
		postures, limit, err := sliderCrankMechanism(t, c, 20).Follow(380, 181)
		if err != nil || limit != nil {
			t.Fatal(limit, err)
		}
		for _, p := range postures {
			want, _ := c.At(p.Drive * deg)
			if p.Points[2].Sub(want.Slider).Len() > 1e-9 || math.Abs(p.Velocity[2].X-want.Ratio) > 1e-9 || math.Abs(p.Acceleration[2].X-want.Acceleration) > 1e-8 {
				t.Fatalf("%v at %v: %v, %v, %v; want %+v", c, p.Drive, p.Points[2], p.Velocity[2], p.Acceleration[2], want)
			}
		}
	}
}

// A rod too short for a full turn locks square to the slide: sin t = (10 + 30)/50,
// 53.130102 deg (closed form). Driven by its slider it stops in line.
func TestSliderCrankLocks(t *testing.T) {
	c := linkage.SliderCrank{Horn: 50, Rod: 30, Offset: 10}
	_, limit, err := sliderCrankMechanism(t, c, 10).Follow(170, 81)
	if err != nil || limit == nil {
		t.Fatal(limit, err)
	}
	if math.Abs(limit.Drive-53.130102354) > 1e-6 || limit.InLine != "plate A-S square to the slider S" {
		t.Errorf("locks at %v: %s", limit.Drive, limit.InLine)
	}
	if d := c.DeadPoints(); math.Abs(d[0]/deg-limit.Drive) > 1e-6 {
		t.Errorf("closed form says %v", d)
	}
	pushed := linkage.SliderCrank{Horn: 30, Rod: 90}
	p, _ := pushed.At(90 * deg)
	m := mechanism(t, linkage.MechanismSpec{
		Points:  []linkage.Pin{{Name: "O", Fixed: true}, {Name: "A", At: p.HornPin}, {Name: "S", At: p.Slider}},
		Bars:    []linkage.BarSpec{{From: "O", To: "A"}, {From: "A", To: "S"}},
		Sliders: []linkage.SliderSpec{{Point: "S"}},
		Drive:   linkage.DriveSpec{Slider: "S", Start: p.Slider.X},
	})
	_, limit, err = m.Follow(200, 101)
	if err != nil || limit == nil || math.Abs(limit.Drive-120) > 1e-5 || limit.InLine != "O-A and A-S in one line" {
		t.Errorf("pushed: %+v, %v", limit, err)
	}
}

// An offset of the slide takes from what the rod may be short: 30 + 10 > 35.
func TestSliderCrankTurns(t *testing.T) {
	if (linkage.SliderCrank{Horn: 30, Rod: 35, Offset: 10}).Turns() || !(linkage.SliderCrank{Horn: 30, Rod: 41, Offset: -10}).Turns() {
		t.Error("the offset is left out")
	}
}

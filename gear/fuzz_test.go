package gear

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// Whatever the numbers, the answer is a pair whose values and findings are
// finite, or an error that names a quantity, a reason and a remedy.
func FuzzPair(f *testing.F) {
	f.Add(28, 36, 1.5, 0.0, 0.0, 20.0, 0.0, 0.2, 10.0, 0.0, 0.45, uint8(0), 20.3, 36.0)
	f.Add(12, 40, 1.0, 0.3, -0.3, 20.0, 0.0, 0.1, 6.0, 0.08, 0.45, uint8(9), 8.0, 30.0)
	f.Add(8, 9, 2.0, 0.5, 0.4, 25.0, 17.5, 0.0, 4.0, -0.3, 0.4, uint8(2), 5.0, 9.0)
	f.Add(17, 200, 0.8, 0.0, 0.0, 14.5, 87.2, 0.3, 2.0, 0.6, 0.8, uint8(7), 6.0, 120.0)
	f.Add(6, -60, math.NaN(), math.Inf(1), 0.0, 20.0, -1.0, 0.0, 0.0, 0.0, 0.0, uint8(4), 0.0, 0.0)
	f.Fuzz(func(t *testing.T, z1, z2 int, m, x1, x2, alphaDeg, a, backlash, face, outside, bead float64, kind uint8, hub, circle float64) {
		if z1 > 300 || z2 > 300 {
			t.Skip("nothing new, only slower")
		}
		m3, _ := fit.ScrewNamed("M3")
		spec := PairSpec{
			Name: "fuzz", Teeth: [2]int{z1, z2}, Module: m, Shift: [2]float64{x1, x2}, ShiftRule: ShiftRule(kind % 4),
			PressureAngle: alphaDeg * degree, CentreDistance: a, Backlash: backlash, FaceWidth: face, Card: testCard(),
		}
		spec.Card.Outside, spec.Card.BeadWidth = fit.Error{Offset: outside}, bead
		switch kind / 4 % 4 {
		case 1:
			spec.Wheel = Body{Bore: hub, Bolts: &BoltCircle{circle, m3, int(kind / 16)}}
		case 2:
			spec.Wheel = Body{Journal: &Journal{Bore: hub, Length: face / 2, ShoulderDiameter: hub + 4, ShoulderHeight: 1, Hollow: hub / 2}}
		case 3:
			spec.Pinion.Horn = &HornPocket{Kind: "disc", Diameter: hub, Thickness: face / 3, HubDiameter: hub / 2, Holes: int(kind / 16), HoleCircle: hub * 0.75, Hole: 2.1, StandOff: outside * 10}
		}
		p, err := NewPair(spec)
		var field *check.FieldError
		switch {
		case errors.As(err, &field):
			if field.Field == "" || field.Reason == "" || field.Remedy == "" {
				t.Fatalf("%+v", field)
			}
			return
		case err != nil:
			t.Fatal(err)
		}
		for name, v := range p.Values() {
			if v, ok := v.(float64); ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("%s = %v", name, v)
			}
		}
		for _, v := range p.Findings() {
			if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) {
				t.Errorf("%s: value %v", v.Check, v.Value)
			}
		}
		if n := len(p.Parts()); n != 2 {
			t.Errorf("%d parts", n)
		}
	})
}

package gear

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
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
			spec.Wheel = Body{Bore: hub, Bolts: &BoltCircle{Diameter: circle, Screw: m3, Count: int(kind / 16)}}
		case 2:
			spec.Wheel = Body{Journal: &Journal{Bore: hub, Length: face / 2, ShoulderDiameter: hub + 4, ShoulderHeight: 1, Hollow: hub / 2}}
		case 3:
			spec.Pinion.Horn = &HornPocket{Kind: "disc", Diameter: hub, Thickness: face / 3, HubDiameter: hub / 2, Holes: int(kind / 16), HoleCircle: hub * 0.75, Hole: 2.1, StandOff: outside * 10}
		}
		tell(t, func() (teller, error) { return NewPair(spec) })
	})
}

// The same of what a pair can have besides: horns with arms, retainers, sectors,
// internal gears, readings, climates, racks of any kind.
func FuzzKinds(f *testing.F) {
	f.Add(28, 36, 1.5, 0.0, 20.0, 0.2, uint16(0), 16.0, 5.6, 8.0)
	f.Add(24, -60, 1.0, 0.3, 20.0, 0.1, uint16(3), 8.0, 0.8, 0.4)
	f.Add(20, 60, 2.0, 0.0, 25.0, 0.3, uint16(13), 12.0, 40.0, 0.2)
	f.Add(12, 40, 1.2, 0.4, 14.5, 0.2, uint16(300), 6.0, 1.1, 0.25)
	f.Fuzz(func(t *testing.T, z1, z2 int, m, x, alphaDeg, backlash float64, kind uint16, a, b, c float64) {
		if z1 > 200 || z2 > 200 || z2 < -200 {
			t.Skip("nothing new, only slower")
		}
		spec := bareSpec(z1, z2)
		spec.Module, spec.Shift[0], spec.PressureAngle, spec.Backlash = m, x, alphaDeg*degree, backlash
		screw := fit.Screws()[int(kind)%len(fit.Screws())]
		switch kind % 8 {
		case 0, 1:
			spec.Pinion.Horn = &HornPocket{
				Kind: []string{"arm", "double-arm", "cross"}[kind/8%3], Arm: a, WidthAtHub: b, WidthAtTip: c, Thickness: 2, HubDiameter: b + c,
				HolesAt: []float64{a / 2, a * 0.7, a - c}, Hole: c / 2, Arms: int(kind / 32 % 10), SplineTeeth: 25,
			}
		case 2:
			spec.Wheel.Journal = &Journal{Bore: a, Length: b, Hollow: c}
			spec.Wheel.Retain = &Retain{[]string{"nut", "screw", "screws"}[kind/8%3], screw}
		case 3:
			spec.Rack = Rack{b, c, a / 20}
			spec.Wheel.Rim = a
		case 4:
			spec.Wheel.Bolts = &BoltCircle{Diameter: a * 10, Screw: screw, Count: int(kind / 8 % 20)}
		case 5:
			spec.Wheel = Body{Bore: c, Sector: int(a), SectorHub: b}
		case 6:
			spec.Measured = [2][]Readings{{{Span: a, Tip: b * 10}, {Pins: c * 100}}, {{Pins: a * 10}}}
			spec.Climate.Hottest, spec.LostMotion = a, LostMotion{b, c}
		case 7:
			spec.KeepTips, spec.TipAlteration, spec.CentreDistance = true, c, a*5
			spec.Loading.Stall, spec.Loading.Swing = b, c
		}
		tell(t, func() (teller, error) { return NewPair(spec) })
		if kind%8 == 3 {
			tell(t, func() (teller, error) {
				return NewRackDrive(RackSpec{Pair: spec, Travel: a * 10, Height: b, Screw: screw, Screws: int(kind / 8 % 5)})
			})
		}
	})
}

// A teller is a design with values and findings.
type teller interface {
	Values() map[string]any
	Findings() []check.Finding
}

// tell holds a design's numbers, or its error, against what both must be.
func tell(t *testing.T, design func() (teller, error)) {
	t.Helper()
	d, err := design()
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
	for name, v := range d.Values() {
		if v, ok := v.(float64); ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%s = %v", name, v)
		}
	}
	for _, f := range d.Findings() {
		if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) || f.Check == "" {
			t.Errorf("%s: value %v", f.Check, f.Value)
		}
	}
}

// A rack drive of any numbers: finite values, a cut path or its error, a drawing.
func FuzzRackDrive(f *testing.F) {
	f.Add(20, 1.5, 0.0, 20.0, 0.2, 10.0, 60.0, 0.0, 0.08, 0.45, uint8(3), 0.2)
	f.Add(8, 0.8, 0.6, 28.0, 0.05, 4.0, 15.0, 9.0, -0.2, 0.3, uint8(40), 0.05)
	f.Add(200, 5.0, -0.5, 14.5, 0.9, 30.0, 900.0, 20.0, 0.5, 1.2, uint8(201), 1.0)
	f.Add(6, math.NaN(), math.Inf(1), 20.0, -1.0, 0.0, 0.0, -3.0, 0.0, 0.0, uint8(0), -1.0)
	f.Fuzz(func(t *testing.T, z int, m, x, alphaDeg, backlash, face, travel, height, outside, bead float64, kind uint8, kerf float64) {
		if z > 400 || travel > 600*math.Abs(m) {
			t.Skip("nothing new, only slower")
		}
		spec := RackSpec{Pair: bareSpec(z, z), Travel: travel, Height: height, Screws: int(kind) / 8, Screw: fit.Screws()[int(kind)%len(fit.Screws())]}
		p := &spec.Pair
		p.Module, p.Shift[0], p.PressureAngle, p.Backlash, p.FaceWidth = m, x, alphaDeg*degree, backlash, face
		p.ShiftRule, p.Pinion.Sector = ShiftRule(kind%3), int(kind%2)*9
		p.Card.Outside, p.Card.BeadWidth = fit.Error{Offset: outside}, bead
		tell(t, func() (teller, error) { return NewRackDrive(spec) })
		d, err := NewRackDrive(spec)
		if err != nil {
			return
		}
		var field *check.FieldError
		if contours, err := d.CutOutline(kerf); err != nil && !errors.As(err, &field) {
			t.Fatal(err)
		} else if err == nil {
			if _, err := geom.NewPart("cut", geom.Slab{Z0: 0, Z1: 1, Bottom: contours}); err != nil {
				t.Fatalf("the cut path of %+v: %v", spec, err)
			}
		}
		if d.Details(d.name()).Tables == nil || len(d.Assembly()) < 3 {
			t.Error("nothing to draw or say")
		}
	})
}

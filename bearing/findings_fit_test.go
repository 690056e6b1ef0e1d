package bearing_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
)

// What holds a bearing under a pulling load of 80 N, more than the fit alone
// holds; a thrust bearing's washers; the corner under a small chamfer.
func TestOptionVerdicts(t *testing.T) {
	thrust := find(t, "51106")
	washers := func(bore float64) func(*bearing.HousingSpec) {
		return func(s *bearing.HousingSpec) {
			s.Bearing, s.Flange = thrust, nil
			s.Bearing.WasherBore, s.Bearing.BoreMeasured = bore, true
		}
	}
	clamped := func(c bearing.Clamp, axial float64) func(*bearing.HousingSpec) {
		c.Screw = screw(t, "M3")
		return func(s *bearing.HousingSpec) {
			s.Fit, s.Flange, s.Clamp, s.Load.Axial = bearing.Slip, nil, &c, axial
		}
	}
	rod := func(torque float64) func(*bearing.HousingSpec) {
		return func(s *bearing.HousingSpec) {
			s.Rod = &bearing.RodSpec{Flat: 2, FlatLength: 15, Torque: torque}
		}
	}
	for _, test := range []struct {
		name   string
		change func(*bearing.HousingSpec)
		check  string
		want   check.Verdict
	}{
		{"pulled, press fit alone", func(s *bearing.HousingSpec) { s.Load.Axial = -80 }, "retention", check.Fail},
		{"pulled, lip", func(s *bearing.HousingSpec) { s.Load.Axial, s.Lip = -80, &bearing.Lip{} }, "retention", check.Caution},
		{"pulled, cap", func(s *bearing.HousingSpec) { s.Load.Axial, s.Cap = -80, &bearing.Cap{Screw: screw(t, "M2"), Count: 4} }, "retention", check.Pass},
		{"no load known, lip", func(s *bearing.HousingSpec) { s.Load, s.Fit, s.Lip = bearing.Load{}, bearing.Slip, &bearing.Lip{} }, "retention", check.Pass},
		{"moist nylon, pulled, capped", func(s *bearing.HousingSpec) {
			s.Material, s.Load.Axial, s.Cap = material(t, "PA"), -5, &bearing.Cap{Screw: screw(t, "M2"), Count: 4}
		}, "interference-left", check.Caution},
		{"lip at its default", func(s *bearing.HousingSpec) { s.Fit, s.Lip = bearing.Slip, &bearing.Lip{} }, "lip-strain", check.Pass},
		{"high lip", func(s *bearing.HousingSpec) { s.Fit, s.Lip = bearing.Slip, &bearing.Lip{Height: 0.41} }, "lip-strain", check.Fail},
		{"lip below the scatter", func(s *bearing.HousingSpec) {
			s.Fit, s.Lip, s.Card.Bore.Sigma = bearing.Slip, &bearing.Lip{Height: 0.06}, 0.1
		}, "lip-height", check.Caution},
		{"ribs squeezed flat", func(s *bearing.HousingSpec) {
			s.Fit, s.Ribs = bearing.CrushRibs, &bearing.Ribs{Height: 0.225}
		}, "rib-crush", check.Caution},
		{"usual ribs", func(s *bearing.HousingSpec) { s.Fit = bearing.CrushRibs }, "rib-crush", check.Pass},
		{"chamfer of 0.2, relief by itself", func(s *bearing.HousingSpec) { s.Bearing = find(t, "618/8") }, "corner-relief", check.Pass},
		{"chamfer of 0.2, no relief wanted", func(s *bearing.HousingSpec) { s.Bearing, s.Relief = find(t, "618/8"), &bearing.Relief{} }, "corner-relief", check.Fail},
		{"chamfer not known", func(s *bearing.HousingSpec) { s.Bearing.RMin = 0 }, "corner-relief", check.Note},
		{"washers not measured", washers(0), "washers", check.Caution},
		{"one washer measured", func(s *bearing.HousingSpec) { washers(32)(s); s.Bearing.BoreMeasured = false }, "washers", check.Note},
		{"washers as they should be", washers(32), "washers", check.Pass},
		{"washers swapped", washers(30), "washers", check.Fail},
		{"clamp, standing", clamped(bearing.Clamp{}, 0), "retention", check.Pass},
		{"clamp, pulled", clamped(bearing.Clamp{}, -5), "retention", check.Caution},
		{"clamp at its defaults", clamped(bearing.Clamp{}, 0), "clamp-slit", check.Pass},
		{"clamp with a nut", clamped(bearing.Clamp{Nut: true}, 0), "ear-thickness", check.Pass},
		{"clamp whose ears meet", clamped(bearing.Clamp{Slit: 0.6}, 0), "clamp-slit", check.Fail},
		{"ears thinner than the screw", clamped(bearing.Clamp{Thickness: 2}, 0), "ear-thickness", check.Caution},
		{"thin ears round a nut", clamped(bearing.Clamp{Nut: true, Thickness: 5}, 0), "ear-thickness", check.Caution},
		{"little thread", clamped(bearing.Clamp{Thickness: 4}, 0), "thread-grip", check.Caution},
		{"no length of screw fits", clamped(bearing.Clamp{Thickness: 6.3, Slit: 3}, 0), "screw-reach", check.Caution},
		{"usual screw", clamped(bearing.Clamp{}, 0), "screw-reach", check.Pass},
		{"frost, press fit", func(s *bearing.HousingSpec) { s.Cooling = 30 }, "cold-strain", check.Pass},
		{"frost, tight fit in PLA", func(s *bearing.HousingSpec) { s.Cooling, s.Material, s.Interference = 40, material(t, "PLA"), 0.16 }, "cold-strain", check.Fail},
		{"frost, slip fit", func(s *bearing.HousingSpec) { s.Cooling, s.Fit = 40, bearing.Slip }, "cold-strain", check.Pass},
		{"flat that holds", rod(2), "flat-pressure", check.Pass},
		{"flat that rounds off", rod(4), "flat-pressure", check.Fail},
		{"thin fit smoothed away", func(s *bearing.HousingSpec) { s.Interference = 0.03 }, "interference-smoothed", check.Caution},
	} {
		spec := lampSpec(t)
		test.change(&spec)
		if f := judged(t, spec, test.check); f.Verdict != test.want || (f.Verdict == check.Fail && f.Remedy == "") {
			t.Errorf("%s: %+v, want %s", test.name, f, test.want)
		}
	}
}

// By hand. A 6300 in a hole of 20 mm: the face starts at 0.95 x 150 / 5 = 28.5 mm
// and ends at 35 less a chamfer of 0.6 mm per side, so slots open all 2.65 mm of
// it. The ring of a 30203 creeps if the bearing's drag of 0.002 x 18.63 x 17 / 2 =
// 0.3168 N·mm beats friction on a radius of 20 mm.
func TestOptionValues(t *testing.T) {
	spec := lampSpec(t)
	spec.Bearing, spec.ShoulderHole = find(t, "6300"), 20
	if f := judged(t, spec, "knock-out"); !near(f.Value, 2.65, 1e-9) || f.Verdict != check.Pass {
		t.Errorf("knock-out: %+v", f)
	}
	spec = lampSpec(t)
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	holds := h.Values()["retention_after_creep"].(float64) * 20
	drags := 0.002 * 1.9 * 9.80665 * 17 / 2
	if f := judged(t, spec, "ring-creep"); !near(f.Value, holds/drags, 1e-6*f.Value) || f.Verdict != check.Pass {
		t.Errorf("ring-creep: %+v, want %v", f, holds/drags)
	}
}

// Eight ribs of one bead, 0.45 mm, on 22 mm carry 3.6 / (22 pi) of the
// circumference: at PETG's 44 MPa that is 2.292 MPa all round, a hoop stress of
// p (28.3² + 22²) / (28.3² - 22²), and a force of 44 x 3.6 x length.
func TestCrushRibs(t *testing.T) {
	spec := lampSpec(t)
	spec.Bearing, spec.Fit, spec.Flange = find(t, "608"), bearing.CrushRibs, nil
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	v := h.Values()
	p := 44 * 3.6 / (22 * math.Pi)
	outer := 28.3 * 28.3
	hoop := p * (outer + 484) / (outer - 484)
	length := 7 - v["lead_in"].(float64)*math.Sqrt(3)
	for key, want := range map[string]float64{
		"p": p, "hoop_stress": hoop, "hoop_strain": hoop / 2500, "insertion_force": 0.3 * 44 * 3.6 * length,
		"delta": 0.4, "rib_height": 0.3, "seat_wanted": 22.2,
	} {
		if have := v[key].(float64); !near(have, want, 1e-9*max(1, want)) {
			t.Errorf("%s = %v, want %v", key, have, want)
		}
	}
	// On the layer of the seat: eight ribs, tips at 21.6 + 0.18 across, bore at 22.38.
	layers := h.Parts()[0].Layers()
	least, most := math.Inf(1), 0.0
	for _, vertex := range layers[len(layers)-2].Bottom.Loops()[1] {
		r := vertex.Point().Len()
		least, most = min(least, r), max(most, r)
	}
	if !near(2*least, 21.78, 0.006) || !near(2*most, 22.38, 0.006) {
		t.Errorf("tips %v, bore %v", 2*least, 2*most)
	}
}

// 22 mm in N7: -28 to -7 µm, with a ring of 0 to -9 µm from 28 µm interference to
// 2 µm clearance (ISO 286, ISO 492). The seat is drawn at 22 mm, whatever the card.
func TestMachinedSeat(t *testing.T) {
	spec := lampSpec(t)
	spec.Bearing, spec.Fit = find(t, "608"), "N7"
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]float64{
		"seat_drawn": 22, "seat_lower_um": -28, "seat_upper_um": -7, "fit_tightest_um": -28, "fit_loosest_um": 2, "hoop_strain": 0.028 / 22, "retention": 0,
	} {
		if have, ok := h.Values()[key].(float64); !ok || !near(have, want, 1e-9) {
			t.Errorf("%s = %v, want %v", key, h.Values()[key], want)
		}
	}
	if f := finding(t, h.Findings(), "fit-class"); f.Verdict != check.Note || f.Value != -28 {
		t.Errorf("%+v", f)
	}
	var wrong *check.FieldError
	for _, word := range []string{"h6", "I7", "J5"} {
		spec.Fit = word
		if _, err := bearing.NewHousing(spec); !errors.As(err, &wrong) || wrong.Field != "fit" {
			t.Errorf("%s: %v", word, err)
		}
	}
}

// Refusals of options that do not go together or leave no plastic.
func TestOptionsRefused(t *testing.T) {
	m3 := screw(t, "M3")
	for _, test := range []struct {
		name   string
		change func(*bearing.HousingSpec)
		field  string
	}{
		{"lip and cap", func(s *bearing.HousingSpec) { s.Lip, s.Cap = &bearing.Lip{}, &bearing.Cap{Screw: m3, Count: 3} }, "lip"},
		{"foot and flange", func(s *bearing.HousingSpec) { s.Foot = &bearing.Foot{Screw: m3, Count: 2} }, "foot"},
		{"long tube and cap", func(s *bearing.HousingSpec) { s.BoreDepth, s.Cap = 30, &bearing.Cap{Screw: m3, Count: 3} }, "bore depth"},
		{"one screw in the foot", func(s *bearing.HousingSpec) { s.Flange, s.Foot = nil, &bearing.Foot{Screw: m3, Count: 1} }, "number of foot screws"},
		{"cap on a thrust bearing", func(s *bearing.HousingSpec) { s.Bearing, s.Cap = find(t, "51106"), &bearing.Cap{Screw: m3, Count: 3} }, "cap"},
		{"lip on a thrust bearing", func(s *bearing.HousingSpec) { s.Bearing, s.Lip = find(t, "51106"), &bearing.Lip{} }, "lip"},
		{"lip in a machined seat", func(s *bearing.HousingSpec) { s.Fit, s.Lip = "H7", &bearing.Lip{} }, "lip"},
		{"ribs in a press fit", func(s *bearing.HousingSpec) { s.Ribs = &bearing.Ribs{} }, "number of ribs"},
		{"ribs lower than the squeeze", func(s *bearing.HousingSpec) { s.Fit, s.Ribs = bearing.CrushRibs, &bearing.Ribs{Height: 0.1} }, "rib height"},
		{"ribs without end", func(s *bearing.HousingSpec) { s.Fit, s.Ribs = bearing.CrushRibs, &bearing.Ribs{Count: 25} }, "number of ribs"},
		{"slots without shoulder between", func(s *bearing.HousingSpec) {
			s.Bearing, s.KnockOut = find(t, "608"), &bearing.KnockOut{Count: 6, Width: 12}
		}, "knock-out width"},
		{"one slot", func(s *bearing.HousingSpec) { s.KnockOut = &bearing.KnockOut{Count: 1} }, "number of knock-out slots"},
		{"sights that fall on slots", func(s *bearing.HousingSpec) { s.KnockOut, s.InspectionSlots = &bearing.KnockOut{Count: 3}, 2 }, "number of inspection slots"},
		{"relief through the wall", func(s *bearing.HousingSpec) { s.Relief = &bearing.Relief{Width: 1.9} }, "corner relief width"},
		{"relief as deep as the seat", func(s *bearing.HousingSpec) { s.Relief = &bearing.Relief{Width: 0.4, Depth: 5} }, "corner relief depth"},
		{"second bearing without a span", func(s *bearing.HousingSpec) { b := s.Bearing; s.Load.Second = &b }, "span"},
		{"span without a second bearing", func(s *bearing.HousingSpec) { s.Load.Span = 30 }, "span"},
		{"running wild", func(s *bearing.HousingSpec) { s.Load.Running = "wild" }, "running"},
		{"disc on a ring with no face", func(s *bearing.HousingSpec) { s.PressingDisc, s.Bearing.Abutment.DbHousingMin = true, 39.5 }, "pressing disc"},
	} {
		spec := lampSpec(t)
		test.change(&spec)
		h, err := bearing.NewHousing(spec)
		var wrong *check.FieldError
		if !errors.As(err, &wrong) || wrong.Field != test.field || wrong.Remedy == "" || h != nil {
			t.Errorf("%s: %v, want an error about %s", test.name, err, test.field)
		}
	}
}

// The parts that go with a ring, the ring first, by hand: a cap 3 mm thick as wide
// as the ring, a disc 0.4 mm smaller than the bearing, drawn 0.08 mm smaller for the
// printer, and 6 + 1 + 13.25 - 11 mm high. A foot's edge stands off the axis by half
// the tube, half a head and 0.5 mm, and 1.5 screw diameters, up to 0.5 mm.
func TestPartsOfARing(t *testing.T) {
	spec := lampSpec(t)
	spec.Flange, spec.Foot = nil, &bearing.Foot{Screw: screw(t, "M3"), Count: 2}
	spec.Cap, spec.PressingDisc = &bearing.Cap{Screw: screw(t, "M2"), Count: 4}, true
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	sizes := map[string][2]float64{}
	for i, p := range h.Parts() {
		if (i == 0) != (p.Name() == "lamp-ring") {
			t.Errorf("part %d is %s", i, p.Name())
		}
		lo, hi := p.Bounds()
		sizes[p.Name()] = [2]float64{hi.X - lo.X, p.Height()}
	}
	for name, want := range map[string][2]float64{
		"lamp-cap":           {h.OutsideDiameter(), 3},
		"lamp-pressing-disc": {39.6 - 0.08, 9.25},
	} {
		if have := sizes[name]; !near(have[0], want[0], 1e-3) || !near(have[1], want[1], 1e-3) {
			t.Errorf("%s: %v, want %v", name, have, want)
		}
	}
	if len(sizes) != 3 || !near(h.CapHeight(), 3+11, 1e-9) || h.CapOpening() != 37 {
		t.Errorf("parts %v, cap at %v, opening %v", sizes, h.CapHeight(), h.CapOpening())
	}
	lo, hi := h.Parts()[0].Bounds()
	clear, edge := 5.5/2+0.5, 4.5
	want := math.Ceil(2*(h.OutsideDiameter()/2+clear+edge)) / 2
	if h.AxisHeight() != want || !near(-lo.Y, want, 1e-3) || !near(hi.Y, h.OutsideDiameter()/2+1.5, 0.03) {
		t.Errorf("axis %v above the base, want %v; drawn from %v to %v", h.AxisHeight(), want, lo.Y, hi.Y)
	}
}

// A fit of 0.1 mm from a printer that scatters by 0.1 mm holds nothing for sure,
// and says why; from one that scatters by 0.02 mm it holds.
func TestScatterMayTakeTheFit(t *testing.T) {
	for _, test := range []struct {
		sigma float64
		says  bool
	}{{0.1, true}, {0.02, false}} {
		spec := lampSpec(t)
		spec.Card.Bore.Sigma, spec.Load.Axial = test.sigma, -1
		f := judged(t, spec, "retention")
		if told := strings.Contains(f.Detail, "scatter"); told != test.says || told != (f.Value == 0) || told != strings.Contains(f.Remedy, "coupon") {
			t.Errorf("scatter %v: %+v", test.sigma, f)
		}
	}
}

package bearing_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A rod of 8 mm: h6 is 0 to -9 µm and a bore of normal class 0 to -8, so from 8 µm
// interference to 9 µm clearance; g6 is 5 µm looser (ISO 286, ISO 492).
func TestOnRod(t *testing.T) {
	b := find(t, "608")
	for _, test := range []struct {
		class             string
		slides            bool
		tightest, loosest float64
	}{
		{"", false, -8, 9},
		{"", true, -3, 14},
		{"g6", false, -3, 14},
		{"k6", false, -18, -1},
	} {
		r, err := bearing.OnRod(b, test.class, test.slides, 0, nil)
		if err != nil || r.Fit.Tightest != test.tightest || r.Fit.Loosest != test.loosest || len(r.Findings) != 1 {
			t.Errorf("%q: %+v, %v", test.class, r, err)
		}
	}
	for _, test := range []struct {
		shoulder      float64
		backs, clears check.Verdict
	}{{10, check.Fail, check.Pass}, {11, check.Pass, check.Pass}, {13, check.Pass, check.Fail}} {
		r, err := bearing.OnRod(b, "", false, test.shoulder, nil)
		if err != nil {
			t.Fatal(err)
		}
		if f := finding(t, r.Findings, "rod-shoulder"); f.Verdict != test.backs {
			t.Errorf("shoulder %v: %+v", test.shoulder, f)
		}
		if f := finding(t, r.Findings, "rod-clearance"); f.Verdict != test.clears {
			t.Errorf("shoulder %v: %+v", test.shoulder, f)
		}
	}
	var wrong *check.FieldError
	if _, err := bearing.OnRod(b, "N7", false, 0, nil); !errors.As(err, &wrong) || wrong.Remedy == "" {
		t.Errorf("a bore's class on a rod: %v", err)
	}
	if _, err := bearing.OnRod(b, "", false, math.NaN(), nil); !errors.As(err, &wrong) {
		t.Errorf("a shoulder that is no number: %v", err)
	}
}

// A rod of 6 mm with a flat 0.5 mm deep: 5.5 mm over it, a chord of 2 sqrt(2.75) =
// 3.3166 mm; 0.2 N·m on 10 mm of it presses with 12 x 200 / (10 x 11) = 21.82 MPa
// (elementary, pressure that grows from the middle).
func TestFlat(t *testing.T) {
	f := bearing.Flat{Diameter: 6, Depth: 0.5, Length: 10}
	if f.Across() != 5.5 || !near(f.Width(), 3.31662, 1e-5) || !near(f.Pressure(0.2), 240.0/11, 1e-9) {
		t.Errorf("%v over it, %v wide, %v MPa", f.Across(), f.Width(), f.Pressure(0.2))
	}
	// Summed over strips of one half: force times lever is the torque again.
	const n = 10000
	torque, half := 0.0, f.Width()/2
	for i := range n {
		x := half * (float64(i) + 0.5) / n
		torque += f.Pressure(0.2) * x / half * f.Length * half / n * x / 1000
	}
	if !near(torque, 0.2, 1e-6) {
		t.Errorf("the pressure carries %v N·m", torque)
	}
	spec := lampSpec(t)
	for _, r := range []bearing.RodSpec{{Flat: 9, FlatLength: 10}, {Flat: 1}, {FlatLength: 10}, {Torque: 1}, {Flat: 1, FlatLength: math.NaN()}, {Class: "N7"}} {
		var wrong *check.FieldError
		spec.Rod = &r
		if _, err := bearing.NewHousing(spec); !errors.As(err, &wrong) || wrong.Remedy == "" {
			t.Errorf("%+v: %v", r, err)
		}
	}
	spec.Rod = &bearing.RodSpec{Flat: 1.5, FlatLength: 12, Shoulder: 20}
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	if v := h.Values(); v["flat_across"] != 15.5 || v["rod_class"] != "h6" || v["rod_lower_um"] != -11.0 {
		t.Errorf("%v", v)
	}
	if text := strings.Join(h.Assembly(), "\n"); !strings.Contains(text, "15.5 mm over it") || !strings.Contains(text, "inner ring only") {
		t.Errorf("assembly %s", text)
	}
}

// The seat in a gear is the ring's own: a body drawn with its contours proves
// closed, the bore is drawn for the printer, and a body with a thin wall fails
// the check of the wall.
func TestSeatIn(t *testing.T) {
	for _, fitWord := range []string{bearing.Press, bearing.CrushRibs} {
		spec := lampSpec(t)
		spec.Bearing, spec.Fit = find(t, "608"), fitWord
		s, err := bearing.SeatIn(spec, 34)
		if err != nil {
			t.Fatal(err)
		}
		body := geom.Peg(geom.Point{}, 40, geom.ChordPlain)
		two := func(c geom.Contour) []geom.Contour { return []geom.Contour{body, c} }
		_, err = geom.NewPart("gear",
			geom.Slab{Z0: 0, Z1: s.ShoulderTop, Bottom: two(s.Hole)},
			geom.Slab{Z0: s.ShoulderTop, Z1: s.Mouth, Bottom: two(s.Bore)},
			geom.Slab{Z0: s.Mouth, Z1: s.Top, Bottom: two(s.Bore), Top: two(s.MouthTop)})
		if err != nil || s.Top != 10 || s.ShoulderTop != 3 || s.GrooveTop != 3 {
			t.Errorf("%s: %v, %+v", fitWord, err, s)
		}
		if f := finding(t, s.Findings, "housing-wall"); !near(f.Value, 6, 1e-9) {
			t.Errorf("%s: wall %+v", fitWord, f)
		}
	}
	spec := lampSpec(t)
	spec.Bearing = find(t, "618/8")
	s, err := bearing.SeatIn(spec, 17)
	if err != nil || len(s.Groove.Points) != len(s.Bore.Points) || !(s.ShoulderTop < s.GrooveTop && s.GrooveTop < s.SlopeTop && s.SlopeTop < s.Mouth) {
		t.Errorf("618/8: %v, %+v", err, s)
	}
	if f := finding(t, s.Findings, "housing-wall"); f.Verdict == check.Pass {
		t.Errorf("a wall of half a millimetre: %+v", f)
	}
	var wrong *check.FieldError
	if _, err := bearing.SeatIn(spec, 15); !errors.As(err, &wrong) || !strings.Contains(wrong.Reason, "no room") {
		t.Errorf("a body smaller than the bearing: %v", err)
	}
}

// What the builder must be told, by the kind of bearing and the options.
func TestAssembly(t *testing.T) {
	cone := find(t, "30203")
	thrust := find(t, "51106")
	thrust.WasherBore = 32
	for _, test := range []struct {
		name   string
		change func(*bearing.HousingSpec)
		says   []string
	}{
		{"tapered", func(*bearing.HousingSpec) {}, []string{"smaller opening, goes down", "on the cup only", "0.04 mm"}},
		{"thrust", func(s *bearing.HousingSpec) { s.Bearing = thrust }, []string{"larger bore, 32 mm, goes into the seat", "housing washer only"}},
		{"slip", func(s *bearing.HousingSpec) { s.Fit = bearing.Slip }, []string{"by hand"}},
		{"disc", func(s *bearing.HousingSpec) { s.PressingDisc = true }, []string{"lamp-pressing-disc"}},
		{"machined", func(s *bearing.HousingSpec) { s.Fit = "N7" }, []string{"turn the seat to 40 mm N7 first"}},
		{"lip", func(s *bearing.HousingSpec) { s.Fit, s.Lip = bearing.Slip, &bearing.Lip{} }, []string{"snapped"}},
		{"cap", func(s *bearing.HousingSpec) { s.Cap = &bearing.Cap{Screw: screw(t, "M3"), Count: 3} }, []string{"lamp-cap on the cup", "3 M3 screws"}},
		{"slots", func(s *bearing.HousingSpec) { s.InspectionSlots = 3 }, []string{"look through the slots"}},
		{"pair", func(s *bearing.HousingSpec) { s.Load.Second, s.Load.Span = &cone, 40 }, []string{"again after 24 hours"}},
	} {
		spec := lampSpec(t)
		test.change(&spec)
		h, err := bearing.NewHousing(spec)
		if err != nil {
			t.Fatalf("%s: %v", test.name, err)
		}
		text := strings.Join(h.Assembly(), "\n")
		for _, words := range test.says {
			if !strings.Contains(text, words) {
				t.Errorf("%s: %q is not in\n%s", test.name, words, text)
			}
		}
	}
}

// A seat in another part names that part in its fits, has no tube of its own, and
// is corrected by what earlier prints of that part measured: 0.05 mm too small.
func TestSeatInNamesItsPart(t *testing.T) {
	spec := lampSpec(t)
	spec.Part = "lamp-wheel"
	plain, err := bearing.SeatIn(spec, 70)
	if err != nil {
		t.Fatal(err)
	}
	spec.Card.Readings = []fit.Reading{{Part: "lamp-wheel", Feature: "seat", Read: []float64{39.85}}}
	read, err := bearing.SeatIn(spec, 70)
	if err != nil {
		t.Fatal(err)
	}
	if len(plain.Fits) != 2 {
		t.Errorf("%+v, want seat and shoulder hole", plain.Fits)
	}
	for i, f := range read.Fits {
		want := map[string]float64{"seat": 0.05}[f.Feature]
		if f.Part != "lamp-wheel" || !near(f.Drawn-plain.Fits[i].Drawn, want, 1e-9) {
			t.Errorf("%+v, was %+v", f, plain.Fits[i])
		}
	}
	if grown := read.Bore.Diameter() - plain.Bore.Diameter(); !near(grown, 0.05, 1e-6) {
		t.Errorf("the bore is drawn %v mm larger", grown)
	}
}

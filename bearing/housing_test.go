package bearing_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

func material(t *testing.T, name string) fit.Material {
	t.Helper()
	m, ok := fit.MaterialNamed(name)
	if !ok {
		t.Fatalf("no material %s", name)
	}
	return m
}

// lampSpec is the ring of a lamp on a 30203 in PETG, printer not measured.
func lampSpec(t *testing.T) bearing.HousingSpec {
	t.Helper()
	screw, _ := fit.ScrewNamed("M3")
	return bearing.HousingSpec{
		Name: "lamp", Bearing: find(t, "30203"), Fit: bearing.Press, Material: material(t, "PETG"),
		Card: fit.Card{
			Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, FirstLayerGrowth: 0.2, Bed: [2]float64{220, 220},
			Bore: fit.Error{Offset: -0.18, Sigma: 0.05}, Outside: fit.Error{Offset: 0.08, Sigma: 0.05},
		},
		Flange: &bearing.Flange{Screw: screw, Count: 4}, HottestC: 40, Load: bearing.Load{Axial: 1.9 * 9.80665},
	}
}

// By hand: delta 0.25 % of 40; seat 40 - 0.1, drawn 0.18 larger; wall 0.12 x 40 =
// 4.8 in beads of 0.45: 11 beads; outside 40.08 + 9.9; hole (33 + 34.5) / 2;
// height 3 + C 11; bolt circle 49.98 + 2 (5.5/2 + 0.5) up to 0.5; flange 9 more, drawn
// 0.08 smaller as outsides come out larger by that.
func TestLampRing(t *testing.T) {
	h, err := bearing.NewHousing(lampSpec(t))
	if err != nil {
		t.Fatal(err)
	}
	values := h.Values()
	for key, want := range map[string]float64{
		"delta": 0.1, "seat_wanted": 39.9, "seat_drawn": 40.08, "seat_expected": 39.9, "wall": 4.95, "outside": 49.98,
		"shoulder_hole": 33.75, "shoulder_hole_min": 33, "shoulder_hole_max": 34.5, "height": 14, "seat_height": 3, "seat_depth": 11,
		"bolt_circle": 56.5, "flange_diameter": 65.5, "flange_thickness": 5, "hoop_strain": 0.0025, "lead_in": 0.5,
	} {
		if have, ok := values[key].(float64); !ok || !near(have, want, 1e-9) {
			t.Errorf("%s = %v, want %v", key, values[key], want)
		}
	}
	for key, v := range values {
		if x, ok := v.(float64); ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
			t.Errorf("%s = %v", key, x)
		}
	}
	if a := h.BoltAngles(); len(a) != 4 || a[0] != math.Pi/4 || !near(a[1], 3*math.Pi/4, 1e-12) {
		t.Errorf("bolt angles %v", a)
	}
	for _, f := range h.Findings() {
		if f.Verdict == check.Fail || (f.Verdict == check.Caution && f.Check != "fit-unmeasured") || f.Part != "lamp-ring" {
			t.Errorf("finding %+v", f)
		}
	}
	if fits := h.Fits(); len(fits) != 5 || fits[0].Feature != "seat" || !near(fits[0].Expected, 39.9, 1e-9) {
		t.Errorf("fits %+v", h.Fits())
	}
}

// The printed outline itself: across its flats, on both axes, the seat measures
// what the fit says, the tube its outside, and the layers what the ring promises.
func TestLampRingMeasuresAsDrawn(t *testing.T) {
	h, err := bearing.NewHousing(lampSpec(t))
	if err != nil {
		t.Fatal(err)
	}
	part := h.Parts()[0]
	if part.Name() != "lamp-ring" || !near(part.Height(), 14, 1e-3) {
		t.Errorf("%s is %v high", part.Name(), part.Height())
	}
	across := func(z float64, hole int) float64 { // smallest extent of one loop
		for _, l := range part.Layers() {
			if z0, z1 := float64(l.Z0)/geom.PerMM, float64(l.Z1)/geom.PerMM; z0 < z && z < z1 {
				loop := l.Bottom.Loops()[hole]
				lo, hi := loop[0].Point(), loop[0].Point()
				for _, v := range loop {
					p := v.Point()
					lo = geom.Point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}
					hi = geom.Point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
				}
				return math.Min(hi.X-lo.X, hi.Y-lo.Y)
			}
		}
		return 0
	}
	const grid = 2.0 / geom.PerMM
	for _, test := range []struct {
		what   string
		z      float64
		loop   int
		wanted float64
	}{
		{"flange", 2, 0, 65.42},
		{"screw hole", 2, 1, 3.58},
		{"shoulder hole", 2, 5, 33.93},
		{"seat beside the flange", 4, 5, 40.08},
		{"tube", 8, 0, 49.98},
		{"seat", 8, 1, 40.08},
	} {
		if got := across(test.z, test.loop); !near(got, test.wanted, grid) {
			t.Errorf("%s at z = %v: %v across, want %v", test.what, test.z, got, test.wanted)
		}
	}
}

func TestSlipFit(t *testing.T) {
	spec := lampSpec(t)
	spec.Fit = bearing.Slip
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	if f := h.Fits()[0]; !near(f.Wanted, 40.1, 1e-9) || !near(f.Drawn, 40.28, 1e-9) {
		t.Errorf("slip seat %+v, want 40.1 drawn 40.28", f)
	}
	for _, f := range h.Findings() {
		if strings.HasPrefix(f.Check, "hoop") || f.Check == "insertion-force" {
			t.Errorf("a loose ring is judged for %s", f.Check)
		}
	}
}

// Each refusal names the quantity; a remedy says what to do.
func TestNewHousingRefuses(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*bearing.HousingSpec)
		field string
	}{
		{"no name", func(s *bearing.HousingSpec) { s.Name = "" }, "housing name"},
		{"unknown fit", func(s *bearing.HousingSpec) { s.Fit = "glue" }, "fit"},
		{"slip with interference", func(s *bearing.HousingSpec) { s.Fit, s.Interference = bearing.Slip, 0.1 }, "interference"},
		{"negative interference", func(s *bearing.HousingSpec) { s.Interference = -0.1 }, "interference"},
		{"interference of millimetres", func(s *bearing.HousingSpec) { s.Interference = 3 }, "interference"},
		{"not a number", func(s *bearing.HousingSpec) { s.Interference = math.NaN() }, "interference"},
		{"wall thinner than a bead", func(s *bearing.HousingSpec) { s.Wall = 0.4 }, "wall"},
		{"negative wall", func(s *bearing.HousingSpec) { s.Wall = -1 }, "wall"},
		{"infinite wall", func(s *bearing.HousingSpec) { s.Wall = math.Inf(1) }, "wall"},
		{"paper-thin shoulder", func(s *bearing.HousingSpec) { s.ShoulderThickness = 0.3 }, "shoulder thickness"},
		{"shoulder hole as large as the seat", func(s *bearing.HousingSpec) { s.ShoulderHole = 39.9 }, "shoulder hole"},
		{"shoulder hole beyond the bearing", func(s *bearing.HousingSpec) { s.ShoulderHole = 45 }, "shoulder hole"},
		{"flange into the lead-in", func(s *bearing.HousingSpec) { s.Flange.Thickness = 13.5 }, "flange thickness"},
		{"flange of one layer", func(s *bearing.HousingSpec) { s.Flange.Thickness = 0.2 }, "flange thickness"},
		{"too many screws for the heads", func(s *bearing.HousingSpec) {
			s.Flange.Screw, _ = fit.ScrewNamed("M8")
			s.Flange.Count = 24
		}, "number of flange screws"},
		{"no screws", func(s *bearing.HousingSpec) { s.Flange.Count = 0 }, "number of flange screws"},
		{"unknown screw", func(s *bearing.HousingSpec) { s.Flange.Screw = fit.Screw{Size: "M7"} }, "screw size"},
		{"no material", func(s *bearing.HousingSpec) { s.Material = fit.Material{} }, "material"},
		{"no bead", func(s *bearing.HousingSpec) { s.Card.BeadWidth = 0 }, "bead width"},
		{"hot as a kiln", func(s *bearing.HousingSpec) { s.HottestC = 900 }, "hottest temperature"},
		{"load not a number", func(s *bearing.HousingSpec) { s.Load.Axial = math.NaN() }, "axial load"},
		{"coarse chords", func(s *bearing.HousingSpec) { s.ChordError = 0.2 }, "chord error"},
		{"bore as large as the outside", func(s *bearing.HousingSpec) { s.Bearing.Bore = 40 }, "bearing bore"},
	} {
		spec := lampSpec(t)
		test.spoil(&spec)
		h, err := bearing.NewHousing(spec)
		var wrong *check.FieldError
		if !errors.As(err, &wrong) || wrong.Field != test.field || wrong.Remedy == "" || h != nil {
			t.Errorf("%s: %v, want an error about %s", test.name, err, test.field)
		}
	}
}

func ExampleNewHousing() {
	b, _ := bearing.Find("608")
	petg, _ := fit.MaterialNamed("PETG")
	h, err := bearing.NewHousing(bearing.HousingSpec{
		Name: "crank", Bearing: b, Fit: bearing.Press, Material: petg,
		Card: fit.Card{Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, Bore: fit.FirstGuessBore, Bed: [2]float64{220, 220}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	seat := h.Fits()[0]
	fmt.Printf("seat %.3f mm, drawn %.3f; wall %.2f; hole behind the ring %.1f\n", seat.Wanted, seat.Drawn, h.Wall(), h.ShoulderHole())
	// Output: seat 21.945 mm, drawn 22.145; wall 3.15; hole behind the ring 19.2
}

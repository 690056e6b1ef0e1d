package bearing_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/geom"
)

// clampSpec is a 608 in a slit ring with an M3 screw.
func clampSpec(t *testing.T, c bearing.Clamp) bearing.HousingSpec {
	t.Helper()
	spec := lampSpec(t)
	c.Screw = screw(t, "M3")
	spec.Bearing, spec.Flange, spec.Fit, spec.Clamp = find(t, "608"), nil, bearing.Slip, &c
	return spec
}

// By hand, 608 in a slip seat of 22.1 mm drawn 22.28, wall 7 beads: outside 28.58.
// The slit closes by pi x 0.1 mm until the seat grips. The layer at the seat is the
// ring less its slit plus two ears; at the screw's height, the ears less its holes.
func TestClampRing(t *testing.T) {
	h, err := bearing.NewHousing(clampSpec(t, bearing.Clamp{}))
	if err != nil {
		t.Fatal(err)
	}
	v := h.Values()
	for key, want := range map[string]float64{
		"slit_width": 2, "slit_closes": math.Pi * 0.1, "ear_thickness": 7.65, "outside": 28.58,
		"screw_length_min": 7.65 + 2 + 6, "screw_length_max": 2*7.65 + 2, "hoop_strain": 0,
	} {
		if have, ok := v[key].(float64); !ok || !near(have, want, 1e-9) {
			t.Errorf("%s = %v, want %v", key, v[key], want)
		}
	}
	axis, height, end := v["screw_axis"].(float64), v["screw_height"].(float64), v["ears_reach"].(float64)
	section := func(z float64) geom.Region {
		for _, l := range h.Parts()[0].Layers() {
			if z0, z1 := float64(l.Z0)/geom.PerMM, float64(l.Z1)/geom.PerMM; z0 < z && z < z1 && !l.Loft {
				return l.Bottom
			}
		}
		t.Fatalf("no layer at %v", z)
		return geom.Region{}
	}
	at := func(r geom.Region, x, y float64) bool { return r.Contains(geom.Snap(geom.Point{X: x, Y: y})) }
	seat, drilled := section(3.6), section(height)
	if len(seat.Loops()) != 1 || at(seat, 12.5, 0) || at(seat, axis, 0.9) || !at(seat, axis, 1.1) || !at(seat, axis, -8.5) || at(seat, axis, 8.7) || !at(seat, -12.5, 0) || at(seat, end+0.1, 5) {
		t.Error("the seat's layer is no ring with a slit and two ears")
	}
	outer, inner, face, edge := 14.29, 11.14, 8.65, 1.0
	// Elementary: what lies between x = 0 and a circle, for 0 < y < h.
	under := func(r, h float64) float64 { return (h*math.Sqrt(r*r-h*h) + r*r*math.Asin(h/r)) / 2 }
	want := math.Pi*(outer*outer-inner*inner) - 2*(under(outer, edge)-under(inner, edge)) +
		2*(end*(face-edge)-(under(outer, face)-under(outer, edge)))
	if got := seat.Area(); !near(got, want, 0.04*math.Pi*outer*2) {
		t.Errorf("area at the seat %v, want %v", got, want)
	}
	// Clearance 3.4 + 0.18 towards the head, pilot 2.525 + 0.18 beyond the slit.
	for _, test := range []struct {
		x, y float64
		want bool
	}{{axis + 1.7, 5, false}, {axis + 1.9, 5, true}, {axis + 1.3, -5, false}, {axis + 1.5, -5, true}, {axis - 1.5, -5, true}} {
		if at(drilled, test.x, test.y) != test.want {
			t.Errorf("at the screw (%v, %v): %v", test.x, test.y, !test.want)
		}
	}
	if axis-3.58/2 < outer-0.001 || height-3.58/2 < 0.3 {
		t.Errorf("the screw at %v, %v meets the tube or the bed", axis, height)
	}
	text := strings.Join(h.Assembly(), "\n")
	for _, words := range []string{"by hand", "M3 clamp screw", "closes by about 0.31 mm", "again after 24 hours"} {
		if !strings.Contains(text, words) {
			t.Errorf("%q is not in\n%s", words, text)
		}
	}
}

// A nut of M3, 5.5 mm across the flats and 2.4 high (ISO 4032), drops 0.3 mm
// looser from the mouth to where its middle is the screw's.
func TestClampNut(t *testing.T) {
	h, err := bearing.NewHousing(clampSpec(t, bearing.Clamp{Nut: true}))
	if err != nil {
		t.Fatal(err)
	}
	v := h.Values()
	axis, height := v["screw_axis"].(float64), v["screw_height"].(float64)
	middle := -(2 + v["ear_thickness"].(float64)) / 2
	for _, l := range h.Parts()[0].Layers() {
		z := float64(l.Z0+l.Z1) / 2 / geom.PerMM
		open := z > height-5.8/math.Sqrt(3)-0.01
		for _, p := range []geom.Point{{X: axis - 2.8, Y: middle}, {X: axis + 2.8, Y: middle + 1.3}, {X: axis + 2.8, Y: middle - 1.3}} {
			if l.Bottom.Contains(geom.Snap(p)) == open {
				t.Errorf("z %v: material %v at %v", z, !open, p)
			}
		}
		if !l.Bottom.Contains(geom.Snap(geom.Point{X: axis - 2.8, Y: middle + 1.5})) && !l.Loft {
			t.Errorf("z %v: no wall beside the nut", z)
		}
	}
}

func TestClampRefused(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(*bearing.HousingSpec)
		field  string
	}{
		{"press fit", func(s *bearing.HousingSpec) { s.Fit = bearing.Press }, "fit"},
		{"flange", func(s *bearing.HousingSpec) { s.Flange = &bearing.Flange{Screw: screw(t, "M3"), Count: 4} }, "clamp"},
		{"foot", func(s *bearing.HousingSpec) { s.Foot = &bearing.Foot{Screw: screw(t, "M3"), Count: 2} }, "clamp"},
		{"cap", func(s *bearing.HousingSpec) { s.Cap = &bearing.Cap{Screw: screw(t, "M2"), Count: 3} }, "clamp"},
		{"lip", func(s *bearing.HousingSpec) { s.Lip = &bearing.Lip{} }, "clamp"},
		{"slots", func(s *bearing.HousingSpec) { s.InspectionSlots = 2 }, "clamp"},
		{"negative slit", func(s *bearing.HousingSpec) { s.Clamp.Slit = -1 }, "slit width"},
		{"no number", func(s *bearing.HousingSpec) { s.Clamp.Thickness = math.NaN() }, "ear thickness"},
		{"ears of a bead and a half", func(s *bearing.HousingSpec) { s.Clamp.Thickness = 0.7 }, "ear thickness"},
		{"ears as broad as the tube", func(s *bearing.HousingSpec) { s.Clamp.Thickness = 14 }, "ear thickness"},
		{"M8 beside 7 mm", func(s *bearing.HousingSpec) { s.Clamp.Screw, s.Clamp.Thickness = screw(t, "M8"), 8 }, "shoulder thickness"},
		{"unknown screw", func(s *bearing.HousingSpec) { s.Clamp.Screw.Pilot = 0 }, "screw size"},
	} {
		spec := clampSpec(t, bearing.Clamp{})
		test.change(&spec)
		var wrong *check.FieldError
		if _, err := bearing.NewHousing(spec); !errors.As(err, &wrong) || wrong.Field != test.field || wrong.Remedy == "" {
			t.Errorf("%s: %v, want an error about %s", test.name, err, test.field)
		}
	}
}

// By hand, a 608 in PETG (44 MPa, 2500 MPa) with an M3 screw whose hole is drawn
// 3.58 mm: the head of 5.5 mm presses at 11 MPa on pi / 4 (5.5² - 3.58²); a ring cut
// open of 10 mm by 3.15 mm, mean radius (22.28 + 3.15) / 2, closes by pi 0.1 mm;
// from both ends a band at mu 0.15 holds 2 F (1 - e^(-0.15 pi)) (rope friction).
// 30 % of it is left after creep.
func TestClampHolds(t *testing.T) {
	spec := lampSpec(t)
	spec.Bearing, spec.Fit, spec.Flange, spec.Clamp = find(t, "608"), bearing.Slip, nil, &bearing.Clamp{Screw: screw(t, "M3")}
	spec.Load = bearing.Load{}
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	tension := 11 * math.Pi / 4 * (5.5*5.5 - 3.58*3.58)
	mean := (22.28 + 3.15) / 2
	closing := 0.1 * math.Pi * 2500 * (10 * 3.15 * 3.15 * 3.15 / 12) / (3 * math.Pi * mean * mean * mean)
	holds := 2 * (tension - closing) * (1 - math.Exp(-0.15*math.Pi))
	v := h.Values()
	for key, want := range map[string]float64{"clamp_tension": tension, "clamp_closing_force": closing, "retention": holds, "retention_after_creep": 0.3 * holds} {
		if have := v[key].(float64); !near(have, want, 1e-6*want) {
			t.Errorf("%s = %v, want %v", key, have, want)
		}
	}
	for _, test := range []struct {
		pull float64
		want check.Verdict
	}{{0, check.Pass}, {0.3 * holds / 4, check.Caution}, {0.3 * holds * 1.01, check.Fail}} {
		spec.Load.Axial = -test.pull
		if f := judged(t, spec, "retention"); f.Verdict != test.want || !near(f.Value, 0.3*holds, 0.01) || f.Detail == "" {
			t.Errorf("pulled by %v N: %+v, want %s", test.pull, f, test.want)
		}
	}
	// A short thread in the far ear strips before the head sinks in: 11 MPa x 0.5 on pi 3 x 2.
	spec.Clamp.Thickness = 2
	if h, err = bearing.NewHousing(spec); err != nil {
		t.Fatal(err)
	}
	if have := h.Values()["clamp_tension"].(float64); !near(have, 5.5*math.Pi*6, 1e-6) {
		t.Errorf("short thread: %v N", have)
	}
}

package gear

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pintle/check"
	"pintle/drawing"
	"pintle/fit"
	"pintle/mesh"
)

// sectorSpec is a wheel of 60 teeth that swings by 50 degrees.
func sectorSpec() PairSpec {
	spec := bareSpec(20, 60)
	spec.Loading.Swing = 50 * degree
	spec.Wheel = Body{Bore: 8, Sector: 12}
	return spec
}

// 50 degrees of 60 teeth are 8.33 teeth; with a contact ratio of 1.67 that is
// over 10, so 11, and one to spare makes 12 (counting). 12 asked for make 13, so
// that the middle one stands on the line; 9 are too few.
func TestSector(t *testing.T) {
	spec := sectorSpec()
	p := mustPair(t, spec)
	f := finding(t, p, "lamp-wheel", "sector")
	if f.Value != 13 || f.Limit != ">= 12" || f.Verdict != check.Pass {
		t.Errorf("%g teeth, %s, %s", f.Value, f.Limit, f.Verdict)
	}
	g := p.Wheel()
	tips, hub := 0, math.Inf(1)
	for _, q := range g.Outline().Points {
		hub = math.Min(hub, q.Len())
		if q.Len() > g.drawn.ra-1e-6 && math.Abs(q.Angle()-math.Round(q.Angle()/(6*degree))*6*degree) < 1e-9 {
			tips++
		}
	}
	if tips != 13 {
		t.Errorf("%d tips in the outline", tips)
	}
	near(t, "round body", 2*hub, 0.6*g.RootDiameter(), 0.02)
	near(t, "vertex on its tooth", g.strayed(g.teethLoop()), 0, 1e-4)
	near(t, "backlash by motion", p.proof.print.min, mustPair(t, bareSpec(20, 60)).proof.print.min, 1e-4)
	got, err := mesh.FromPart(g.Part())
	if err == nil {
		err = got.Verify()
	}
	if err != nil {
		t.Fatal(err)
	}
	if whole := mustPair(t, bareSpec(20, 60)).Wheel().Part().Volume(); g.Part().Volume() > 0.6*whole {
		t.Errorf("the sector has %g mm3 of %g", g.Part().Volume(), whole)
	}

	v := p.Values()
	for _, key := range []string{"M2", "tip2_reading"} {
		if _, ok := v[key]; ok {
			t.Errorf("%s of a sector, which has nothing opposite its teeth", key)
		}
	}
	if _, ok := v["W2"]; !ok || v["k2"] != 7 {
		t.Errorf("span over %v teeth of a sector of 13", v["k2"])
	}
	if line := p.readingLine(1); strings.Contains(line, "pins") || strings.Contains(line, "tips") || !strings.Contains(line, "over 7 teeth") {
		t.Errorf("reading of a sector: %s", line)
	}
	spec.Wheel.Sector = 5 // fewer than the span takes
	short := mustPair(t, spec)
	if _, ok := short.Values()["W2"]; ok || !strings.Contains(short.readingLine(1), "too few teeth") {
		t.Errorf("span of five teeth: %s", short.readingLine(1))
	}

	spec.Wheel.Sector = 9
	if f = finding(t, mustPair(t, spec), "lamp-wheel", "sector"); f.Verdict != check.Fail || f.Remedy != "teeth of the sector >= 12" {
		t.Errorf("9 teeth: %s, %q", f.Verdict, f.Remedy)
	}
}

// Screws outside a sector's round body are refused with the circle that fits
// and with the body that takes them; either, followed, passes.
func TestSectorTakesScrews(t *testing.T) {
	spec := sectorSpec() // hub of 0.6 root diameters: 51.75 mm
	spec.Wheel.Bolts = &BoltCircle{Diameter: 60, Count: 4, Screw: screw(t, "M3")}
	_, err := NewPair(spec)
	var field *check.FieldError
	if !errors.As(err, &field) || field.Reason != "leaves no rim inside the sector's hub of 51.75 mm" {
		t.Fatal(err)
	}
	var circle, hub float64
	if n, _ := fmt.Sscanf(field.Remedy, "bolt circle <= %g mm, or hub of the sector >= %g mm", &circle, &hub); n != 2 {
		t.Fatal(field.Remedy)
	}
	for _, cure := range []func(*PairSpec){
		func(s *PairSpec) { s.Wheel.Bolts = &BoltCircle{Diameter: circle, Count: 4, Screw: screw(t, "M3")} },
		func(s *PairSpec) { s.Wheel.SectorHub = hub },
	} {
		cured := spec
		cure(&cured)
		if f := finding(t, mustPair(t, cured), "lamp-wheel", "rim"); f.Verdict == check.Fail {
			t.Errorf("after %s: rim %g, %s", field.Remedy, f.Value, f.Limit)
		}
	}
	spec.Wheel.Bolts.Diameter = 80 // no round body reaches so far
	if _, err = NewPair(spec); !errors.As(err, &field) || strings.Contains(field.Remedy, "hub of the sector") {
		t.Error(err)
	}
}

// The drawing of a sector dimensions tips and round body as wanted, whatever the
// card makes of the outline: 60 teeth of module 1.5 have tips of radius 46.5, a
// body of 0.6 x 86.25 mm, and are 46.5 + 25.875 mm long over both.
func TestSectorSizes(t *testing.T) {
	spec := sectorSpec()
	spec.Card.Outside = fit.Error{Offset: 0.08, Sigma: 0.05}
	dims := mustPair(t, spec).Details("lamp-wheel").Dimensions
	for _, want := range []struct {
		text string
		size float64
	}{{"R46.5 ±0.05 tips", 46.5}, {"R25.88 hub of the sector", 25.875}, {"(", 72.375}} {
		if !slices.ContainsFunc(dims, func(d drawing.Dimension) bool {
			return strings.HasPrefix(d.Text(), want.text) && math.Abs(d.Size()-want.size) < 0.005
		}) {
			t.Errorf("no %s of %g mm", want.text, want.size)
		}
	}
}

func TestSectorRefuses(t *testing.T) {
	for _, test := range []struct {
		field  string
		change func(*PairSpec)
	}{
		{"teeth of the sector", func(s *PairSpec) { s.Wheel.Sector = 2 }},
		{"teeth of the sector", func(s *PairSpec) { s.Wheel.Sector = 55 }},
		{"hub of the sector", func(s *PairSpec) { s.Wheel.SectorHub = 86 }},
		{"teeth of the sector", func(s *PairSpec) { s.Teeth[1] = -60 }},
		{"bore", func(s *PairSpec) { s.Wheel.Bore = 60 }},
	} {
		spec := sectorSpec()
		test.change(&spec)
		_, err := NewPair(spec)
		var field *check.FieldError
		if !errors.As(err, &field) || !strings.HasPrefix(field.Field, test.field) || field.Remedy == "" {
			t.Errorf("%s: got %v", test.field, err)
		}
	}
}

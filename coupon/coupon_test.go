package coupon_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/coupon"
	"pintle/fit"
	"pintle/mesh"
)

func petg() fit.Material { m, _ := fit.MaterialNamed("PETG"); return m }

func guess() fit.Card {
	return fit.Card{
		Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, Bore: fit.FirstGuessBore, Outside: fit.FirstGuessOutside,
		FirstLayerGrowth: 0.2, Bed: [2]float64{220, 220},
	}
}

func spec(t *testing.T, designation string) coupon.Spec {
	t.Helper()
	b, err := bearing.Named(designation)
	if err != nil {
		t.Fatal(err)
	}
	return coupon.Spec{
		Name: "coupon", Bearing: b, Module: 1.5, Card: guess(), Material: petg(), Nozzle: 0.4, CardName: "petg04",
		Horn: coupon.Horn{Kind: "disc", Diameter: 20.3, Thickness: 2.6, HubDiameter: 9.2},
	}
}

func made(t *testing.T, s coupon.Spec) *coupon.Coupon {
	t.Helper()
	c, err := coupon.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Whatever the bearing, bead, module and horn, every plate is a closed mesh with
// the volume of its layers and lies on a bed of 150 mm; so says Findings too.
func TestClosedAndOnTheBed(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*coupon.Spec)
	}{
		{"usual", func(*coupon.Spec) {}},
		{"small bearing", func(s *coupon.Spec) { s.Bearing, _ = bearing.Named("623") }},
		{"tapered bearing", func(s *coupon.Spec) { s.Bearing, _ = bearing.Named("30203") }},
		{"coarse nozzle", func(s *coupon.Spec) { s.Card.BeadWidth, s.Card.LayerThickness = 0.66, 0.3 }},
		{"fine nozzle", func(s *coupon.Spec) { s.Card.BeadWidth, s.Card.LayerThickness = 0.22, 0.1 }},
		{"module 1", func(s *coupon.Spec) { s.Module = 1 }},
		{"module 3", func(s *coupon.Spec) { s.Module = 3 }},
		{"unequal gears", func(s *coupon.Spec) { s.Teeth = [2]int{20, 30} }},
		{"cross", func(s *coupon.Spec) {
			s.Horn = coupon.Horn{Kind: "cross", Thickness: 2, HubDiameter: 7, Arm: 18, WidthAtHub: 6, WidthAtTip: 4}
		}},
		{"arm", func(s *coupon.Spec) {
			s.Horn = coupon.Horn{Kind: "arm", Thickness: 2, HubDiameter: 7, Arm: 18, WidthAtHub: 6, WidthAtTip: 4}
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := spec(t, "608")
			test.spoil(&s)
			c := made(t, s)
			for _, p := range c.Parts() {
				m, err := mesh.FromPart(p)
				if err != nil {
					t.Fatal(err)
				}
				if err := m.Verify(); err != nil {
					t.Errorf("%s: %v", p.Name(), err)
				}
				lo, hi := p.Bounds()
				if hi.X-lo.X > coupon.Side || hi.Y-lo.Y > coupon.Side {
					t.Errorf("%s measures %.1f x %.1f mm", p.Name(), hi.X-lo.X, hi.Y-lo.Y)
				}
			}
			for _, f := range c.Findings() {
				if f.Verdict == check.Fail {
					t.Errorf("%+v", f)
				}
			}
		})
	}
}

// What is not known is left out with a note; asked for by name it is refused, and
// so is input that makes no coupon. The error names the quantity.
func TestLeftOutAndRefused(t *testing.T) {
	bare := coupon.Spec{Name: "coupon", Card: guess(), Material: petg()}
	c := made(t, bare)
	left := 0
	for _, f := range c.Findings() {
		if f.Check == "coupon-left-out" {
			left++
		}
	}
	if left != 5 || len(c.Parts()) != 6 {
		t.Errorf("%d pieces left out, %d parts made", left, len(c.Parts()))
	}
	for _, test := range []struct {
		field string
		spoil func(*coupon.Spec)
	}{
		{"only", func(s *coupon.Spec) { s.Only = []string{"rings"} }},
		{"only", func(s *coupon.Spec) { s.Only = []string{"wheels"} }},
		{"rings", func(s *coupon.Spec) { s.Rings = coupon.Steps{From: -20, To: 40, Step: 5} }},
		{"rings", func(s *coupon.Spec) { s.Rings = coupon.Steps{From: 0.4, To: -0.2, Step: 0.05} }},
		{"holes", func(s *coupon.Spec) { s.Holes = []float64{0.1} }},
		{"module", func(s *coupon.Spec) { s.Module = 0.1 }},
		{"card name", func(s *coupon.Spec) { s.CardName = "漢" }},
		{"horn diameter", func(s *coupon.Spec) { s.Horn = coupon.Horn{Kind: "disc", Thickness: 2, HubDiameter: 9} }},
		{"bearing outside diameter", func(s *coupon.Spec) { s.Bearing.Outside, s.Bearing.Bore, s.Bearing.Width = 160, 100, 20 }},
	} {
		s := bare
		test.spoil(&s)
		_, err := coupon.New(s)
		var wrong *check.FieldError
		if !errors.As(err, &wrong) || wrong.Field != test.field {
			t.Errorf("%s: %v", test.field, err)
		}
	}
}

// Pinions too small for the raised mark of their step are refused with a number of
// teeth that has room: followed, the set is made, and one tooth fewer is not.
func TestPinionsTooSmallForTheirMark(t *testing.T) {
	for _, module := range []float64{1, 1.5, 2, 2.5} {
		s := spec(t, "608")
		s.Module, s.Teeth = module, [2]int{12, 12}
		_, err := coupon.New(s)
		var wrong *check.FieldError
		if !errors.As(err, &wrong) || wrong.Field != "number of teeth" {
			t.Errorf("module %v: %v", module, err)
			continue
		}
		var teeth int
		if _, err := fmt.Sscanf(wrong.Remedy, "use %d teeth or more", &teeth); err != nil {
			t.Fatalf("%q: %v", wrong.Remedy, err)
		}
		s.Teeth = [2]int{teeth, teeth}
		made(t, s)
		s.Teeth[0]--
		if _, err := coupon.New(s); !errors.As(err, &wrong) || wrong.Field != "number of teeth" {
			t.Errorf("module %v, one of %d teeth: %v", module, teeth-1, err)
		}
	}
}

// A coupon by name is that piece alone, the same as in the whole set.
func TestOnly(t *testing.T) {
	s := spec(t, "608")
	s.Only = []string{"pegs", "bar"}
	c := made(t, s)
	if len(c.Parts()) != 2 || c.Parts()[0].Name() != "coupon-pegs" || c.Parts()[1].Name() != "coupon-bar" {
		t.Errorf("%d parts", len(c.Parts()))
	}
	for _, p := range made(t, spec(t, "608")).Parts() {
		if p.Name() == "coupon-pegs" && p.Volume() != c.Parts()[0].Volume() {
			t.Error("the pegs alone differ from those of the set")
		}
	}
}

// The card's errors change the readings expected, never what is drawn: only so
// is reading less drawn the printer's error.
func TestDrawnWithoutAllowance(t *testing.T) {
	s := spec(t, "608")
	before := made(t, s).Fits()
	s.Card.Bore.Offset, s.Card.Outside.Offset = -0.4, 0.3
	for i, f := range made(t, s).Fits() {
		if strings.HasSuffix(f.Part, "-pins") {
			continue // a tool, not a thing to read
		}
		if f.Drawn != before[i].Drawn || f.Expected == before[i].Expected {
			t.Errorf("%s, %s: drawn %v and %v, expected %v and %v", f.Part, f.Feature, before[i].Drawn, f.Drawn, before[i].Expected, f.Expected)
		}
	}
}

// The form is one page of A4 that names every mark with its drawn size and has
// two boxes for each, within the page.
func TestSheet(t *testing.T) {
	for _, designation := range []string{"623", "608", "30203"} {
		var out bytes.Buffer
		if err := made(t, spec(t, designation)).WriteSheet(&out); err != nil {
			t.Fatal(err)
		}
		page := out.String()
		for _, want := range []string{`width="210mm" height="297mm"`, ">-20<", ">+40<", "by hand", "needs a press", "cracks", "turns freely", "rattles", "petg04", "PETG"} {
			if !strings.Contains(page, want) {
				t.Errorf("%s: the form has no %q", designation, want)
			}
		}
		// 14 rings, 9 pegs, 4 or 3 holes, one that lies, 2 of the block, 2 of the bar; 7 questions.
		holes := 4
		if designation == "623" {
			holes = 3
		}
		if boxes := strings.Count(page, `fill="none" stroke="#000" stroke-width="0.2"/>`); boxes != 2*(14+9+holes+1+2+2)+7 {
			t.Errorf("%s: %d boxes", designation, boxes)
		}
	}
}

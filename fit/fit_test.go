package fit_test

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// A 40 mm ring with 0.1 mm interference on a printer whose bores come out 0.18 mm
// small: arithmetic by hand.
func TestHoleAllowance(t *testing.T) {
	card := fit.Card{Name: "none", Bore: fit.Error{Offset: -0.18, Sigma: 0.05}}
	got := card.Hole("lamp-ring", "seat", 39.9)
	want := fit.Fit{Part: "lamp-ring", Feature: "seat", Wanted: 39.9, Drawn: 40.08, Expected: 39.9, Sigma: 0.05, Card: "none"}
	if math.Abs(got.Drawn-want.Drawn) > 1e-9 || math.Abs(got.Expected-want.Expected) > 1e-9 {
		t.Errorf("Hole = %+v, want %+v", got, want)
	}
	got.Drawn, got.Expected = want.Drawn, want.Expected
	if got != want {
		t.Errorf("Hole = %+v, want %+v", got, want)
	}
}

// Whatever the error, the print of what is drawn comes out as wanted, and an
// outside uses the outside error.
func TestDrawnIsUndoneByPrinting(t *testing.T) {
	card := fit.Card{Bore: fit.Error{Offset: -0.15, PerMM: -0.0006}, Outside: fit.Error{Offset: 0.08, PerMM: 0.001}}
	for _, wanted := range []float64{2, 8, 22, 39.9, 120} {
		hole, peg := card.Hole("", "", wanted), card.Peg("", "", wanted)
		for _, f := range []fit.Fit{hole, peg} {
			if math.Abs(f.Expected-wanted) > 1e-12*wanted {
				t.Errorf("wanted %v, expected %v", wanted, f.Expected)
			}
		}
		if hole.Drawn <= wanted || peg.Drawn >= wanted {
			t.Errorf("wanted %v: hole drawn %v, peg drawn %v", wanted, hole.Drawn, peg.Drawn)
		}
	}
}

// The chamfer is never below 0.4 mm (common practice, no source) nor below what
// it must relieve.
func TestBedChamfer(t *testing.T) {
	for growth, want := range map[float64]float64{0: 0.4, 0.2: 0.4, 0.6: 0.6} {
		if got := (fit.Card{FirstLayerGrowth: growth}).BedChamfer(); got != want {
			t.Errorf("growth %v: chamfer %v, want %v", growth, got, want)
		}
	}
}

func TestCardValidate(t *testing.T) {
	good := fit.Card{Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, Bed: [2]float64{220, 220}}
	if err := good.Validate(); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name  string
		spoil func(*fit.Card)
		field string
	}{
		{"no bead", func(c *fit.Card) { c.BeadWidth = 0 }, "bead width"},
		{"layer as thick as a shoulder", func(c *fit.Card) { c.LayerThickness = 3 }, "layer thickness"},
		{"error not a number", func(c *fit.Card) { c.Bore.Offset = math.NaN() }, "bore error"},
		{"error in micrometres", func(c *fit.Card) { c.Outside.Offset = 80 }, "outside error"},
		{"no bed", func(c *fit.Card) { c.Bed[1] = 0 }, "bed width"},
	} {
		c := good
		test.spoil(&c)
		var wrong *check.FieldError
		if err := c.Validate(); !errors.As(err, &wrong) || wrong.Field != test.field {
			t.Errorf("%s: %v, want an error about %s", test.name, err, test.field)
		}
	}
}

package fit_test

import (
	"math"
	"testing"

	"pintle/fit"
)

// A peg wanted at 16.9 that measured 16.95, then 16.91, is drawn 0.06 mm smaller
// than the card alone would; a slip of the caliper counts 0.15 mm (by hand).
// Other parts and features are drawn as before.
func TestReadingsOfPrints(t *testing.T) {
	card := fit.Card{Name: "c", Outside: fit.Error{Offset: 0.08}, Bore: fit.Error{Offset: -0.2}}
	corrected := card
	corrected.Readings = []fit.Reading{{"lamp-wheel", "journal", []float64{16.95, 16.91}}, {"lamp-plate", "hole", []float64{3}}}
	for _, test := range []struct {
		part, feature string
		wanted, want  float64
		make          func(fit.Card, string, string, float64) fit.Fit
	}{
		{"lamp-wheel", "journal", 16.9, -0.06, fit.Card.Peg},
		{"lamp-wheel", "shoulder", 16.9, 0, fit.Card.Peg},
		{"arm-wheel", "journal", 16.9, 0, fit.Card.Peg},
		{"lamp-plate", "hole", 3.4, 0.15, fit.Card.Hole},
	} {
		plain, f := test.make(card, test.part, test.feature, test.wanted), test.make(corrected, test.part, test.feature, test.wanted)
		if !nearly(f.Drawn-plain.Drawn, test.want) || !nearly(f.Correction, test.want) || f.Expected != plain.Expected || f.Wanted != plain.Wanted {
			t.Errorf("%s, %s: %+v beside %+v, want %v more", test.part, test.feature, f, plain, test.want)
		}
	}
}

func nearly(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

package bearing_test

import (
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/fit"
)

// A machined seat carries its class and deviations: N7 of 40 mm is -0.008 and
// -0.033 mm (ISO 286-2, as in any fit table); a printed one takes its tolerance
// from the fit and is marked to be measured.
func TestSeatOnTheDrawing(t *testing.T) {
	named, err := bearing.Named("30203")
	if err != nil {
		t.Fatal(err)
	}
	petg, _ := fit.MaterialNamed("PETG")
	card := fit.Card{Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, Bore: fit.FirstGuessBore, Bed: [2]float64{220, 220}}
	for kind, want := range map[string]string{"N7": "Ø40 N7 −0.008/−0.033", "press": "Ø40.1"} {
		ring, err := bearing.NewHousing(bearing.HousingSpec{Name: "x", Bearing: named, Fit: kind, Material: petg, Card: card})
		if err != nil {
			t.Fatal(err)
		}
		d := ring.Details("x-ring")
		if len(d.Dimensions) != 1 || !d.Dimensions[0].Checked || !strings.HasPrefix(d.Dimensions[0].Text(), want) {
			t.Errorf("%s: %+v, want %s", kind, d.Dimensions, want)
		}
	}
}

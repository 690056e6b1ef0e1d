package drive

import (
	"math"
	"testing"
)

// Closed form: 1/58 Ω·mm²/m makes 2 m of loop of 0.75 mm² 2/(58 x 0.75) Ω. A wire
// of the section that the loss asks for loses just that.
func TestWire(t *testing.T) {
	w := Wire{Length: 1000, Section: 0.75}
	if want := 2 / (58 * 0.75); math.Abs(w.Loop(20)-want) > 1e-12 {
		t.Errorf("loop of %g Ω, want %g", w.Loop(20), want)
	}
	if want := 2 / (58 * 0.75) * 1.0786; math.Abs(w.Loop(40)-want) > 1e-6 {
		t.Errorf("loop of %g Ω at 40 °C, want %g", w.Loop(40), want)
	}
	stated := Wire{Length: 500, Resistance: 0.026}
	if want := 5 * 0.026; math.Abs(stated.Drop(5, 20)-want) > 1e-12 {
		t.Errorf("5 A lose %g V, want %g", stated.Drop(5, 20), want)
	}
	w.Section = w.SectionFor(6, 0.3, 40)
	if math.Abs(w.Drop(6, 40)-0.3) > 1e-12 {
		t.Errorf("with %g mm² 6 A lose %g V, want 0.3", w.Section, w.Drop(6, 40))
	}
}

// The conductors' resistance in tables of stranded copper wire at 20 °C, class 5
// of IEC 60228 (39, 26, 19.5 and 13.3 Ω/km at 0.5, 0.75, 1 and 1.5 mm²; from
// memory), lies up to 15 % above the solid section's: strands are longer than
// the wire, and their section may be less than printed.
func TestWireAgainstStrandedTable(t *testing.T) {
	for section, perKilometre := range map[float64]float64{0.5: 39, 0.75: 26, 1: 19.5, 1.5: 13.3} {
		solid := Wire{Length: 1e6, Section: section}.Loop(20) / 2
		if ratio := perKilometre / solid; ratio < 1 || ratio > 1.16 {
			t.Errorf("%g mm²: the table gives %g times the solid conductor", section, ratio)
		}
	}
}

func TestWireRefuses(t *testing.T) {
	for name, w := range map[string]Wire{
		"no length": {Section: 1}, "neither": {Length: 1000}, "both": {Length: 1000, Section: 1, Resistance: 0.02},
		"a section in µm²": {Length: 1000, Section: 750}, "Ω/km for Ω/m": {Length: 1000, Resistance: 26}, "not a number": {Length: math.NaN(), Section: 1},
	} {
		if w.Validate() == nil {
			t.Errorf("%s is taken", name)
		}
	}
}

// A motor's current rises with its torque on a straight line (direct-current
// motor, any textbook).
func TestCurrent(t *testing.T) {
	for _, test := range []struct{ share, want float64 }{{0, 0.2}, {0.5, 1.35}, {1, 2.5}, {1.4, 2.5}} {
		if got := Current(test.share, 2.5, 0.2); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("at %g of the stall torque %g A, want %g", test.share, got, test.want)
		}
	}
}

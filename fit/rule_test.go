package fit_test

import (
	"testing"

	"pintle/check"
	"pintle/fit"
)

// PLA's limit of 45 °C is the lower end of HDT(0.45 MPa) 55 to 60 °C less 10 K
// (collected makers' sheets, see testdata/ref); it fails there and warns 5 K below.
func TestCheckHeat(t *testing.T) {
	pla, _ := fit.MaterialNamed("PLA")
	for hottest, want := range map[float64]check.Verdict{30: check.Pass, 40: check.Pass, 40.5: check.Caution, 44.9: check.Caution, 45: check.Fail, 60: check.Fail} {
		f := fit.CheckHeat(pla, "lamp-ring", hottest, nil)
		if f.Verdict != want || f.Part != "lamp-ring" {
			t.Errorf("PLA at %v °C: %+v, want %s", hottest, f, want)
		}
	}
	// The remedy names a material that passes.
	if f := fit.CheckHeat(pla, "", 50, nil); f.Remedy != "PLA bears 45 °C; PETG bears 60 °C; ABS bears 80 °C; PA bears 80 °C" {
		t.Errorf("remedy %q", f.Remedy)
	}
}

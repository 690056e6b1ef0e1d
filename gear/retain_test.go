package gear

import (
	"fmt"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// The retainer proposed for a journal, followed, is neither refused nor a
// caution; an M6 nut in a journal of 8 mm would be (design rule).
func TestProposedRetainerPasses(t *testing.T) {
	followed := 0
	for _, bore := range []float64{4, 6, 8, 10, 17} {
		spec := lampSpec()
		spec.Wheel = Body{Journal: &Journal{Bore: bore, Length: 6, ShoulderDiameter: bore + 5, ShoulderHeight: 2}}
		f := finding(t, mustPair(t, spec), "lamp-wheel", "retain")
		for _, screw := range fit.Screws() {
			for _, kind := range []string{"nut", "screw", "screws"} {
				if !strings.Contains(f.Remedy, fmt.Sprintf("{ kind = %q, screw_size = %q }", kind, screw.Size)) {
					continue
				}
				followed++
				spec.Wheel.Retain = &Retain{kind, screw}
				for _, g := range mustPair(t, spec).judgeMargins(1) {
					if g.Verdict != check.Pass {
						t.Errorf("bore %g, %s %s: %s %s", bore, kind, screw.Size, g.Check, g.Verdict)
					}
				}
			}
		}
	}
	if followed < 3 {
		t.Errorf("only %d proposals were followed", followed)
	}
}

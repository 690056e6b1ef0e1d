package joint

import (
	"testing"

	"pintle/check"
)

// The block that holds a clamp's nut hangs over the nut's slot, less than a
// millimetre (the roof of its screw hole rises in steps); a plain ring hangs
// nowhere. The limit is the builder's.
func TestOverhang(t *testing.T) {
	const slit = "[housing.h]\nbearing = \"a\"\nmount = { kind = \"clamp\", screw_size = \"M3\", nut = true }\n"
	for _, test := range []struct {
		name, text string
		least      float64
		want       check.Verdict
	}{
		{"plain", "[housing.h]\nbearing = \"a\"\n", 0, check.Pass},
		{"clamp", slit, 0.1, check.Pass},
		{"clamp, own limit", slit + "[limits]\noverhang = { caution = 0.1, fail = 5 }\n", 0.1, check.Caution},
	} {
		result, err := designed(t, test.text)
		if err != nil {
			t.Fatal(err)
		}
		seen := false
		for _, f := range result.Report.Findings {
			if f.Check == "overhang" {
				seen = true
				if f.Verdict != test.want || f.Value < test.least || f.Value > 1 || (f.Value > 0) != (f.Detail != "") {
					t.Errorf("%s: %+v", test.name, f)
				}
			}
		}
		if !seen {
			t.Errorf("%s: nothing is said of overhangs", test.name)
		}
	}
}

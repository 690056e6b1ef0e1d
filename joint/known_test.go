package joint

import "testing"

// What calipers measured is called measured; the printer's numbers, typed in
// without a coupon, are not.
func TestKnown(t *testing.T) {
	how := map[string]string{}
	for _, k := range build(t).Report.Known {
		how[k.What] = k.How
	}
	for what, want := range map[string]string{
		"bearing.lamp: sizes":                             "measured",
		"bearing.lamp: the rest":                          "from a table",
		"printer: error of bores":                         "guessed",
		"servo.lamp: travel":                              "measured",
		"lamp-ring: strength, heat and expansion of PETG": "from a table",
	} {
		if how[what] != want {
			t.Errorf("%s is %q, want %q", what, how[what], want)
		}
	}
}

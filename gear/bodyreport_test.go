package gear

import (
	"slices"
	"strings"
	"testing"
)

// Every body names the sizes that a shop needs of it: those of the finished
// part, with the slip of 0.1 mm on bores.
func TestBodiesAreDimensioned(t *testing.T) {
	want := map[string][]string{
		"hub":          {"Ø8.1 bore for a rod of 8", "Ø20 hub", "6 hub"},
		"set-nut":      {"Ø6.1 D-bore for a rod of 6", "5.5 over the flat", "M3 set screw", "5.6 nut's flats", "to the nut's slot"},
		"set-nuts":     {"M3 set screw", "slot"},
		"set-insert":   {"M4 set screw"},
		"set-plain":    {"M3 set screw"},
		"clamp":        {"1 slit", "M3 clamp screw", "to the head's seat", "5.6 nut's flats"},
		"clamp-large":  {"M4 clamp screw"},
		"spokes":       {"Ø10.1 bore for a shaft of 10", "3.1 keyway, key 3 × 3", "11.5 over the keyway", "5× 3.6 spokes", "corners", "inside of the rim"},
		"spokes-web":   {"6.1 across the flats, hex of 6", "3 web"},
		"holes":        {"6.1 across the flats, square of 6", "inside of the rim", "outside of the hub"},
		"holes-web":    {"2.4 web"},
		"web":          {"web"},
		"counterbore":  {"3.2 deep", "4 × M3, counterbore 5.98 × 3.2 deep on a bolt circle of 32 mm"},
		"countersink":  {"3 × M2.5, countersink 5.5"},
		"nut":          {"4× 5.6 nut's flats", "2.6 deep"},
		"insert":       {"4 × M3, insert"},
		"clearance":    {"4 × M4, clearance on a bolt circle of 32 mm"},
		"bolts-spokes": {"3 × M2.5, clearance"},
		"marked":       {"sunk “carousel m1 z60”", "bed side “THIS SIDE DOWN”", "away from the bed"},
		"raised":       {"raised “wheel m1 z60”", "4 hub"},
	}
	for name, b := range bodies(t) {
		d := mustPair(t, blank(b)).Details("lamp-wheel")
		var lines []string
		for _, dim := range d.Dimensions {
			lines = append(lines, dim.Text())
		}
		text := strings.Join(slices.Concat(lines, d.Notes), "\n")
		if len(want[name]) == 0 {
			t.Errorf("%s: nothing is asked of its drawing", name)
		}
		for _, w := range want[name] {
			if !strings.Contains(text, w) {
				t.Errorf("%s: no %q in\n%s", name, w, text)
			}
		}
		// What is drawn in place of the steps of cross holes is as high and wide.
		if stepped := len(b.cross()) > 0; stepped != (d.As != nil) {
			t.Errorf("%s: drawn without its steps: %t", name, d.As != nil)
		}
		if d.As != nil && (d.As.Height() < 10 || len(d.Strokes) < 3) {
			t.Errorf("%s: height %g, %d strokes", name, d.As.Height(), len(d.Strokes))
		}
	}
}

// cross names the cross holes of a body.
func (b Body) cross() (names []string) {
	if b.SetScrew != nil {
		names = append(names, "set screw")
	}
	if b.Clamp != nil {
		names = append(names, "clamp")
	}
	return names
}

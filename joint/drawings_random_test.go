package joint_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// Whatever the sizes, the sheets of all kinds of part keep their texts clear:
// random gears, rings with every mount and retention, grilles, panels and
// spacers.
func TestRandomDrawings(t *testing.T) {
	const seed = 11
	rnd := rand.New(rand.NewPCG(seed, seed))
	pick := func(words ...string) string { return words[rnd.IntN(len(words))] }
	designations := []string{"608", "624", "6001", "6203", "30203", "6805", "51105"}
	cases := 12
	if testing.Short() {
		cases = 3
	}
	for i := range cases {
		module := pick("0.8", "1", "1.25", "1.5", "2", "3")
		bearing := designations[i%len(designations)]
		mount := pick("", "mount = { kind = \"flange\", screw_size = \"M3\", screw_count = 4 }", "mount = { kind = \"foot\", screw_size = \"M4\", screw_count = 2 }")
		side := 20 + rnd.IntN(120)
		text := fmt.Sprintf(`format = "pintle-joint/1"
title = "Random parts"
[printer]
material = "PETG"
bead_width = 0.45
layer_thickness = 0.2
bed = [600, 600]
[bearing.b]
designation = %q
[gears.g]
module = %s
teeth = [%d, %d]
shift = "choose"
backlash = 0.2
face_width = %d
pinion = { hub = "round", bore = %d }
wheel = { hub = "round", bore = %d, bolt_circle = %s, screw_size = "M2", screw_count = %d }
[housing.h]
bearing = "b"
fit = %q
%s
[grille.v]
outline = { kind = "rectangle", length = %d, width = %d, corner_radius = 3 }
pattern = "round-staggered"
hole = %d
pitch = %d
thickness = 2
[panel.p]
path = "M0 0H%dV%dH%dV%dH0Z"
thickness = %d
`, bearing, module, 14+rnd.IntN(20), 30+rnd.IntN(40), 4+rnd.IntN(12), 2+rnd.IntN(2), 2+rnd.IntN(5),
			pick("14", "15", "16"), 3+rnd.IntN(3), pick("press", "slip"), mount,
			side, 20+rnd.IntN(60), 2+rnd.IntN(2), 5+rnd.IntN(3), side, 10+rnd.IntN(30), side/2, 50+rnd.IntN(40), 1+rnd.IntN(8))
		for name, file := range drawings(t, text) {
			examine(t, fmt.Sprintf("seed %d, case %d (%s, m %s), %s", seed, i, bearing, module, name), file)
		}
		if t.Failed() {
			return
		}
	}
}

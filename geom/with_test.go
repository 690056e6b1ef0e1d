package geom_test

import (
	"math"
	"testing"

	"pintle/geom"
)

// A stop on a ring's top and one beside a boss: the volume grows by sector area
// times height, (ro^2 - ri^2) (to - from) / 2 (elementary).
func TestWith(t *testing.T) {
	ring, err := geom.NewPart("ring", geom.Slab{Z1: 5, Bottom: []geom.Contour{
		geom.Peg(geom.Point{}, 50, geom.ChordPlain), geom.Bore(geom.Point{}, 40, geom.ChordPlain),
	}})
	if err != nil {
		t.Fatal(err)
	}
	boss, err := geom.NewPart("boss",
		geom.Slab{Z1: 4, Bottom: []geom.Contour{geom.Peg(geom.Point{}, 50, geom.ChordPlain)}},
		geom.Slab{Z0: 4, Z1: 12, Bottom: []geom.Contour{geom.Peg(geom.Point{}, 20, geom.ChordPlain)}})
	if err != nil {
		t.Fatal(err)
	}
	stop := geom.Sector(geom.Point{}, 21, 24, 3, 3.4, 0.001)
	want := (24*24 - 21*21) * 0.4 / 2 * 3
	for _, test := range []struct {
		name   string
		part   geom.Part
		z0, z1 float64
		layers int
		height float64
	}{
		{"on top", ring, 5, 8, 2, 8},
		{"beside a boss, at its foot", boss, 4, 7, 3, 12},
		{"beside a boss, across its top", boss, 10, 13, 4, 13},
	} {
		t.Run(test.name, func(t *testing.T) {
			more, err := test.part.With(test.z0, test.z1, stop)
			if err != nil {
				t.Fatal(err)
			}
			if got := more.Volume() - test.part.Volume(); math.Abs(got-want) > 0.05 {
				t.Errorf("%.3f mm³ more, want %.3f", got, want)
			}
			if len(more.Layers()) != test.layers || more.Height() != test.height {
				t.Errorf("%d layers, %v mm high, want %d and %v", len(more.Layers()), more.Height(), test.layers, test.height)
			}
		})
	}
	if _, err := boss.With(4, 6, geom.Sector(geom.Point{}, 8, 12, 0, 1, 0.001)); err == nil {
		t.Error("a stop that crosses the boss is accepted")
	}
}

package geom_test

import (
	"math"
	"testing"

	"pintle/geom"
)

// A T that stands on its stem: an even ring of width 5 hangs at 3 mm (area pi (10²
// - 5²)); a table on four legs: a square of 20 mm less four feet, 2 A / circumference; a pocket
// of 8 mm from below: a disc; a body on the bed alone: nothing (by hand).
func TestOverhangs(t *testing.T) {
	disc := func(d float64) geom.Contour { return geom.Peg(geom.Point{}, d, geom.ChordFit) }
	square := func(at geom.Point, side float64) geom.Contour {
		return geom.Rectangle(at, side, side, 0, 0, geom.ChordFit)
	}
	legs := []geom.Contour{square(geom.Point{X: 8, Y: 8}, 2), square(geom.Point{X: -8, Y: 8}, 2), square(geom.Point{X: 8, Y: -8}, 2), square(geom.Point{X: -8, Y: -8}, 2)}
	for _, test := range []struct {
		name               string
		low, high          []geom.Contour
		faces              int
		area, span, within float64
	}{
		{"mushroom", []geom.Contour{disc(10)}, []geom.Contour{disc(20)}, 1, 75 * math.Pi, 5, 0.01},
		{"table", legs, []geom.Contour{square(geom.Point{}, 20)}, 1, 400 - 16, 2 * 384.0 / 112, 0.01},
		{"pocket", []geom.Contour{disc(20), geom.Bore(geom.Point{}, 8, geom.ChordFit)}, []geom.Contour{disc(20)}, 1, 16 * math.Pi, 8, 0.01},
		{"pyramid", []geom.Contour{disc(20)}, []geom.Contour{disc(10)}, 0, 0, 0, 0},
	} {
		part, err := geom.NewPart(test.name, geom.Slab{Z1: 3, Bottom: test.low}, geom.Slab{Z0: 3, Z1: 5, Bottom: test.high})
		if err != nil {
			t.Fatal(err)
		}
		found := part.Overhangs()
		if len(found) != test.faces {
			t.Errorf("%s: %d faces, want %d", test.name, len(found), test.faces)
			continue
		}
		if test.faces == 0 {
			continue
		}
		if o := found[0]; o.Height != 3 || math.Abs(o.Area/test.area-1) > 0.002 || math.Abs(o.Span/test.span-1) > test.within {
			t.Errorf("%s: %+v, want area %v, span %v", test.name, o, test.area, test.span)
		}
	}
}

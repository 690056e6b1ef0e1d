package geom

import (
	"math"
	"testing"
)

// A square gets what is asked for; a comb of teeth a millimetre wide only half
// of 0.6 mm, at which its flanks would cross; nothing stays nothing.
func TestChamfer(t *testing.T) {
	square := []Contour{Rectangle(Point{}, 20, 20, 0, 0, ChordPlain), Bore(Point{}, 8, ChordFit)}
	comb := []Contour{{Points: []Point{{0, 0}, {7, 0}, {7, 4}, {6, 4}, {6, 2}, {5, 2}, {5, 4}, {4, 4}, {4, 2}, {3, 2}, {3, 4}, {2, 4}, {2, 2}, {0, 2}}}}
	for _, test := range []struct {
		name        string
		contours    []Contour
		wanted, got float64
	}{
		{"square", square, 0.6, 0.6},
		{"comb", comb, 0.6, 0.3},
		{"comb, less", comb, 0.4, 0.4},
		{"far too much", square, 64, 2}, // at 4 mm outline and bore pass each other
		{"nothing", square, 0, 0},
		{"not a number", square, math.NaN(), 0},
	} {
		top, got := Chamfer(test.contours, test.wanted)
		if got != test.got {
			t.Errorf("%s: got %g mm of %g, want %g", test.name, got, test.wanted, test.got)
			continue
		}
		if got == 0 {
			continue
		}
		p, err := NewPart("chamfer", Slab{Z1: 1, Bottom: test.contours, Top: top})
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		// Each side moved by what was got: the outline's box shrinks by it.
		layer := p.Layers()[0]
		_, hi := layer.Bottom.Bounds()
		_, hiTop := layer.Top.Bounds()
		if d := hi.X - hiTop.X - got; math.Abs(d) > 1.0/PerMM {
			t.Errorf("%s: the side moved by %g, want %g", test.name, hi.X-hiTop.X, got)
		}
	}
}

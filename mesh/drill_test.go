package mesh_test

import (
	"fmt"
	"math"
	"testing"

	"pintle/geom"
)

// A ring with a set screw's hole through its wall, one level and one turned,
// round outlines and square ones, with and without a step at the hole's height.
// The volume taken away is the hole's section times the wall, where the wall is
// flat: a circle's part below 45 degrees, and the roof above it.
func TestDrillThroughAFlatWall(t *testing.T) {
	const d, layer, bead, wall = 4.0, 0.2, 0.45, 6.0
	for _, direction := range []float64{0, 0.3, math.Pi / 2, 2} {
		t.Run(fmt.Sprint(direction), func(t *testing.T) {
			block := geom.Rectangle(geom.Point{X: 3, Y: 1}, wall, 30, 0, direction, geom.ChordPlain)
			slabs := []geom.Slab{
				{Z0: 0, Z1: 5, Bottom: []geom.Contour{block}},
				{Z0: 5, Z1: 12, Bottom: []geom.Contour{block}},
			}
			drilled, err := geom.Drill(slabs, layer, bead, geom.CrossHole{
				Centre: geom.Point{X: 3, Y: 1}, Height: 5.3, Diameter: d, Direction: direction, From: -10, To: 10,
			})
			if err != nil {
				t.Fatal(err)
			}
			p, m, _ := build(t, drilled...)
			// The true section: three quarters of the disc, and the roof's triangle
			// of sides r less its tip of half a bead in height.
			r := d / 2
			section := 0.75*math.Pi*r*r + r*r - bead*bead/4
			got := (wall*30*12 - p.Volume()) / wall
			if got < section || got > section+d*layer*2 {
				t.Errorf("section %g mm², want %g and no more than steps of a layer beyond", got, section)
			}
			if genus(m) != 1 {
				t.Errorf("genus %d, want 1", genus(m))
			}
		})
	}
}

func TestDrillRoundOutlines(t *testing.T) {
	o := geom.Point{X: 2, Y: -3}
	flange, tube := geom.Peg(o, 60, geom.ChordFit), geom.Peg(o, 44, geom.ChordFit)
	bore := geom.Bore(o, 22, geom.ChordFit)
	slabs := []geom.Slab{
		{Z0: 0, Z1: 4, Bottom: []geom.Contour{flange, bore}},
		{Z0: 4, Z1: 9, Bottom: []geom.Contour{tube, bore}},
		{Z0: 9, Z1: 14, Bottom: []geom.Contour{tube, bore}},
		{Z0: 14, Z1: 15, Bottom: []geom.Contour{tube, bore}, Top: []geom.Contour{tube.Resize(43), bore.Resize(23)}},
	}
	for _, test := range []struct {
		name  string
		holes []geom.CrossHole
		genus int
	}{
		{"one wall", []geom.CrossHole{{Centre: o, Height: 8, Diameter: 3, Direction: 0.4, From: 0, To: 40}}, 2},
		{"through both walls", []geom.CrossHole{{Centre: o, Height: 8, Diameter: 3, Direction: 0.4, From: -40, To: 40}}, 3},
		{"cross", []geom.CrossHole{{Centre: o, Height: 8, Diameter: 3, Direction: 0, From: -40, To: 40}, {Centre: o, Height: 8, Diameter: 3, Direction: math.Pi / 2, From: -40, To: 40}}, 5},
		{"two heights", []geom.CrossHole{{Centre: o, Height: 7, Diameter: 3, Direction: 0.1, From: 0, To: 40}, {Centre: o, Height: 9.7, Diameter: 3, Direction: 1.3, From: 0, To: 40}}, 3},
		{"up to the chamfer", []geom.CrossHole{{Centre: o, Height: 14 - 3*math.Sqrt2/2 + 0.2, Diameter: 3, Direction: 1, From: 0, To: 40}}, 2},
		{"blind", []geom.CrossHole{{Centre: o, Height: 8, Diameter: 3, Direction: 0.4, From: 0, To: 15}}, 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			drilled, err := geom.Drill(slabs, 0.2, 0.4, test.holes...)
			if err != nil {
				t.Fatal(err)
			}
			whole, _, _ := build(t, slabs...)
			p, m, e := build(t, drilled...)
			if genus(m) != test.genus || e.Shells != 1 {
				t.Errorf("genus %d in %d shells, want %d in 1", genus(m), e.Shells, test.genus)
			}
			if !(p.Volume() < whole.Volume()-20) {
				t.Errorf("volume %g of %g: no hole", p.Volume(), whole.Volume())
			}
		})
	}
}

func BenchmarkDrill(b *testing.B) {
	o := geom.Point{X: 2, Y: -3}
	tube, bore := geom.Peg(o, 44, geom.ChordFit), geom.Bore(o, 22, geom.ChordFit)
	slabs := []geom.Slab{{Z0: 0, Z1: 14, Bottom: []geom.Contour{tube, bore}}}
	for b.Loop() {
		if _, err := geom.Drill(slabs, 0.2, 0.4, geom.CrossHole{Centre: o, Height: 8, Diameter: 3, Direction: 0.4, From: 0, To: 40}); err != nil {
			b.Fatal(err)
		}
	}
}

// A slot takes its box from a block: length x width x height, and a slot that
// runs out at the top leaves no roof.
func TestSlot(t *testing.T) {
	block := geom.Rectangle(geom.Point{}, 20, 20, 0, 0, geom.ChordPlain)
	slabs := []geom.Slab{{Z0: 0, Z1: 10, Bottom: []geom.Contour{block}}}
	for _, test := range []struct {
		name  string
		slot  geom.Slot
		taken float64
	}{
		{"pocket", geom.Slot{Centre: geom.Point{X: 2}, Direction: 0.3, Length: 6, Width: 3, Z0: 4, Z1: 10}, 6 * 3 * 6},
		{"slit to the edge", geom.Slot{Centre: geom.Point{X: 10}, Length: 8, Width: 2, Z0: 3, Z1: 10}, 4 * 2 * 7},
		{"tunnel", geom.Slot{Length: 30, Width: 2, Z0: 3, Z1: 6}, 20 * 2 * 3},
	} {
		t.Run(test.name, func(t *testing.T) {
			cut, err := geom.CutAcross(slabs, 0.2, 0.4, test.slot)
			if err != nil {
				t.Fatal(err)
			}
			_, m, _ := build(t, cut...)
			if got := 4000 - m.Volume(); math.Abs(got-test.taken) > 0.01 {
				t.Errorf("took %g mm³, want %g", got, test.taken)
			}
		})
	}
	if _, err := geom.CutAcross(slabs, 0.2, 0.4, geom.Slot{Length: 3, Width: 0, Z0: 1, Z1: 2}); err == nil {
		t.Error("a slot without a width")
	}
}

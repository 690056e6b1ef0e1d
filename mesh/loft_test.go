package mesh_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pintle/geom"
	"pintle/mesh"
)

// A sharp corner may move along its own side: the wall there stands upright.
// Volumes of wedges (elementary).
func TestLoftAlongASide(t *testing.T) {
	rectangle := func(x0, x1 float64) []geom.Contour {
		return []geom.Contour{{Points: []geom.Point{{X: x0, Y: -5}, {X: x1, Y: -5}, {X: x1, Y: 5}, {X: x0, Y: 5}}}}
	}
	for _, test := range []struct {
		name   string
		x0, x1 float64
		want   float64
	}{
		{"one side leans in", -5, 3, (100 + 80) / 2 * 3},
		{"one side leans out", -5, 6, (100 + 110) / 2 * 3},
		{"two opposite sides lean in", -4, 2, (100 + 60) / 2 * 3},
	} {
		t.Run(test.name, func(t *testing.T) {
			p, _, _ := build(t, geom.Slab{Z1: 3, Bottom: rectangle(-5, 5), Top: rectangle(test.x0, test.x1)})
			if math.Abs(p.Volume()-test.want) > 1e-9 {
				t.Errorf("volume %g, want %g", p.Volume(), test.want)
			}
		})
	}
	_, err := geom.NewPart("slanting prism", geom.Slab{Z1: 3, Bottom: rectangle(-5, 5), Top: rectangle(-4, 6)})
	if err == nil {
		t.Error("a prism that leans as a whole is taken for a loft of one sense")
	}
	// All leaning walls have one sense, but two upright ones pass each other half
	// way up.
	_, err = geom.NewPart("passing", geom.Slab{
		Z1:     1,
		Bottom: []geom.Contour{{Points: []geom.Point{{X: 0, Y: 4}, {X: 1, Y: 3}, {X: 2, Y: 0}, {X: 4, Y: 1}, {X: 2, Y: 1}, {X: 1, Y: 4}}}},
		Top:    []geom.Contour{{Points: []geom.Point{{X: -1, Y: 4}, {X: 0, Y: 4}, {X: 2, Y: 0}, {X: 4, Y: 1}, {X: 2, Y: 1}, {X: 1, Y: 5}}}},
	})
	if err == nil {
		t.Error("upright walls that pass each other are let through")
	}
}

// Lofts between polygons on a small grid, where corners often move along their
// edges or onto each other's: what geom lets through has no crossing, by the
// examination of every pair of triangles.
func TestLoftsOnASmallGrid(t *testing.T) {
	const seed = 5
	rnd := rand.New(rand.NewPCG(seed, seed))
	proved, upright := 0, 0
	for i := range 60_000 {
		n := 3 + rnd.IntN(5)
		var bottom, top []geom.Point
		kept := 0
		for range n {
			p := geom.Point{X: float64(rnd.IntN(5)), Y: float64(rnd.IntN(5))}
			q := p
			if rnd.IntN(2) > 0 {
				q = geom.Point{X: p.X + float64(rnd.IntN(3)-1), Y: p.Y + float64(rnd.IntN(3)-1)}
			} else {
				kept++
			}
			bottom, top = append(bottom, p), append(top, q)
		}
		if kept == n {
			continue
		}
		p, err := geom.NewPart("loft", geom.Slab{Z1: 1, Bottom: []geom.Contour{{Points: bottom}}, Top: []geom.Contour{{Points: top}}})
		if err != nil {
			continue
		}
		proved++
		for k := range n {
			a, b, c := bottom[k], bottom[(k+1)%n], top[(k+1)%n]
			if b != c && (b.X-a.X)*(c.Y-a.Y) == (b.Y-a.Y)*(c.X-a.X) {
				upright++
			}
		}
		m, err := mesh.FromPart(p)
		if err == nil {
			err = m.Verify()
		}
		if e := mesh.Inspect(m.Soup()); err != nil || !e.Sound() {
			t.Fatalf("seed %d, case %d: %v to %v: %v, %+v", seed, i, bottom, top, err, e.Faults)
		}
	}
	if proved < 500 || upright < 100 {
		t.Errorf("only %d lofts proved, %d corners moved along their edge", proved, upright)
	}
}

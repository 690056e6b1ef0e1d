package mesh_test

import (
	"math"
	"testing"

	"pintle/geom"
	"pintle/mesh"
)

// massOf integrates over tetrahedra from the origin to the triangles of a mesh:
// another way than the part's closed forms of layers. Means of x_i x_j over a
// tetrahedron by its four corners (elementary).
func massOf(m *mesh.Mesh) (volume float64, centre [3]float64, second [3][3]float64) {
	for i := range m.Triangles {
		var p [3][3]float64
		for c, corner := range m.Corners(i) {
			for k, x := range corner {
				p[c][k] = float64(x)
			}
		}
		v := (p[0][0]*(p[1][1]*p[2][2]-p[1][2]*p[2][1]) + p[0][1]*(p[1][2]*p[2][0]-p[1][0]*p[2][2]) + p[0][2]*(p[1][0]*p[2][1]-p[1][1]*p[2][0])) / 6
		volume += v
		for a := range 3 {
			s := p[0][a] + p[1][a] + p[2][a]
			centre[a] += v * s / 4
			for b := range 3 {
				second[a][b] += v / 20 * (p[0][a]*p[0][b] + p[1][a]*p[1][b] + p[2][a]*p[2][b] + s*(p[0][b]+p[1][b]+p[2][b]))
			}
		}
	}
	for a := range 3 {
		centre[a] /= volume
	}
	return volume, centre, second
}

// Mass, centre and inertia of parts with lofts, steps and cross holes agree with
// those of their meshes.
func TestMassOfTheMesh(t *testing.T) {
	o := geom.Point{X: 23, Y: -35}
	flange, tube := geom.Peg(o, 60, geom.ChordFit), geom.Peg(o, 44, geom.ChordFit)
	bore, bolt := geom.Bore(o, 22, geom.ChordFit), geom.Bore(geom.Point{X: 23 + 26, Y: -35}, 3, geom.ChordFit)
	slabs := []geom.Slab{
		{Z0: 0, Z1: 4, Bottom: []geom.Contour{flange, bore, bolt}},
		{Z0: 4, Z1: 14, Bottom: []geom.Contour{tube, bore}},
		{Z0: 14, Z1: 15, Bottom: []geom.Contour{tube, bore}, Top: []geom.Contour{tube.Resize(43), bore.Resize(23)}},
	}
	drilled, err := geom.Drill(slabs, 0.2, 0.4, geom.CrossHole{Centre: o, Height: 8, Diameter: 3, Direction: 0.4, From: 0, To: 40})
	if err != nil {
		t.Fatal(err)
	}
	for name, s := range map[string][]geom.Slab{"ring": slabs, "drilled": drilled} {
		p, m, _ := build(t, s...)
		const density = 1.24
		got := p.Mass(density)
		volume, centre, second := massOf(m)
		kg := volume * density * 1e-6
		if math.Abs(got.Mass-kg) > 1e-9*kg {
			t.Errorf("%s: mass %.12g kg, the mesh's %.12g", name, got.Mass, kg)
		}
		trace := 0.0
		for a := range 3 {
			trace += second[a][a] - volume*centre[a]*centre[a]
		}
		for a := range 3 {
			if d := math.Abs(got.Centre[a] - centre[a]); d > 1e-9 {
				t.Errorf("%s: centre off by %g mm along axis %d", name, d, a)
			}
			for b := range 3 {
				want := -(second[a][b] - volume*centre[a]*centre[b])
				if a == b {
					want += trace
				}
				if want *= density * 1e-6; math.Abs(got.Inertia[a][b]-want) > 1e-6*got.Inertia[2][2] {
					t.Errorf("%s: inertia %d %d: %g, the mesh's %g", name, a, b, got.Inertia[a][b], want)
				}
			}
		}
	}
}

package geom

import (
	"math"
	"testing"
)

// Bodies of any handbook of mechanics: a block m (b² + h²)/12, a ring's prism
// m (R² + r²)/2 about its axis and m (3 (R² + r²) + h²)/12 across, a cone's
// frustum with its centre at h (R² + 2Rr + 3r²)/(4 (R² + Rr + r²)) and
// 3 m (R⁵ - r⁵)/(10 (R³ - r³)) about its axis.
func TestMass(t *testing.T) {
	const density = 1.25 // g/cm³
	at := Point{30, -20}
	slab := func(height float64, bottom ...Contour) Slab { return Slab{Z1: height, Bottom: bottom} }
	cone := slab(15, Peg(at, 40, ChordFit))
	cone.Top = []Contour{cone.Bottom[0].Resize(20)}
	block, ring := 20*8*6*density*1e-6, math.Pi*(400-100)*10*density*1e-6
	frustum := math.Pi / 3 * 15 * (400 + 200 + 100) * density * 1e-6
	for _, test := range []struct {
		name      string
		slabs     []Slab
		mass, z   float64
		x, y, axi float64 // inertia
		tol       float64
	}{
		{"block", []Slab{slab(6, Rectangle(at, 20, 8, 0, 0, ChordPlain))}, block, 3, block * (64 + 36) / 12, block * (400 + 36) / 12, block * (400 + 64) / 12, 1e-9},
		{
			"block in two layers",
			[]Slab{slab(2, Rectangle(at, 20, 8, 0, 0, ChordPlain)), {Z0: 2, Z1: 6, Bottom: []Contour{Rectangle(at, 20, 8, 0, 0, ChordPlain)}}},
			block, 3, block * (64 + 36) / 12, block * (400 + 36) / 12, block * (400 + 64) / 12, 1e-9,
		},
		{"ring", []Slab{slab(10, Peg(at, 40, ChordFit), Bore(at, 20, ChordFit))}, ring, 5, ring * (3*500 + 100) / 12, ring * (3*500 + 100) / 12, ring * 500 / 2, 1e-3},
		{"frustum", []Slab{cone}, frustum, 15.0 / 4 * (400 + 400 + 300) / 700, math.NaN(), math.NaN(), 0.3 * frustum * (math.Pow(20, 5) - 1e5) / (8000 - 1000), 1e-3},
	} {
		p, err := NewPart(test.name, test.slabs...)
		if err != nil {
			t.Fatal(err)
		}
		m := p.Mass(density)
		near := func(what string, got, want float64) {
			if !math.IsNaN(want) && math.Abs(got-want) > test.tol*math.Abs(want) {
				t.Errorf("%s: %s %.9g, want %.9g", test.name, what, got, want)
			}
		}
		near("mass", m.Mass, test.mass)
		near("centre x", m.Centre[0], at.X)
		near("centre y", m.Centre[1], at.Y)
		near("centre z", m.Centre[2], test.z)
		near("inertia about x", m.Inertia[0][0], test.x)
		near("inertia about y", m.Inertia[1][1], test.y)
		near("inertia about z", m.Inertia[2][2], test.axi)
		for i := range 3 {
			for j := range i {
				if math.Abs(m.Inertia[i][j]) > 1e-9*m.Inertia[2][2] || m.Inertia[i][j] != m.Inertia[j][i] {
					t.Errorf("%s: product of inertia %g, want 0", test.name, m.Inertia[i][j])
				}
			}
		}
	}
}

package mesh_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/geom"
	"pintle/mesh"
)

// build makes, proves and examines the mesh of a part: closed by the mesh's own
// proof and by Inspect's, one point for each vertex, and no crossing.
func build(t testing.TB, slabs ...geom.Slab) (geom.Part, *mesh.Mesh, mesh.Examination) {
	t.Helper()
	p, err := geom.NewPart("part", slabs...)
	if err != nil {
		t.Fatal(err)
	}
	m, err := mesh.FromPart(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Verify(); err != nil {
		t.Fatal(err)
	}
	e := mesh.Inspect(m.Soup())
	if !e.Sound() || e.Points != len(m.Vertices) || e.Unexamined != "" {
		t.Fatalf("%d points for %d vertices, faults %+v", e.Points, len(m.Vertices), e.Faults)
	}
	if math.Abs(m.Volume()-p.Volume()) > 1e-12*p.Volume() || math.Abs(e.Volume-p.Volume()) > 1e-9*p.Volume() {
		t.Fatalf("volumes: part %g, mesh %g, soup %g", p.Volume(), m.Volume(), e.Volume)
	}
	return p, m, e
}

// genus returns the number of tunnels through a connected closed surface, from
// Euler's V - E + F = 2 - 2g with 2E = 3F.
func genus(m *mesh.Mesh) int {
	return (2 - len(m.Vertices) + len(m.Triangles)/2) / 2
}

// Whatever the prism, its volume is base area times height; the area of a
// regular polygon is n r² sin(2π/n) / 2 (elementary).
func TestPrisms(t *testing.T) {
	const seed = 1
	rnd := rand.New(rand.NewPCG(seed, seed))
	for i := range 100 {
		n, r, h := 3+rnd.IntN(100), 1+50*rnd.Float64(), 0.1+20*rnd.Float64()
		points := make([]geom.Point, n)
		for k := range points {
			points[k] = geom.Polar(r, 2*math.Pi*float64(k)/float64(n))
		}
		_, m, _ := build(t, geom.Slab{Z1: h, Bottom: []geom.Contour{{Points: points}}})
		want := float64(n) * r * r * math.Sin(2*math.Pi/float64(n)) / 2 * h
		// Each side and both ends move by half a grid step at most.
		if tol := (2*math.Pi*r*h + math.Pi*r*r) / geom.PerMM; math.Abs(m.Volume()-want) > tol {
			t.Errorf("seed %d, case %d (n=%d r=%g h=%g): volume %g, want %g", seed, i, n, r, h, m.Volume(), want)
		}
		if g := genus(m); g != 0 {
			t.Errorf("seed %d, case %d: genus %d", seed, i, g)
		}
	}
}

// grille draws a plate with rows of bores, all turned.
func grille(rows int, turn float64) []geom.Contour {
	const pitch = 4.0
	size := pitch * float64(rows+1)
	contours := []geom.Contour{geom.Rectangle(geom.Point{}, size, size, 2, turn, geom.ChordPlain)}
	for i := range rows {
		for j := range rows {
			c := geom.Point{X: float64(2*i+1-rows) * pitch / 2, Y: float64(2*j+1-rows) * pitch / 2}
			contours = append(contours, geom.Bore(c.Rotate(turn), 3, 0.01))
		}
	}
	return contours
}

// Each hole through a plate is one tunnel.
func TestGrilles(t *testing.T) {
	for _, rows := range []int{1, 2, 5, 11} {
		for _, turn := range []float64{0, 0.3} {
			_, m, _ := build(t, geom.Slab{Z1: 2.4, Bottom: grille(rows, turn)})
			if got := genus(m); got != rows*rows {
				t.Errorf("%d rows turned by %g: genus %d, want %d", rows, turn, got, rows*rows)
			}
		}
	}
}

// A ring like a housing: flange, shoulder with bolt holes that stop half way,
// seat, lead-in. Volume from cylinders and a cone's frustum, to the chord error.
func TestSteppedRing(t *testing.T) {
	o := geom.Point{X: 3, Y: 5}
	flange, tube := geom.Peg(o, 60, geom.ChordFit), geom.Peg(o, 44, geom.ChordFit)
	shoulder, seat := geom.Bore(o, 30, geom.ChordFit), geom.Bore(o, 40, geom.ChordFit)
	lead := seat.Resize(41)
	bolts := []geom.Contour{geom.Bore(geom.Point{X: 3 + 26, Y: 5}, 3, geom.ChordFit), geom.Bore(geom.Point{X: 3 - 26, Y: 5}, 3, geom.ChordFit)}
	_, m, e := build(t,
		geom.Slab{Z0: 0, Z1: 1, Bottom: []geom.Contour{flange, shoulder}},
		geom.Slab{Z0: 1, Z1: 4, Bottom: append([]geom.Contour{flange, shoulder}, bolts...)},
		geom.Slab{Z0: 4, Z1: 12, Bottom: []geom.Contour{tube, seat}},
		geom.Slab{Z0: 12, Z1: 13, Bottom: []geom.Contour{tube, seat}, Top: []geom.Contour{tube, lead}},
	)
	disc := func(d float64) float64 { return math.Pi * d * d / 4 }
	want := 4*(disc(60)-disc(30)) - 3*2*disc(3) + 9*disc(44) - 8*disc(40) - math.Pi/12*(40*40+40*41+41*41)
	if tol := geom.ChordFit * math.Pi * (4*90 + 9*84 + 4*6); math.Abs(m.Volume()-want) > tol {
		t.Errorf("volume %g, want %g within %g", m.Volume(), want, tol)
	}
	if genus(m) != 1 || e.Shells != 1 {
		t.Errorf("genus %d in %d shells, want 1 in 1", genus(m), e.Shells)
	}
	c := m.Centroid()
	// Moments about the bed; a frustum's centre lies h (R² + 2Rr + 3r²) / (R² + Rr + r²) / 4 above its base R.
	lean := math.Pi / 12 * (40*40 + 40*41 + 41*41) * (12 + (40*40+2*40*41+3*41*41)/(40*40+40*41+41*41.0)/4)
	height := (4*(disc(60)-disc(30))*2 - 3*2*disc(3)*2.5 + 9*disc(44)*8.5 - 8*disc(40)*8 - lean) / want
	if math.Abs(c[0]-3) > 1e-6 || math.Abs(c[1]-5) > 1e-6 || math.Abs(c[2]-height) > 0.005 {
		t.Errorf("centroid %v, want (3, 5, %g)", c, height)
	}
	if lo, hi := m.Bounds(); lo != [3]float64{-27, -25, 0} || hi != [3]float64{33, 35, 13} {
		t.Errorf("bounds %v %v", lo, hi)
	}
}

// Walls that lean on one side and stand upright on the others.
func TestOneSideLeans(t *testing.T) {
	bottom := geom.Rectangle(geom.Point{}, 10, 10, 1, 0, geom.ChordPlain)
	top := bottom.Map(func(p geom.Point) geom.Point { return geom.Point{X: p.X - max(p.X-4, 0)/2, Y: p.Y} })
	bore := geom.Bore(geom.Point{}, 4, geom.ChordFit)
	_, m, _ := build(t, geom.Slab{Z1: 3, Bottom: []geom.Contour{bottom, bore}, Top: []geom.Contour{top, bore}})
	if genus(m) != 1 {
		t.Errorf("genus %d, want 1", genus(m))
	}
}

// A closed hollow: a plate with a window between two whole plates.
func TestCavity(t *testing.T) {
	plate := geom.Rectangle(geom.Point{}, 30, 20, 0, 0.2, geom.ChordPlain)
	window := geom.Window(geom.Point{}, 10, 10, 1, 0, geom.ChordPlain)
	_, _, e := build(t,
		geom.Slab{Z0: 0, Z1: 2, Bottom: []geom.Contour{plate}},
		geom.Slab{Z0: 2, Z1: 5, Bottom: []geom.Contour{plate, window}},
		geom.Slab{Z0: 5, Z1: 6, Bottom: []geom.Contour{plate}},
	)
	if e.Shells != 2 || e.Cavities != 1 {
		t.Errorf("%d shells with %d cavities, want 2 with 1", e.Shells, e.Cavities)
	}
}

// Stacks of layers drawn at random from concentric pegs and bores, prisms and
// lofts: whatever the steps, the mesh is closed and has the part's volume.
func TestStacks(t *testing.T) {
	const seed = 3
	rnd := rand.New(rand.NewPCG(seed, seed))
	for range 80 {
		turn := rnd.Float64()
		at := geom.Polar(10, turn)
		outer := geom.Peg(at, 40, geom.ChordPlain)
		inner := geom.Bore(at, 20, geom.ChordPlain)
		var slabs []geom.Slab
		z := 0.0
		for range 1 + rnd.IntN(6) {
			height := 0.5 + 3*rnd.Float64()
			s := geom.Slab{Z0: z, Z1: z + height, Bottom: []geom.Contour{outer.Resize(32 + 4*float64(rnd.IntN(4)))}}
			if rnd.IntN(3) > 0 {
				s.Bottom = append(s.Bottom, inner.Resize(12+4*float64(rnd.IntN(4))))
			}
			if rnd.IntN(2) > 0 {
				s.Top = append(s.Top, s.Bottom[0].Resize(s.Bottom[0].Diameter()-2*float64(rnd.IntN(2))))
				for _, b := range s.Bottom[1:] {
					s.Top = append(s.Top, b.Resize(b.Diameter()+float64(1-rnd.IntN(2))))
				}
			}
			slabs = append(slabs, s)
			z += height
		}
		build(t, slabs...)
	}
}

func TestFromPartRefusesTouchingLayers(t *testing.T) {
	square := func(x, y float64) []geom.Contour {
		return []geom.Contour{geom.Rectangle(geom.Point{X: x, Y: y}, 10, 10, 0, 0, geom.ChordPlain)}
	}
	for name, test := range map[string]struct {
		above []geom.Contour
		want  string
	}{
		"line":  {square(10, 0), "meets the one below in a line only"},
		"point": {square(10, 10), "two corners fall on one point"},
		"cross": {square(4, 4), "two edges cross"},
	} {
		p, err := geom.NewPart("step", geom.Slab{Z0: 0, Z1: 1, Bottom: square(0, 0)}, geom.Slab{Z0: 1, Z1: 2, Bottom: test.above})
		if err != nil {
			t.Fatal(err)
		}
		_, err = mesh.FromPart(p)
		if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "step, between layers 1 and 2 at 1.000 mm: ") {
			t.Errorf("%s: error %v, want one with %q", name, err, test.want)
		}
	}
}

// Each way of spoiling a closed mesh is found.
func TestVerifyFindsFaults(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(m *mesh.Mesh)
		want  string
	}{
		{"nothing", func(m *mesh.Mesh) { m.Triangles = nil }, "no triangles"},
		{"missing", func(m *mesh.Mesh) { m.Triangles = m.Triangles[1:] }, "on one side only"},
		{"twice", func(m *mesh.Mesh) { m.Triangles = append(m.Triangles, m.Triangles[3]) }, "in one sense"},
		{"turned over", func(m *mesh.Mesh) { t := &m.Triangles[5]; t[0], t[1] = t[1], t[0] }, "in one sense"},
		{"all turned over", func(m *mesh.Mesh) {
			for i := range m.Triangles {
				t := &m.Triangles[i]
				t[0], t[1] = t[1], t[0]
			}
		}, "not above zero"},
		{"flat", func(m *mesh.Mesh) { m.Triangles[2][1] = m.Triangles[2][0] }, "without area"},
		{"no such vertex", func(m *mesh.Mesh) { m.Triangles[2][1] = 1 << 20 }, "not there"},
		{"lone vertex", func(m *mesh.Mesh) { m.Vertices = append(m.Vertices, [3]int32{1, 2, 3}) }, "no triangle uses"},
		{"moved by one step", func(m *mesh.Mesh) { m.Vertices[0][2]-- }, "differs from the part's"},
		{"touching itself", func(m *mesh.Mesh) {
			n := int32(len(m.Vertices))
			for _, v := range m.Vertices[1:] { // the same body above, joined at one vertex
				m.Vertices = append(m.Vertices, [3]int32{v[0], v[1], v[2] + 1<<20})
			}
			for _, t := range m.Triangles[:len(m.Triangles):len(m.Triangles)] {
				for k := range t {
					if t[k] > 0 {
						t[k] += n - 1
					}
				}
				m.Triangles = append(m.Triangles, t)
			}
		}, "only touches itself"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, m, _ := build(t, geom.Slab{Z1: 5, Bottom: grille(1, 0)})
			test.spoil(m)
			if err := m.Verify(); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want one with %q", err, test.want)
			}
		})
	}
}

func BenchmarkGrille(b *testing.B) {
	for _, rows := range []int{32, 100} {
		p, err := geom.NewPart("grille", geom.Slab{Z1: 2.4, Bottom: grille(rows, 0)})
		if err != nil {
			b.Fatal(err)
		}
		m, err := mesh.FromPart(p)
		if err != nil {
			b.Fatal(err)
		}
		for name, work := range map[string]func(){
			"FromPart": func() { _, err = mesh.FromPart(p) },
			"Verify":   func() { err = m.Verify() },
			"Inspect":  func() { mesh.Inspect(m.Soup()) },
		} {
			b.Run(fmt.Sprint(name, "/", rows*rows, "holes"), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if work(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

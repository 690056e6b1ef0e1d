package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	plane "github.com/peterstace/simplefeatures/geom"
)

func mustRegion(t testing.TB, contours ...Contour) Region {
	t.Helper()
	r, err := RegionOf(contours)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Second moments of plane sections (elementary): a rectangle b h³/12 about its
// centroid and b h³/3 about a side; a right triangle b h³/36, b³ h/36 and
// -b² h²/72; a ring pi (D⁴ - d⁴)/64.
func TestSecondMoments(t *testing.T) {
	far := Point{-900, 850}
	rectangle := func(at Point) Region { return mustRegion(t, Rectangle(at, 20, 8, 0, 0, ChordPlain)) }
	triangle := mustRegion(t, Contour{Points: []Point{{0, 0}, {12, 0}, {0, 6}}})
	ring := mustRegion(t, Peg(far, 40, ChordFit), Bore(far, 20, ChordFit))
	fourth := math.Pi / 64 * (math.Pow(40, 4) - math.Pow(20, 4))
	for _, test := range []struct {
		name  string
		r     Region
		about Point
		want  SecondMoments
		tol   float64
	}{
		{"rectangle", rectangle(Point{}), Point{}, SecondMoments{20 * 512 / 12.0, 8000 * 8 / 12.0, 0}, 1e-9},
		{"rectangle about its corner", rectangle(Point{}), Point{-10, -4}, SecondMoments{20 * 512 / 3.0, 8000 * 8 / 3.0, 160 * 10 * 4}, 1e-9},
		{"rectangle far out", rectangle(far), far, SecondMoments{20 * 512 / 12.0, 8000 * 8 / 12.0, 0}, 1e-6},
		{"triangle", triangle, Point{4, 2}, SecondMoments{12 * 216 / 36.0, 1728 * 6 / 36.0, -144 * 36 / 72.0}, 1e-9},
		{"triangle about its corner", triangle, Point{}, SecondMoments{12 * 216 / 12.0, 1728 * 6 / 12.0, 144 * 36 / 24.0}, 1e-9},
		{"ring far out", ring, far, SecondMoments{fourth, fourth, 0}, 2 * ChordFit * math.Pi * (math.Pow(20, 3) + math.Pow(10, 3))},
	} {
		got := test.r.SecondMoments(test.about)
		if d := math.Abs(got.Ix-test.want.Ix) + math.Abs(got.Iy-test.want.Iy) + math.Abs(got.Ixy-test.want.Ixy); d > test.tol {
			t.Errorf("%s: %+v, want %+v", test.name, got, test.want)
		}
		if got.Polar() != got.Ix+got.Iy {
			t.Errorf("%s: polar moment %g", test.name, got.Polar())
		}
	}
}

// Turned by a quarter, Ix and Iy change places and Ixy its sign; area, centroid
// and validity agree with github.com/peterstace/simplefeatures v0.57.0.
func TestMeasuresAgainstLibrary(t *testing.T) {
	const seed = 4
	rnd := rand.New(rand.NewPCG(seed, seed))
	regions, crossings := 0, 0
	for i := range 5000 {
		loops := randomLoops(rnd)
		if i%2 == 0 {
			loops = cells(rnd)
		}
		r, err := NewRegion(loops)
		if err != nil {
			if fault := err.(*RegionError); fault.Kind == Crossing && len(loops) == 1 {
				crossings++
				outer := Region{loops: loops, verts: loops[0]}
				if ring := plane.NewPolygonXY(outer.ring(0)); ring.Validate() == nil {
					t.Fatalf("seed %d, case %d: %v: %v, but the library finds the ring valid", seed, i, loops, err)
				}
			}
			continue
		}
		regions++
		g := r.asGeometry()
		if err := g.Validate(); err != nil {
			t.Fatalf("seed %d, case %d: %v: %v", seed, i, loops, err)
		}
		if d := math.Abs(g.Area() - r.Area()); d > 1e-12*r.Area() {
			t.Errorf("seed %d, case %d: area %g, the library's %g", seed, i, r.Area(), g.Area())
		}
		c, _ := g.Centroid().XY()
		if d := r.Centroid().Sub(Point{c.X, c.Y}).Len(); d > 1e-12 {
			t.Errorf("seed %d, case %d: centroid %g mm from the library's", seed, i, d)
		}
		turned, err := NewRegion(postures(loops)[1])
		if err != nil {
			t.Fatal(err)
		}
		a, b := r.SecondMoments(Point{}), turned.SecondMoments(Point{})
		if d := math.Abs(a.Ix-b.Iy) + math.Abs(a.Iy-b.Ix) + math.Abs(a.Ixy+b.Ixy); d > 1e-9*a.Polar() {
			t.Errorf("seed %d, case %d: %+v, turned %+v", seed, i, a, b)
		}
	}
	if regions < 500 || crossings < 50 {
		t.Errorf("only %d regions and %d crossings", regions, crossings)
	}
}

package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

const bead = 0.4

// A lever: a bar and two eyes whose outlines cross it, then their bores. Areas
// from discs and the bar (elementary; the overlaps counted once).
func TestUniteALever(t *testing.T) {
	bar := mustRegion(t, Rectangle(Point{}, 40, 6, 0, 0, ChordPlain))
	lever := bar
	for _, x := range []float64{-20, 20} {
		var err error
		if lever, err = Unite(lever, mustRegion(t, Peg(Point{x, 0}, 14, ChordFit)), bead); err != nil {
			t.Fatal(err)
		}
	}
	bores := mustRegion(t, Peg(Point{-20, 0}, 6, ChordFit), Peg(Point{20, 0}, 6, ChordFit))
	lever, err := Subtract(lever, bores, bead)
	if err != nil {
		t.Fatal(err)
	}
	// Half of the bar beyond x = -20 lies in an eye, up to where the circle crosses
	// its side: the part from 0 to 7 of a strip 6 wide.
	strip := 2 * (3*math.Sqrt(49-9) + 49*math.Asin(3.0/7)) / 2
	want := 240 + 2*(math.Pi*49-strip) - 2*math.Pi*9
	if tol := ChordFit * 2 * math.Pi * 2 * 10; math.Abs(lever.Area()-want) > tol {
		t.Errorf("area %g, want %g", lever.Area(), want)
	}
	if lever.Holes() != 2 || len(lever.Loops()) != 3 {
		t.Errorf("%d loops with %d holes, want 3 with 2", len(lever.Loops()), lever.Holes())
	}
}

// |A| + |B| = |A or B| + |A and B|, and |A but not B| = |A| - |A and B|, for
// turned plates with windows; corners are snapped, so to a grid step along the
// outlines.
func TestOverlayAreas(t *testing.T) {
	const seed = 10
	rnd := rand.New(rand.NewPCG(seed, seed))
	for i := range 300 {
		plate := func() Region {
			at, turn := Point{20 * rnd.Float64(), 20 * rnd.Float64()}, 7*rnd.Float64()
			return mustRegion(t, Rectangle(at, 60, 30, 5*rnd.Float64(), turn, ChordPlain),
				Window(at, 30, 10, 1, turn+rnd.Float64()/8, ChordPlain))
		}
		a, b := plate(), plate()
		or, errOr := Unite(a, b, bead)
		and, errAnd := Intersect(a, b, bead)
		but, errBut := Subtract(a, b, bead)
		if errOr != nil || errAnd != nil || errBut != nil {
			t.Fatalf("seed %d, case %d: %v, %v, %v", seed, i, errOr, errAnd, errBut)
		}
		// Dropped loops have less than a bead squared each.
		const tol = 4*bead*bead + 600.0/PerMM
		if d := a.Area() + b.Area() - or.Area() - and.Area(); math.Abs(d) > tol {
			t.Errorf("seed %d, case %d: areas differ by %g", seed, i, d)
		}
		if d := a.Area() - and.Area() - but.Area(); math.Abs(d) > tol {
			t.Errorf("seed %d, case %d: areas differ by %g", seed, i, d)
		}
	}
}

func TestOverlayEnds(t *testing.T) {
	small := mustRegion(t, Rectangle(Point{}, 10, 10, 0, 0, ChordPlain))
	big := mustRegion(t, Rectangle(Point{}, 20, 20, 0, 0.3, ChordPlain))
	if r, err := Subtract(small, big, bead); err != nil || len(r.Loops()) != 0 {
		t.Errorf("what is covered leaves %d loops, %v", len(r.Loops()), err)
	}
	thin := mustRegion(t, Rectangle(Point{5.1, 0}, 10, 12, 0, 0, ChordPlain))
	r, err := Subtract(mustRegion(t, Rectangle(Point{}, 10, 1, 0, 0, ChordPlain)), thin, bead)
	if err != nil || len(r.Loops()) != 1 || math.Abs(r.Area()-5.1) > 1e-3 {
		t.Errorf("area %g in %d loops, %v", r.Area(), len(r.Loops()), err)
	}
	sliver := mustRegion(t, Rectangle(Point{0, 0.05}, 12, 9.9, 0, 0, ChordPlain)) // leaves 10 mm by 0.1, and nothing at the sides
	if r, err := Subtract(small, sliver, 1.1); err != nil || len(r.Loops()) != 0 {
		t.Errorf("a sliver of less than a bead squared is kept: %v, %v", r.Loops(), err)
	}
}

// Bodies groups each hole with the outline around it.
func TestBodies(t *testing.T) {
	r := region(t, ring(3, 3, 17, 17, true), ring(0, 0, 20, 20, false), ring(8, 8, 12, 12, true),
		ring(6, 6, 14, 14, false), ring(30, 0, 40, 20, false), ring(32, 2, 34, 4, true), ring(32, 12, 34, 14, true))
	bodies := r.bodies()
	for _, b := range bodies {
		slices.Sort(b[1:])
	}
	slices.SortFunc(bodies, func(a, b []int) int { return a[0] - b[0] })
	want := [][]int{{1, 0}, {3, 2}, {4, 5, 6}}
	if !slices.EqualFunc(bodies, want, slices.Equal[[]int]) {
		t.Errorf("bodies %v, want %v", bodies, want)
	}
}

package geom

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
)

// ring returns a square as a loop, clockwise where hole is set.
func ring(x0, y0, x1, y1 int32, hole bool) Loop {
	l := Loop{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
	if hole {
		slices.Reverse(l)
	}
	return l
}

func region(t testing.TB, loops ...Loop) Region {
	t.Helper()
	r, err := NewRegion(loops)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestDifference(t *testing.T) {
	big := ring(0, 0, 20, 20, false)
	window := ring(5, 5, 15, 15, true)
	for _, test := range []struct {
		name            string
		below, above    Region
		ceiling, floor  int64 // twice the area
		ceilings, holes int   // loops of the ceilings, holes among them
	}{
		{"the same", region(t, big, window), region(t, window, big), 0, 0, 0, 0},
		{"step in", region(t, big), region(t, ring(5, 5, 15, 15, false)), 600, 0, 2, 1},
		{"step out", region(t, ring(5, 5, 15, 15, false)), region(t, big), 0, 600, 0, 0},
		{"window closed", region(t, big, window), region(t, big), 0, 200, 0, 0},
		{"window opened", region(t, big), region(t, big, window), 200, 0, 1, 0},
		{
			"shares a corner of the outline", region(t, Loop{{0, 0}, {10, 0}, {20, 0}, {20, 20}, {0, 20}}),
			region(t, ring(0, 0, 10, 20, false)), 400, 0, 1, 0,
		},
		{
			"hole widens here, narrows there", region(t, big, ring(2, 2, 6, 6, true), ring(10, 10, 18, 18, true)),
			region(t, big, ring(1, 1, 7, 7, true), ring(12, 12, 16, 16, true)), 2 * 20, 2 * 48, 2, 1,
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			ceilings, floors, err := Difference(test.below, test.above)
			if test.name == "shares a corner of the outline" { // (0, 20) is no vertex where (10, 20) is
				var fault *RegionError
				if !errors.As(err, &fault) {
					t.Fatalf("error %v, want edges that run along each other", err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if ceilings.doubleArea() != test.ceiling || floors.doubleArea() != test.floor {
				t.Errorf("areas %d and %d, want %d and %d", ceilings.doubleArea(), floors.doubleArea(), test.ceiling, test.floor)
			}
			if len(ceilings.Loops()) != test.ceilings || ceilings.Holes() != test.holes {
				t.Errorf("ceilings %v, want %d loops with %d holes", ceilings.Loops(), test.ceilings, test.holes)
			}
			checkTriangles(t, ceilings)
			checkTriangles(t, floors)
		})
	}
}

func TestDifferenceRefuses(t *testing.T) {
	left := ring(0, 0, 10, 10, false)
	for _, test := range []struct {
		name         string
		below, above Region
		kind         string
	}{
		{"bodies meet in a line", region(t, left), region(t, ring(10, 0, 20, 10, false)), LineContact},
		{"bodies meet in a point", region(t, left), region(t, ring(10, 10, 20, 20, false)), Coincidence},
		{"edges cross", region(t, left), region(t, ring(5, 5, 15, 15, false)), Crossing},
		{"edges overlap", region(t, left), region(t, ring(2, 0, 8, 5, false)), Touch},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, _, err := Difference(test.below, test.above)
			var fault *RegionError
			if !errors.As(err, &fault) || fault.Kind != test.kind {
				t.Errorf("error %v, want %s", err, test.kind)
			}
		})
	}
}

// Over squares of a board, the areas must be those of the squares that only one
// of the two has; where the outlines meet in corners there must be an error.
func TestDifferenceOfBoards(t *testing.T) {
	const seed = 2
	rnd := rand.New(rand.NewPCG(seed, seed))
	done := 0
	for i := range 20_000 {
		below, errBelow := NewRegion(cells(rnd))
		above, errAbove := NewRegion(cells(rnd))
		if errBelow != nil || errAbove != nil {
			continue
		}
		ceilings, floors, err := Difference(below, above)
		if err != nil {
			continue
		}
		done++
		var onlyBelow, onlyAbove int64
		for x := range 12 {
			for y := range 12 {
				middle := Point{float64(x) + 0.5, float64(y) + 0.5}
				b, a := windingAt(below.loops, middle), windingAt(above.loops, middle)
				onlyBelow += 2 * int64(b*(1-a))
				onlyAbove += 2 * int64(a*(1-b))
			}
		}
		if ceilings.doubleArea() != onlyBelow || floors.doubleArea() != onlyAbove {
			t.Fatalf("seed %d, case %d: areas %d and %d, want %d and %d", seed, i, ceilings.doubleArea(), floors.doubleArea(), onlyBelow, onlyAbove)
		}
		checkTriangles(t, ceilings)
		checkTriangles(t, floors)
	}
	if done < 100 {
		t.Errorf("only %d differences found", done)
	}
}

func TestMatch(t *testing.T) {
	a := region(t, Loop{{0, 0}, {9, 0}, {9, 9}, {0, 9}})
	b := region(t, Loop{{9, 9}, {0, 9}, {3, 3}})
	if got, want := Match(a, b), []int32{2, 3, -1}; !slices.Equal(got, want) {
		t.Errorf("Match = %v, want %v", got, want)
	}
}

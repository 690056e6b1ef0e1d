package geom

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func TestRegionOutlines(t *testing.T) {
	for _, o := range outlines(t) {
		t.Run(o.name, func(t *testing.T) {
			for i, loops := range postures(o.loops) {
				r, err := NewRegion(loops)
				var fault *RegionError
				switch {
				case o.verdict == "region" && err != nil:
					t.Errorf("posture %d: %v", i, err)
				case o.verdict == "region":
					checkTriangles(t, r)
				case !errors.As(err, &fault) || !slices.Contains(strings.Split(o.verdict, " or "), fault.Kind):
					t.Errorf("posture %d: %v, want %s", i, err, o.verdict)
				}
			}
		})
	}
}

// The sweep must judge like a look at every pair of edges.
func TestRegionAgainstAllPairs(t *testing.T) {
	const seed = 1
	rnd := rand.New(rand.NewPCG(seed, seed))
	regions := 0
	for i := range 30_000 {
		loops := randomLoops(rnd)
		if i%3 == 0 {
			loops = cells(rnd)
		}
		r, err := NewRegion(loops)
		if want := isRegion(loops); (err == nil) != want {
			t.Fatalf("seed %d, case %d: %v: error %v, but the pairs say region = %t", seed, i, loops, err, want)
		}
		if err == nil {
			regions++
			checkTriangles(t, r)
		}
	}
	if regions < 1000 {
		t.Errorf("only %d of the cases are regions", regions)
	}
}

func TestRegionKeepsOrder(t *testing.T) {
	loops := []Loop{{{1, 3}, {3, 3}, {3, 1}, {1, 1}}, {{4, 4}, {0, 4}, {0, 0}, {4, 0}}}
	r, err := NewRegion(loops)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.EqualFunc(r.Loops(), loops, func(a, b Loop) bool { return slices.Equal(a, b) }) {
		t.Errorf("loops %v, want %v", r.Loops(), loops)
	}
	loops[0][0] = Vertex{9, 9}
	if r.Loops()[0][0] == loops[0][0] {
		t.Error("a proved region changes with the loops it was made from")
	}
}

func TestRegionErrorNamesThePlace(t *testing.T) {
	_, err := NewRegion([]Loop{{{0, 0}, {8 * PerMM, 8 * PerMM}, {8 * PerMM, 0}, {0, 8 * PerMM}}})
	const want = "two edges cross at (4.0000, 4.0000) mm: the edge from (0.0000, 8.0000) to (0.0000, 0.0000) and"
	var fault *RegionError
	if !errors.As(err, &fault) {
		t.Fatalf("error %v", err)
	}
	if fault.At != (Point{4, 4}) || !strings.HasPrefix(err.Error(), "two edges cross at (4.0000, 4.0000) mm: the edge from (") {
		t.Errorf("error %q, want one like %q", err, want)
	}
}

// Elementary: a square of 10 mm with a square hole of 2 mm round (2, 2); the
// centroid of the rest from the moments of the two.
func TestRegionMeasures(t *testing.T) {
	square := func(x, y, half int32) Loop {
		x, y, half = x*PerMM, y*PerMM, half*PerMM
		return Loop{{x - half, y - half}, {x + half, y - half}, {x + half, y + half}, {x - half, y + half}}
	}
	hole := square(2, 2, 1)
	slices.Reverse(hole)
	r, err := NewRegion([]Loop{square(0, 0, 5), hole})
	if err != nil {
		t.Fatal(err)
	}
	if r.Area() != 96 || r.Holes() != 1 {
		t.Errorf("area %g with %d holes, want 96 with 1", r.Area(), r.Holes())
	}
	c := r.Centroid()
	if want := -2 * 4.0 / 96; math.Abs(c.X-want) > 1e-12 || math.Abs(c.Y-want) > 1e-12 {
		t.Errorf("centroid %v, want %g twice", c, want)
	}
	if lo, hi := r.Bounds(); lo != (Point{-5, -5}) || hi != (Point{5, 5}) {
		t.Errorf("bounds %v %v", lo, hi)
	}
	for _, test := range []struct {
		x, y float64
		want bool
	}{{0, 0, true}, {2, 2, false}, {1, 1, true}, {2, 1, true}, {5, 5, true}, {5.001, 0, false}, {-6, 1, false}, {6, 1, false}, {-4, 3, true}} {
		if got := r.Contains(Snap(Point{test.x, test.y})); got != test.want {
			t.Errorf("Contains(%g, %g) = %t", test.x, test.y, got)
		}
	}
}

// Many edges crossed at once, none beside its neighbour along the outline: a
// bundle of needles whose tips are met in a shuffled order.
func TestRegionNeedles(t *testing.T) {
	const seed, n = 1, 20_000
	rnd := rand.New(rand.NewPCG(seed, seed))
	loops := make([]Loop, n)
	for i := range loops {
		x, y := int32(rnd.IntN(1000)), int32(100*i)
		loops[i] = Loop{{x, y}, {5_000_000 + int32(rnd.IntN(1000)), y + 40}, {x, y + 80}}
	}
	if _, err := NewRegion(loops); err != nil {
		t.Fatal(err)
	}
	loops[n/2][1].Y += 200 // now its tip lies beyond the needle above
	var fault *RegionError
	if _, err := NewRegion(loops); !errors.As(err, &fault) || fault.Kind != Crossing {
		t.Errorf("error %v, want a crossing", err)
	}
}

// decode reads loops from bytes: two a vertex, 128 for the next loop.
func decode(data []byte) []Loop {
	var loops []Loop
	var loop Loop
	for len(data) >= 2 && len(loops) < 8 {
		if data[0] == 128 {
			loops, loop, data = append(loops, loop), nil, data[1:]
			continue
		}
		loop = append(loop, Vertex{int32(int8(data[0])), int32(int8(data[1]))})
		data = data[2:]
	}
	return append(loops, loop)
}

func encode(loops []Loop) []byte {
	var data []byte
	for i, l := range loops {
		if i > 0 {
			data = append(data, 128)
		}
		for _, v := range l {
			data = append(data, byte(v.X), byte(v.Y))
		}
	}
	return data
}

func seeds(f *testing.F) {
	for _, o := range outlines(f) {
		if reach(o.loops) < 127 {
			f.Add(encode(o.loops))
		}
	}
}

// Whatever the loops, the sweep judges like a look at every pair of edges.
func FuzzRegion(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 200 {
			t.Skip("the look at every pair would take long")
		}
		loops := decode(data)
		if _, err := NewRegion(loops); (err == nil) != isRegion(loops) {
			t.Errorf("%v: error %v, but the pairs say otherwise", loops, err)
		}
	})
}

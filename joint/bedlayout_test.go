package joint

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Cases that can be followed by hand: rows from the front, the deepest first,
// 5 mm apart, centred on the bed.
func TestLayOut(t *testing.T) {
	bed := [2]float64{200, 100}
	for _, test := range []struct {
		why   string
		sizes [][2]float64
		want  []Spot
	}{
		{"nothing", nil, []Spot{}},
		{"one in the middle", [][2]float64{{40, 20}}, []Spot{{X: 80, Y: 40}}},
		{"the deeper one first", [][2]float64{{40, 20}, {40, 30}}, []Spot{{X: 102.5, Y: 35}, {X: 57.5, Y: 35}}},
		{"a second row", [][2]float64{{150, 30}, {150, 40}}, []Spot{{X: 25, Y: 57.5}, {X: 25, Y: 12.5}}},
		{"a small one into the first row", [][2]float64{{150, 40}, {120, 30}, {50, 20}}, []Spot{{X: 12.5, Y: 12.5}, {X: 12.5, Y: 57.5}, {X: 137.5, Y: 57.5}}},
		{"as large as the bed", [][2]float64{{200, 100}}, []Spot{{}}},
		{"turned where only that fits", [][2]float64{{90, 150}}, []Spot{{X: 25, Y: 5, Turned: true}}},
		{"a second bed beside the first", [][2]float64{{200, 60}, {100, 60}}, []Spot{{X: 0, Y: 20}, {X: 255, Y: 20, Bed: 1}}},
		{"too large hangs over and keeps the rest clear", [][2]float64{{260, 120}, {200, 100}}, []Spot{{X: 0, Y: -10}, {X: 265, Y: 0, Bed: 1}}},
	} {
		t.Run(test.why, func(t *testing.T) {
			if diff := cmp.Diff(test.want, LayOut(test.sizes, bed)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Whatever the sizes: no two boxes are nearer than the gap in both directions,
// and each that fits a bed lies on its own.
func TestLayOutNeverOverlaps(t *testing.T) {
	const seed, rounding = 1, 1e-9
	rnd := rand.New(rand.NewPCG(seed, seed))
	turned, beds := 0, 0
	for i := range 300 {
		bed := [2]float64{100 + 200*rnd.Float64(), 100 + 200*rnd.Float64()}
		sizes := make([][2]float64, 1+rnd.IntN(30))
		for k := range sizes {
			sizes[k] = [2]float64{1 + 150*rnd.ExpFloat64()/3, 1 + 150*rnd.ExpFloat64()/3}
		}
		spots := LayOut(sizes, bed)
		type rectangle struct{ x0, y0, x1, y1 float64 }
		var placed []rectangle
		for k, s := range spots {
			w, d := sizes[k][0], sizes[k][1]
			if s.Turned {
				w, d = d, w
				turned++
			}
			beds = max(beds, s.Bed+1)
			r := rectangle{s.X, s.Y, s.X + w, s.Y + d}
			if d <= bed[1] && w <= bed[0] && (r.y0 < -rounding || r.y1 > bed[1]+rounding) {
				t.Fatalf("seed %d, case %d: box %d of %v at %+v hangs over a bed of %v", seed, i, k, sizes[k], s, bed)
			}
			for j, q := range placed {
				apart := max(r.x0-q.x1, q.x0-r.x1, r.y0-q.y1, q.y0-r.y1)
				if apart < bedGap-rounding {
					t.Fatalf("seed %d, case %d: boxes %d and %d are %g mm apart", seed, i, j, k, apart)
				}
			}
			placed = append(placed, r)
		}
	}
	if turned < 10 || beds < 3 {
		t.Errorf("only %d turned boxes and %d beds were tried", turned, beds)
	}
}

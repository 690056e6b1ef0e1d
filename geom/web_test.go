package geom

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// Closed forms: bores in a row have webs of pitch less diameter, and a margin; a
// bore leaves the wall of a ring; air between bodies and round an island is none.
func TestLeastWeb(t *testing.T) {
	plate := Rectangle(Point{}, 60, 20, 0, 0, ChordPlain)
	for _, test := range []struct {
		name     string
		contours []Contour
		want     float64
		at       Point
		ok       bool
	}{
		{"two bores", []Contour{plate, Bore(Point{-6, 0}, 8, ChordFit), Bore(Point{6, 0}, 8, ChordFit)}, 4, Point{0, 0}, true},
		{"margin", []Contour{plate, Bore(Point{-10, 4}, 8, ChordFit), Bore(Point{6, 0}, 8, ChordFit)}, 2, Point{-10, 9}, true},
		{"windows corner to corner", []Contour{plate, Window(Point{-4, 0}, 4, 4, 0, 0, ChordPlain), Window(Point{3, 7}, 4, 4, 0, 0, ChordPlain)}, 1, Point{}, true},
		{"corners apart", []Contour{plate, Window(Point{-4, -4}, 4, 4, 0, 0, ChordPlain), Window(Point{3, 4}, 4, 4, 0, 0, ChordPlain)}, 4, Point{}, true},
		{"one loop", []Contour{plate}, 0, Point{}, false},
		{"two bodies", []Contour{plate, Rectangle(Point{0, 11.5}, 60, 1, 0, 0, ChordPlain)}, 0, Point{}, false},
		{"an island", []Contour{plate, Window(Point{}, 18, 10, 0, 0, ChordPlain), Rectangle(Point{}, 16, 8, 0, 0, ChordPlain)}, 5, Point{}, true},
	} {
		t.Run(test.name, func(t *testing.T) {
			web, ok := mustRegion(t, test.contours...).LeastWeb()
			if ok != test.ok || ok && math.Abs(web.Width-test.want) > 0.001 {
				t.Fatalf("web %+v, %t, want %g, %t", web, ok, test.want, test.ok)
			}
			if middle := web.A.Add(web.B).Scale(0.5); test.at != (Point{}) && middle.Sub(test.at).Len() > 0.3 {
				t.Errorf("web at %v, want %v", middle, test.at)
			}
		})
	}
}

// Against all pairs: the nearest points of two loops whose connection runs
// inside, at points all along it.
func TestLeastWebAgainstAllPairs(t *testing.T) {
	const seed = 9
	rnd := rand.New(rand.NewPCG(seed, seed))
	found := 0
	for i := range 4000 {
		loops := cells(rnd)
		if i%2 == 0 {
			for _, l := range loops {
				for k := range l {
					l[k] = Vertex{10*l[k].X + 3*l[k].Y, 10*l[k].Y - int32(i%7)*l[k].X}
				}
			}
		}
		r, err := NewRegion(loops)
		if err != nil {
			continue
		}
		want := math.Inf(1)
		for a := range loops {
			for b := range a {
				for j := range loops[a] {
					for k := range loops[b] {
						p, q := loops[a][j].Point(), loops[a][(j+1)%len(loops[a])].Point()
						width2, from, to := segments(p, q, loops[b][k].Point(), loops[b][(k+1)%len(loops[b])].Point())
						inside := true
						for share := 0.01; share < 1 && inside; share += 0.0307 {
							at := from.Add(to.Sub(from).Scale(share)).Scale(PerMM)
							inside = windingAt(loops, Point{at.X + 1e-7, at.Y + 1.3e-7}) == 1
						}
						if inside {
							want = min(want, math.Sqrt(width2))
						}
					}
				}
			}
		}
		web, ok := r.LeastWeb()
		if ok != !math.IsInf(want, 1) || ok && math.Abs(web.Width-want) > 1e-9 {
			t.Fatalf("seed %d, case %d: %v: web %+v, want %g", seed, i, loops, web, want)
		}
		if ok {
			found++
		}
	}
	if found < 50 {
		t.Errorf("only %d regions with a web", found)
	}
}

func BenchmarkLeastWeb(b *testing.B) {
	for _, rows := range []int{32, 100, 316} {
		r, err := NewRegion(grille(rows, 24, 0.1, 0))
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprint(rows*rows, "holes"), func(b *testing.B) {
			for b.Loop() {
				r.LeastWeb()
			}
		})
	}
}

package geom

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// checkTriangles proves a triangulation: V + 2H - 2C triangles (Euler's formula
// for C outer loops with H holes), each of an area above zero, the areas adding
// up exactly; each edge of the outline once, every other edge once either way.
func checkTriangles(t testing.TB, r Region) {
	t.Helper()
	triangles := r.Triangles()
	holes := r.Holes()
	if want := len(r.Vertices()) + 2*holes - 2*(len(r.Loops())-holes); len(triangles) != want {
		t.Fatalf("%d triangles, want %d", len(triangles), want)
	}
	var sum int64
	used := map[[2]int32]bool{}
	for _, f := range triangles {
		double := orient(r.verts[f[0]], r.verts[f[1]], r.verts[f[2]])
		if double <= 0 {
			t.Fatalf("triangle %v has twice the area %d", f, double)
		}
		sum += double
		for k := range 3 {
			e := [2]int32{f[k], f[(k+1)%3]}
			if used[e] {
				t.Fatalf("edge %v used twice in one sense", e)
			}
			used[e] = true
		}
	}
	if sum != r.doubleArea() {
		t.Fatalf("the triangles have twice the area %d, the region %d", sum, r.doubleArea())
	}
	first := 0
	for _, l := range r.Loops() {
		for k := range l {
			e := [2]int32{int32(first + k), int32(first + (k+1)%len(l))}
			if !used[e] || used[[2]int32{e[1], e[0]}] {
				t.Fatalf("edge %v of the outline is not used once", e)
			}
			delete(used, e)
		}
		first += len(l)
	}
	for e := range used {
		if !used[[2]int32{e[1], e[0]}] {
			t.Fatalf("inner edge %v used in one sense only", e)
		}
	}
}

// grille draws a square plate with rows of round holes, turned as a whole and
// each in itself.
func grille(rows, sides int, turn, turnHole float64) []Loop {
	pitch := 1400.0 / float64(rows+2)
	half := 700.0
	corners := []Point{{-half, -half}, {half, -half}, {half, half}, {-half, half}}
	for i := range corners {
		corners[i] = corners[i].Rotate(turn)
	}
	loops := []Loop{Contour{Points: corners}.loop()}
	for i := range rows {
		for j := range rows {
			c := Point{float64(2*i+1-rows) * pitch / 2, float64(2*j+1-rows) * pitch / 2}
			hole := make([]Point, sides)
			for k := range hole {
				hole[k] = c.Add(Polar(pitch*0.4, turnHole-2*math.Pi*float64(k)/float64(sides))).Rotate(turn)
			}
			loops = append(loops, Contour{Points: hole}.loop())
		}
	}
	return loops
}

func TestTrianglesOfGrilles(t *testing.T) {
	for _, sides := range []int{3, 4, 6, 24} {
		for _, turn := range []float64{0, 0.1, math.Pi / 4} {
			for _, turnHole := range []float64{0, math.Pi / 24, 0.1} {
				r, err := NewRegion(grille(12, sides, turn, turnHole))
				if err != nil {
					t.Fatal(err)
				}
				checkTriangles(t, r)
			}
		}
	}
}

// Outlines that wander in and out, with a hole of the same shape inside.
func TestTrianglesOfStars(t *testing.T) {
	const seed = 1
	rnd := rand.New(rand.NewPCG(seed, seed))
	for i := range 300 {
		n := 3 + rnd.IntN(300)
		outer, hole := make(Loop, n), make(Loop, n)
		for k := range n {
			radius := 20 + 400*rnd.Float64()
			angle := 2 * math.Pi * float64(k) / float64(n)
			outer[k] = Snap(Polar(radius, angle))
			hole[n-1-k] = Snap(Polar(radius/2, angle))
		}
		r, err := NewRegion([]Loop{outer, hole})
		if err != nil {
			t.Fatalf("seed %d, case %d: %v", seed, i, err)
		}
		checkTriangles(t, r)
	}
}

// Whatever the loops, there is an error or a right triangulation.
func FuzzTriangulate(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		if r, err := NewRegion(decode(data)); err == nil {
			checkTriangles(t, r)
		}
	})
}

func BenchmarkRegion(b *testing.B) {
	for _, rows := range []int{32, 100} {
		loops := grille(rows, 24, 0.1, 0)
		b.Run(fmt.Sprint(rows*rows, "holes"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := NewRegion(loops); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkTriangles(b *testing.B) {
	for _, rows := range []int{32, 100} {
		r, err := NewRegion(grille(rows, 24, 0.1, 0))
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprint(rows*rows, "holes"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r.Triangles()
			}
		})
	}
}

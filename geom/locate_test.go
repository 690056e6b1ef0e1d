package geom

import (
	"math/rand/v2"
	"testing"
)

// ContainsAll must agree with Contains, point by point, on and off the outline.
func TestContainsAll(t *testing.T) {
	const seed = 6
	rnd := rand.New(rand.NewPCG(seed, seed))
	inside := 0
	for range 2000 {
		r, err := NewRegion(cells(rnd))
		if err != nil {
			continue
		}
		points := make([]Vertex, 40)
		for i := range points {
			points[i] = Vertex{int32(rnd.IntN(13) - 1), int32(rnd.IntN(13) - 1)}
		}
		points = append(points, r.Vertices()...)
		for i, got := range r.ContainsAll(points) {
			if want := r.Contains(points[i]); got != want {
				t.Fatalf("%v: contains %v: %t, one by one %t", r.Loops(), points[i], got, want)
			}
			if got {
				inside++
			}
		}
	}
	if inside < 5000 {
		t.Errorf("only %d points inside", inside)
	}
}

func BenchmarkContainsAll(b *testing.B) {
	r, err := NewRegion(grille(100, 24, 0.1, 0))
	if err != nil {
		b.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 1))
	points := make([]Vertex, 100_000)
	for i := range points {
		points[i] = Vertex{rnd.Int32N(1<<23) - 1<<22, rnd.Int32N(1<<23) - 1<<22}
	}
	for b.Loop() {
		r.ContainsAll(points)
	}
}

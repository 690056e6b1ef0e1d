package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Closed forms: a motion after another moves a point as the two do one by one;
// the pole stays; half of a turn about an axis is a turn about it by half the
// angle (Chasles: any plane motion is a turn about one pole, or a shift).
func TestMotionsTogether(t *testing.T) {
	const seed = 4
	rnd := rand.New(rand.NewPCG(seed, seed))
	point := func() Point { return Point{200 * (rnd.Float64() - 0.5), 200 * (rnd.Float64() - 0.5)} }
	near := func(p, q Point) bool { return p.Sub(q).Len() < 1e-9 }
	for i := range 200 {
		m, n, p, axis := Motion{7 * (rnd.Float64() - 0.5), point()}, Motion{7 * (rnd.Float64() - 0.5), point()}, point(), point()
		if !near(m.After(n).Move(p), m.Move(n.Move(p))) {
			t.Fatalf("seed %d, case %d: %v after %v moves %v to %v", seed, i, m, n, p, m.After(n).Move(p))
		}
		if pole, ok := m.Pole(); !ok || m.Move(pole).Sub(pole).Len() > 1e-6 {
			t.Fatalf("seed %d, case %d: %v has the pole %v, %v", seed, i, m, pole, ok)
		}
		turn, share := 6*(rnd.Float64()-0.5), rnd.Float64()
		got := m.Towards(TurnAbout(axis, turn).After(m), share)
		if want := TurnAbout(axis, share*turn).After(m); !near(got.Move(p), want.Move(p)) {
			t.Fatalf("seed %d, case %d: %g of a turn by %g about %v moves %v to %v, want %v", seed, i, share, turn, axis, p, got.Move(p), want.Move(p))
		}
		if got := m.Towards(n, 1); !near(got.Move(p), n.Move(p)) || math.Abs(got.Turn-n.Turn) > 1e-12 {
			t.Fatalf("seed %d, case %d: all the way from %v to %v is %v", seed, i, m, n, got)
		}
	}
	shift := Motion{0, Point{3, -4}}
	if got := (Motion{}).Towards(shift, 0.25); got != (Motion{0, Point{0.75, -1}}) {
		t.Errorf("a quarter of a shift is %v", got)
	}
	if _, ok := shift.Pole(); ok {
		t.Error("a shift has a pole")
	}
}

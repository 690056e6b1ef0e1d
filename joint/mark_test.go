package joint

import (
	"testing"

	"pintle/geom"
)

// The plate's top bears letters: raised above its thickness, within its rim and
// clear of every opening (the part proves that), and no taller than the rim.
func TestPlateBearsItsName(t *testing.T) {
	part := plateOf(t)
	layers := part.Layers()
	top := layers[len(layers)-1]
	if got := float64(top.Z1-top.Z0) / geom.PerMM; got < 0.59 || got > 0.61 {
		t.Errorf("the letters stand up %.3f mm", got)
	}
	lo, hi := part.Bounds()
	from, to := top.Top.Bounds()
	if from.Y < lo.Y+0.5 || to.Y > lo.Y+11 || from.X < lo.X+11 || to.X > hi.X-11 {
		t.Errorf("the letters stand from %v to %v on a plate from %v to %v", from, to, lo, hi)
	}
	if n := len(top.Top.Loops()); n < 10 { // l a m p - p l a t e
		t.Errorf("%d loops make no name", n)
	}
}

package gear

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
	"pintle/geom"
)

// A path with a kerf of 0.2 mm runs 0.1 mm outside the nominal teeth: each of
// its points lies that far inside the rack that cuts them (rolled, as for the
// printed outline), within the chord error, and it has less than half the curves of the
// printed outline.
func TestCutOutline(t *testing.T) {
	p := mustPair(t, bareSpec(28, 36))
	g := p.Pinion()
	contour, err := g.CutOutline(0.2)
	if err != nil {
		t.Fatal(err)
	}
	rolling := rackOf(28, 1.5, 20*degree, 0, ProfileA(), p.thin)
	for _, q := range contour.Points {
		if a := q.Angle(); math.Abs(a) > math.Pi/28 || q.Len() > g.nominal.ra+0.1-1e-6 {
			continue
		}
		if d := rolling.clearance(q); math.Abs(d+0.1) > p.spec.ChordError+5e-4 {
			t.Fatalf("(%g, %g) lies %g mm from the rack, want -0.1", q.X, q.Y, d)
		}
	}
	if n := len(contour.Curves); 2*n > len(g.Outline().Curves) {
		t.Errorf("%d curves for 28 teeth, the printed outline has %d", n, len(g.Outline().Curves))
	}
	if _, err := geom.NewPart("cut", geom.Slab{Z0: 0, Z1: 1, Bottom: []geom.Contour{contour}}); err != nil {
		t.Error(err)
	}
	var field *check.FieldError
	if _, err := g.CutOutline(1.2); !errors.As(err, &field) || field.Remedy == "" {
		t.Errorf("a kerf wider than the fillet: %v", err)
	}
}

package gear

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
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

// distanceTo returns how far a point lies from a closed outline, negative inside.
func distanceTo(outline []geom.Point, q geom.Point) float64 {
	least, inside := math.Inf(1), false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		d := b.Sub(a)
		s := math.Max(0, math.Min(1, ((q.X-a.X)*d.X+(q.Y-a.Y)*d.Y)/(d.X*d.X+d.Y*d.Y)))
		least = math.Min(least, q.Sub(a.Add(d.Scale(s))).Len())
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/d.Y*d.X {
			inside = !inside
		}
	}
	if inside {
		return -least
	}
	return least
}

// The whole path of a sector runs half a kerf outside the sector as it is drawn
// without a printer's errors: teeth, round body and straight sides. Only past the
// corners, where a side leaves the root circle and the tips their arcs, it stands
// off further, and nowhere nearer.
func TestCutOutlineOfSector(t *testing.T) {
	for _, test := range []struct {
		rack Rack
		kerf float64
	}{{ProfileA(), 0.2}, {ProfileA(), 0.4}, {ProfileD(), 0.2}, {ProfileA(), 0}} {
		spec := sectorSpec()
		spec.Rack, spec.ChordError = test.rack, 0.001
		p := mustPair(t, spec)
		g := p.Wheel()
		contour, err := g.CutOutline(test.kerf)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := geom.NewPart("cut", geom.Slab{Z0: 0, Z1: 1, Bottom: []geom.Contour{contour}}); err != nil {
			t.Error(err)
		}
		corners := 0
		for _, q := range contour.Points {
			d := distanceTo(g.Outline().Points, q)
			if math.Abs(d) < 1e-9 {
				d = 0 // on the outline itself
			}
			if off := d - test.kerf/2; off < -0.0025 {
				t.Fatalf("kerf %g: (%g, %g) lies %g mm from the sector", test.kerf, q.X, q.Y, d)
			} else if off > 0.0025 {
				corners++
			}
		}
		if most := 4*g.sector + 2; corners > most {
			t.Errorf("kerf %g: %d of %d points stand off further than half the kerf, want the corners only", test.kerf, corners, len(contour.Points))
		}
		if n := len(contour.Curves); 4*n > 3*len(g.Outline().Curves) {
			t.Errorf("%d curves, the printed outline has %d", n, len(g.Outline().Curves))
		}
	}
}

// The cut path of an internal gear's teeth runs half a kerf inside its hole.
func TestCutOutlineOfInternalGear(t *testing.T) {
	spec := ringSpec(24, 60)
	spec.Card.Bore, spec.ChordError = fit.Error{}, 0.001
	p := mustPair(t, spec)
	contour, err := p.Wheel().CutOutline(0.2)
	if err != nil {
		t.Fatal(err)
	}
	hole := p.Wheel().nominal.outline(0.0005).Points
	for _, q := range contour.Points {
		if d := distanceTo(hole, q); d > -0.1+0.003 { // past a tip's corners it stands off further
			t.Fatalf("(%g, %g) lies %g mm from the hole's edge", q.X, q.Y, d)
		}
	}
	near(t, "tips", math.Hypot(contour.Points[len(contour.Points)-1].X, contour.Points[len(contour.Points)-1].Y), p.Wheel().nominal.ra-0.1, 2e-3)
	if n := len(contour.Curves); 4*n > 3*len(p.Wheel().Outline().Curves) {
		t.Errorf("%d curves, the printed outline has %d", n, len(p.Wheel().Outline().Curves))
	}
}

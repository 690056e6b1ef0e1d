package drawing_test

import (
	"math"
	"testing"

	"pintle/drawing"
	"pintle/geom"
)

var origin geom.Point

func newPart(t *testing.T, slabs ...geom.Slab) geom.Part {
	t.Helper()
	p, err := geom.NewPart("piece", slabs...)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// lengths sums the length of the view's lines by kind, in mm.
func lengths(v drawing.View) map[drawing.LineKind]float64 {
	sum := map[drawing.LineKind]float64{}
	for _, s := range v.Strokes {
		for _, c := range s.Curves {
			if a, ok := c.(geom.Arc); ok {
				sum[s.Kind] += a.Radius * math.Abs(a.To-a.From)
			} else {
				sum[s.Kind] += c.End().Sub(c.Start()).Len()
			}
		}
	}
	return sum
}

// A stepped bush: 40 mm flange, 20 mm boss above it, a 30 mm recess below and
// a 10 mm bore through. From above, the flange, boss and bore are in view and
// the recess is hidden, all of it.
func TestSteppedBush(t *testing.T) {
	outer, boss, bore := geom.Peg(origin, 40, 0.02), geom.Peg(origin, 20, 0.02), geom.Bore(origin, 10, 0.02)
	part := newPart(t,
		geom.Slab{Z0: 0, Z1: 3, Bottom: []geom.Contour{outer, geom.Bore(origin, 30, 0.02)}},
		geom.Slab{Z0: 3, Z1: 6, Bottom: []geom.Contour{outer, bore}},
		geom.Slab{Z0: 6, Z1: 12, Bottom: []geom.Contour{boss, bore}},
	)
	view := drawing.PlanOf(part, nil)
	got := lengths(view)
	// Circumferences, and two centre lines of 40 mm plus 3 mm at each end.
	for kind, want := range map[drawing.LineKind]float64{
		drawing.Outline: math.Pi * (40 + 20 + 10),
		drawing.Hidden:  math.Pi * 30,
		drawing.Edge:    0,
		drawing.Centre:  2 * 46,
	} {
		if math.Abs(got[kind]-want) > 1e-6 {
			t.Errorf("lines of kind %d: %.6f mm, want %.6f mm", kind, got[kind], want)
		}
	}
	for _, s := range view.Strokes {
		if s.Kind != drawing.Centre && !s.Closed {
			t.Errorf("a circle is not drawn closed: %v", s)
		}
	}
}

// A bar 10 mm wide lies across a 30 mm disc. Of the disc's edge the two arcs
// under the bar are hidden: each spans 2 asin(5/15).
func TestEdgeGoesUnderMaterial(t *testing.T) {
	disc := geom.Peg(origin, 30, 0.005)
	bar := geom.Rectangle(origin, 60, 10, 0, 0, 0.02)
	part := newPart(t,
		geom.Slab{Z0: 0, Z1: 3, Bottom: []geom.Contour{disc}},
		geom.Slab{Z0: 3, Z1: 6, Bottom: []geom.Contour{bar}},
	)
	got := lengths(drawing.PlanOf(part, nil))
	hidden := 15 * 2 * 2 * math.Asin(5.0/15)
	// The edge may be cut up to 0.05 mm early at each of the four crossings.
	if math.Abs(got[drawing.Hidden]-hidden) > 0.25 {
		t.Errorf("%.4f mm hidden, want %.4f", got[drawing.Hidden], hidden)
	}
	if total := got[drawing.Hidden] + got[drawing.Outline]; math.Abs(total-(30*math.Pi+140)) > 1e-6 {
		t.Errorf("%.6f mm of edges in all", total)
	}
}

// The small step of a chamfer is drawn thin where it is in view, on top, and
// left out on the bed side.
func TestChamfers(t *testing.T) {
	square := geom.Rectangle(origin, 20, 20, 0, 0, 0.02)
	small := square.Map(func(p geom.Point) geom.Point { return p.Scale(0.9) })
	part := newPart(t,
		geom.Slab{Z0: 0, Z1: 1, Bottom: []geom.Contour{small}, Top: []geom.Contour{square}},
		geom.Slab{Z0: 1, Z1: 5, Bottom: []geom.Contour{square}},
		geom.Slab{Z0: 5, Z1: 6, Bottom: []geom.Contour{square}, Top: []geom.Contour{small}},
	)
	got := lengths(drawing.PlanOf(part, nil))
	want := map[drawing.LineKind]float64{drawing.Outline: 80, drawing.Edge: 72}
	for _, kind := range []drawing.LineKind{drawing.Outline, drawing.Edge, drawing.Hidden} {
		if math.Abs(got[kind]-want[kind]) > 1e-9 {
			t.Errorf("lines of kind %d: %g mm, want %g", kind, got[kind], want[kind])
		}
	}
}

// A flare from 10 to 30 mm over a 20 mm block hides the block and its own foot.
func TestFlareHides(t *testing.T) {
	square := func(side float64) []geom.Contour {
		return []geom.Contour{geom.Rectangle(origin, side, side, 0, 0, 0.02)}
	}
	part := newPart(t,
		geom.Slab{Z0: 0, Z1: 5, Bottom: square(20)},
		geom.Slab{Z0: 5, Z1: 15, Bottom: square(10), Top: square(30)},
	)
	got := lengths(drawing.PlanOf(part, nil))
	if got[drawing.Hidden] != 80 || got[drawing.Outline] != 120 || got[drawing.Edge] != 0 {
		t.Errorf("%g mm hidden, %g mm outline, %g mm thin", got[drawing.Hidden], got[drawing.Outline], got[drawing.Edge])
	}
}

// A cone of 30 mm below and 20 mm above, with a bore of 10 mm that opens to 11
// half way up and 14 at the top: outlines where the part ends, thin lines for edges within it, and
// no note of circles that no caliper finds.
func TestConeAndLeadIn(t *testing.T) {
	cone, bore := geom.Peg(origin, 30, 0.02), geom.Bore(origin, 10, 0.02)
	part := newPart(t,
		geom.Slab{Z0: 0, Z1: 5, Bottom: []geom.Contour{cone, bore}, Top: []geom.Contour{cone.Resize(25), bore.Resize(11)}},
		geom.Slab{Z0: 5, Z1: 10, Bottom: []geom.Contour{cone.Resize(25), bore.Resize(11)}, Top: []geom.Contour{cone.Resize(20), bore.Resize(14)}},
	)
	view := drawing.PlanOf(part, nil)
	got := lengths(view)
	for kind, want := range map[drawing.LineKind]float64{
		drawing.Outline: math.Pi * (30 + 10), drawing.Edge: math.Pi * (25 + 20 + 11 + 14), drawing.Hidden: 0,
	} {
		if math.Abs(got[kind]-want) > 1e-6 {
			t.Errorf("lines of kind %d: %.6f mm, want %.6f mm", kind, got[kind], want)
		}
	}
}

// A pattern of many equal holes gets no centre lines; four screw holes do, each
// two lines of the hole plus 1 mm at each end.
func TestCentreLines(t *testing.T) {
	for _, test := range []struct{ side, lines int }{{2, 8}, {9, 0}} {
		contours := []geom.Contour{geom.Rectangle(geom.Point{X: 45.5, Y: 45.5}, 100, 100, 0, 0, 0.02)}
		for i := range test.side * test.side {
			at := geom.Point{X: 10 * float64(i%test.side), Y: 10 * float64(i/test.side)}
			contours = append(contours, geom.Bore(at, 3, 0.02))
		}
		part := newPart(t, geom.Slab{Z0: 0, Z1: 3, Bottom: contours})
		view := drawing.PlanOf(part, nil)
		lines := 0
		for _, s := range view.Strokes {
			if s.Kind == drawing.Centre {
				lines++
			}
		}
		if lines != test.lines || math.Abs(lengths(view)[drawing.Centre]-5*float64(test.lines)) > 1e-9 {
			t.Errorf("%d holes: %d centre lines, %.3f mm", test.side*test.side, lines, lengths(view)[drawing.Centre])
		}
	}
}

// Extra strokes come out as they went in, and a pitch circle gets the part's
// centre lines.
func TestExtraStrokes(t *testing.T) {
	pitch := drawing.Stroke{Kind: drawing.Centre, Closed: true, Curves: []geom.Curve{geom.Arc{Radius: 30, To: 2 * math.Pi}}}
	part := newPart(t, geom.Slab{Z0: 0, Z1: 3, Bottom: []geom.Contour{geom.Rectangle(origin, 20, 20, 0, 0, 0.02)}})
	view := drawing.PlanOf(part, nil, pitch)
	if got, want := lengths(view)[drawing.Centre], 60*math.Pi+2*66; math.Abs(got-want) > 1e-9 {
		t.Errorf("%.6f mm of centre lines, want %.6f", got, want)
	}
	lo, hi := view.Bounds()
	if lo.Sub(geom.Point{X: -33, Y: -33}).Len() > 1e-9 || hi.Sub(geom.Point{X: 33, Y: 33}).Len() > 1e-9 {
		t.Errorf("bounds %v %v", lo, hi)
	}
}

// A cut cubic must stay on the cubic: its ends and middle against At.
func TestCutCubicStaysOnIt(t *testing.T) {
	bulge := geom.Cubic{{X: -20}, {X: -10, Y: 25}, {X: 10, Y: 25}, {X: 20}}
	outline := geom.NewContour([]geom.Curve{geom.Line{A: geom.Point{X: -20}, B: geom.Point{X: 20}}, geom.Cubic{bulge[3], bulge[2], bulge[1], bulge[0]}}, 0.005)
	bar := geom.Rectangle(geom.Point{Y: 15}, 10, 20, 0, 0, 0.02)
	part := newPart(t,
		geom.Slab{Z0: 0, Z1: 3, Bottom: []geom.Contour{outline}},
		geom.Slab{Z0: 3, Z1: 6, Bottom: []geom.Contour{bar}},
	)
	pieces := 0
	for _, s := range drawing.PlanOf(part, nil).Strokes {
		for _, c := range s.Curves {
			cubic, ok := c.(geom.Cubic)
			if !ok {
				continue
			}
			pieces++
			for _, u := range []float64{0, 0.5, 1} {
				if d := distance(bulge, cubic.At(u)); d > 2e-4 { // the places tried on the cubic are 2e-4 mm apart
					t.Errorf("piece %v is %.6f mm off the cubic at %g", cubic, d, u)
				}
			}
		}
	}
	if pieces != 3 {
		t.Errorf("the cubic is drawn in %d pieces, want 3", pieces)
	}
}

func distance(c geom.Cubic, p geom.Point) float64 {
	best := math.Inf(1)
	for i := range 200001 {
		best = min(best, c.At(float64(i)/200000).Sub(p).Len())
	}
	return best
}

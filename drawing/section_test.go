package drawing_test

import (
	"math"
	"testing"

	"pintle/drawing"
	"pintle/geom"
)

func steppedBush(t *testing.T) geom.Part {
	t.Helper()
	outer, boss, bore := geom.Peg(origin, 40, 0.02), geom.Peg(origin, 20, 0.02), geom.Bore(origin, 10, 0.02)
	return newPart(t,
		geom.Slab{Z0: 0, Z1: 3, Bottom: []geom.Contour{outer, geom.Bore(origin, 30, 0.02)}},
		geom.Slab{Z0: 3, Z1: 6, Bottom: []geom.Contour{outer, bore}},
		geom.Slab{Z0: 6, Z1: 12, Bottom: []geom.Contour{boss, bore}},
	)
}

// hatchedArea is the length of all hatching lines times their pitch: the area,
// but for what the ends of the lines leave.
func hatchedArea(v drawing.View, pitch float64) float64 {
	sum := 0.0
	for _, h := range v.Hatched {
		for _, l := range h.Lines(pitch) {
			sum += pitch * l.B.Sub(l.A).Len()
		}
	}
	return sum
}

func along(x float64) drawing.Cut {
	return drawing.Cut{From: geom.Point{X: -x}, To: geom.Point{X: x}}
}

// The section of a stepped bush in closed form. Cut: 5 x 3, 15 x 3 and 5 x 6 mm
// on either side, 180 mm². Its outline, one side: walls of 6 + 6 + 3 + 9 mm (radius
// 20 from 0 to 6, 10 from 6 to 12, 15 from 0 to 3, 5 from 3 to 12) and faces of 5 +
// 10 + 10 + 5 mm. Beyond it the far halves of recess and bore show
// their edges: 30 at the bed, 10 at the step, 10 at the top.
func TestSectionOfBush(t *testing.T) {
	v := drawing.SectionOf(steppedBush(t), along(20), nil)
	if got := hatchedArea(v, 0.01); math.Abs(got-180) > 0.3 {
		t.Errorf("%.3f mm² hatched, want 180", got)
	}
	want := 2*(6+6+3+9+30.0) + 50
	if got := lengths(v)[drawing.Outline]; math.Abs(got-want) > 0.05 {
		t.Errorf("%.3f mm of outlines, want %.3f", got, want)
	}
	lo, hi := v.Bounds()
	if lo.Sub(geom.Point{X: -20}).Len() > 1e-3 || hi.Sub(geom.Point{X: 20, Y: 12}).Len() > 1e-3 {
		t.Errorf("bounds %v %v", lo, hi)
	}
}

// A cut beside the axis meets chords: at 8 mm from the axis the flange of 20 mm
// radius is cut over 2 sqrt(400 - 64), the bore of 5 mm not at all.
func TestSectionBesideTheAxis(t *testing.T) {
	cut := drawing.Cut{From: geom.Point{X: -20, Y: 8}, To: geom.Point{X: 20, Y: 8}}
	v := drawing.SectionOf(steppedBush(t), cut, nil)
	chord := func(r float64) float64 { return 2 * math.Sqrt(r*r-64) }
	want := 3*(chord(20)-chord(15)) + 3*chord(20) + 6*chord(10)
	if got := hatchedArea(v, 0.01); math.Abs(got-want) > 0.01*want {
		t.Errorf("%.3f mm² hatched, want %.3f", got, want)
	}
}

// The cut may run any way: turned by 90 degrees a bar of 30 by 10 shows its
// width, seen from the right of the line.
func TestSectionAcross(t *testing.T) {
	bar := newPart(t, geom.Slab{Z1: 4, Bottom: []geom.Contour{geom.Rectangle(geom.Point{Y: 2}, 30, 10, 0, 0, 0.02)}})
	v := drawing.SectionOf(bar, drawing.Cut{From: geom.Point{Y: -10}, To: geom.Point{Y: 10}}, nil)
	lo, hi := v.Bounds()
	if math.Abs(lo.X+3) > 1e-3 || math.Abs(hi.X-7) > 1e-3 || math.Abs(hi.Y-4) > 1e-3 {
		t.Errorf("bounds %v %v", lo, hi)
	}
}

// A post behind the cut shows its two edges over a plate that is cut, and its
// top; what is in front of the cut shows nothing.
func TestSectionShowsWhatIsBeyond(t *testing.T) {
	plate := geom.Rectangle(origin, 40, 40, 0, 0, 0.02)
	for _, test := range []struct{ y, want float64 }{{10, 2*5 + 6}, {-10, 0}} {
		part := newPart(t,
			geom.Slab{Z1: 3, Bottom: []geom.Contour{plate}},
			geom.Slab{Z0: 3, Z1: 8, Bottom: []geom.Contour{geom.Rectangle(geom.Point{X: 4, Y: test.y}, 6, 6, 0, 0, 0.02)}})
		v := drawing.SectionOf(part, along(20), nil)
		if got := lengths(v)[drawing.Outline] - 2*(40+3); math.Abs(got-test.want) > 0.05 {
			t.Errorf("post at y = %g: %.3f mm of lines beyond the cut, want %g", test.y, got, test.want)
		}
	}
}

// A toothed rim is drawn as ISO 2203 has it: tips and roots are lines, the teeth
// between them are not hatched, and the reference line is a chain line.
func TestSectionOfToothedRim(t *testing.T) {
	var points []geom.Curve
	const teeth = 20
	at := func(r float64, k float64) geom.Point { return geom.Polar(r, 2*math.Pi*k/teeth) }
	for i := range teeth {
		k := float64(i)
		corners := []geom.Point{at(20, k-0.2), at(20, k+0.2), at(17, k+0.3), at(17, k+0.7), at(20, k+0.8)}
		for j := range 4 {
			points = append(points, geom.Line{A: corners[j], B: corners[j+1]})
		}
	}
	part := newPart(t, geom.Slab{Z1: 10, Bottom: []geom.Contour{geom.NewContour(points, 0.01)}})
	rim := &drawing.Toothed{Tip: 40, Reference: 37, Root: 34}
	for _, cut := range []drawing.Cut{along(25), {From: at(25, 0.5).Scale(-1), To: at(25, 0.5)}} { // through teeth, and through spaces
		v := drawing.SectionOf(part, cut, rim)
		if got := hatchedArea(v, 0.01); math.Abs(got-340) > 1 {
			t.Errorf("%.2f mm² hatched, want 34 x 10", got)
		}
		got := lengths(v)
		if want := 2*40 + 4*10.0; math.Abs(got[drawing.Outline]-want) > 0.1 || math.Abs(got[drawing.Centre]-2*14) > 1e-6 {
			t.Errorf("%.2f mm of outlines, want %.2f; %.2f mm of chain lines", got[drawing.Outline], want, got[drawing.Centre])
		}
	}
	circles := 0
	for _, s := range drawing.PlanOf(part, rim).Strokes {
		if s.Kind == drawing.Outline {
			circles++
			if arc, ok := s.Curves[0].(geom.Arc); !ok || arc.Radius != 20 {
				t.Errorf("an outline that is not the tip circle: %v", s.Curves[0])
			}
		}
	}
	if circles != 1 {
		t.Errorf("%d outlines in the plan", circles)
	}
}

// Sizes are read from the layers, and a diameter drawn for the printer says what
// the finished part should measure.
func TestSizesAreRead(t *testing.T) {
	sheet := drawing.OfPart(steppedBush(t), drawing.Details{}, []drawing.Allowance{{Drawn: 10, Wanted: 9.8, Tolerance: 0.1}, {Drawn: 30, Wanted: 29.8}})
	var texts []string
	for _, v := range sheet.Views {
		for _, d := range v.Dimensions {
			texts = append(texts, d.Text())
		}
	}
	want := map[string]bool{"Ø40": true, "Ø20": true, "Ø29.8": true, "Ø9.8 ±0.1": true, "3": true, "6": true, "12": true}
	for _, text := range texts {
		if !want[text] {
			t.Errorf("unexpected size %q", text)
		}
		delete(want, text)
	}
	for text := range want {
		t.Errorf("size %q is missing from %q", text, texts)
	}
}

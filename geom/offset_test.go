package geom_test

import (
	"math"
	"testing"

	"pintle/geom"
)

// Lengths and areas of moved outlines in closed form: a rectangle of a by b
// becomes a+2d by b+2d, a circle's radius grows by d, and a convex outline with
// round joints gains perimeter times d plus pi d² (Steiner's formula).
func TestOffset(t *testing.T) {
	var origin geom.Point
	half := geom.NewContour([]geom.Curve{
		geom.Line{A: geom.Point{X: -10}, B: geom.Point{X: 10}},
		geom.Arc{Radius: 10, From: 0, To: math.Pi},
	}, 0.001)
	for _, test := range []struct {
		why  string
		from geom.Contour
		d    float64
		area float64
	}{
		{"a rectangle keeps its corners", geom.Rectangle(origin, 30, 20, 0, 0.3, 0.001), 0.1, 30.2 * 20.2},
		{"and inwards", geom.Rectangle(origin, 30, 20, 0, 0.3, 0.001), -0.1, 29.8 * 19.8},
		{"round corners stay round", geom.Rectangle(origin, 30, 20, 4, 0, 0.001), 0.5, 31*21 - (4-math.Pi)*4.5*4.5},
		{"a window closes", geom.Window(origin, 30, 20, 0, 0, 0.001), 0.1, -29.8 * 19.8},
		{"a circle grows", geom.Peg(origin, 20, 0.001), 0.1, math.Pi * 10.1 * 10.1},
		{"a bore shrinks", geom.Bore(origin, 8, 0.001), 0.1, -math.Pi * 3.9 * 3.9},
		{"corners of line and arc open into arcs", half, 1, math.Pi*50 + (20 + 10*math.Pi) + math.Pi},
	} {
		t.Run(test.why, func(t *testing.T) {
			curves, err := geom.Offset(test.from.Curves, test.d)
			if err != nil {
				t.Fatal(err)
			}
			for i, c := range curves {
				if next := curves[(i+1)%len(curves)]; c.End().Sub(next.Start()).Len() > 1e-6 {
					t.Errorf("curve %d ends at %v, the next starts at %v", i, c.End(), next.Start())
				}
			}
			got := area(geom.NewContour(curves, 1e-5).Points)
			if math.Abs(got-test.area) > 0.005 { // chords of 1e-5 mm along some 100 mm
				t.Errorf("area %.4f mm², want %.4f", got, test.area)
			}
		})
	}
	if _, err := geom.Offset(geom.Bore(origin, 0.3, 0.001).Curves, 0.2); err == nil {
		t.Error("a bore smaller than the move must be refused")
	}
	if _, err := geom.Offset(half.Curves, -1); err == nil {
		t.Error("a corner of line and arc that closes must be refused")
	}
}

func area(points []geom.Point) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p.X*q.Y - p.Y*q.X
	}
	return sum / 2
}

// A moved cubic stays at its distance from the cubic it came from.
func TestOffsetCubic(t *testing.T) {
	bulge := geom.Cubic{{X: -20}, {X: -10, Y: 12}, {X: 10, Y: 12}, {X: 20}}
	run := []geom.Curve{bulge, geom.Line{A: bulge[3], B: bulge[0]}} // clockwise: its right is inside
	if _, err := geom.Offset(run, 0.1); err == nil {
		t.Error("the corners of cubic and line close inwards and must be refused")
	}
	curves, err := geom.Offset(run, -0.1)
	if err != nil {
		t.Fatal(err)
	}
	cubics := 0
	for _, c := range curves {
		cubic, ok := c.(geom.Cubic)
		if !ok {
			continue
		}
		cubics++
		for _, u := range []float64{0, 0.25, 0.5, 0.75, 1} {
			least := math.Inf(1)
			for i := range 20001 {
				least = min(least, bulge.At(float64(i)/20000).Sub(cubic.At(u)).Len())
			}
			if math.Abs(least-0.1) > 2e-4 {
				t.Errorf("%v is %.5f mm off, want 0.1", cubic.At(u), least)
			}
		}
	}
	if cubics != 4 {
		t.Errorf("%d cubics", cubics)
	}
}

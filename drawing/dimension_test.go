package drawing_test

import (
	"math"
	"testing"

	"pintle/drawing"
	"pintle/geom"
)

// The figures a dimension prints (ISO 129-1 and ISO 406, from memory). H7 of
// 22 mm: 0 to +0.021 (ISO 286-2, as in any fit table).
func TestDimensionText(t *testing.T) {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	for _, test := range []struct {
		why  string
		d    drawing.Dimension
		want string
	}{
		{"a length", drawing.Between(p(-10, 0), p(10, 0)), "20"},
		{"square to the axes or not", drawing.Between(p(0, 0), p(3, 4)), "5"},
		{"several alike", drawing.Circle(p(5, 5), 3.4).Times(4), "4× Ø3.4"},
		{"one alone says no count", drawing.Circle(p(5, 5), 3.4).Times(1), "Ø3.4"},
		{"finished size in place of the drawn one", drawing.Turned(40.08, 3).Measuring(39.9).Within(-0.05, 0.05), "Ø39.9 ±0.05"},
		{"a class with its deviations", drawing.Turned(22, 3).InClass("H7", 0, 0.021), "Ø22 H7 +0.021/0"},
		{"both deviations below zero", drawing.Turned(8, 3).Within(-0.02, -0.01), "Ø8 −0.01/−0.02"},
		{"a radius", drawing.Rounding(p(0, 0), 5, 1), "R5"},
		{"an angle over the half circle", drawing.Opening(p(1, 1), p(2, 1), p(1, 0)), "270°"},
		{"a chamfer is measured along the height", drawing.Bevel(p(10, 0), p(10.4, 0.4)), "0.4×45°"},
		{"brackets drop the tolerance", drawing.Heights(0, 0, 12).Within(-1, 1).InBrackets(), "(12)"},
		{"words", drawing.Circle(p(0, 0), 8).Saying("for the wires"), "Ø8 for the wires"},
		{"no negative zero, no idle zeros", drawing.Between(p(0, 0), p(0.10000001, 0)), "0.1"},
	} {
		t.Run(test.why, func(t *testing.T) {
			if got := test.d.Text(); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
	if got := drawing.Opening(p(0, 0), p(1, 0), p(1, 1)).Size(); math.Abs(got-45) > 1e-12 {
		t.Errorf("the diagonal stands at %g degrees, want 45", got)
	}
}

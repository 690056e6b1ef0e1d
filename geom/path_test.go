package geom

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

func parsed(t testing.TB, d string) Region {
	t.Helper()
	contours, err := ParsePath(d, 0.001)
	if err != nil {
		t.Fatalf("%s: %v", d, err)
	}
	r, err := RegionOf(contours)
	if err != nil {
		t.Fatalf("%s: %v", d, err)
	}
	return r
}

// The same outline written in two ways gives the same points (SVG 1.1, section
// 8.3: what relative commands, repeats, shorthands and left-out separators mean).
func TestParsePathWays(t *testing.T) {
	for _, test := range []struct{ name, one, other string }{
		{"relative", "M10 10 L30 10 L30 25 L10 25 Z", "m10 10 l20 0 l0 15 l-20 0 z"},
		{"repeats are lines", "M10 10 L30 10 L30 25 Z", "M10 10 30 10 30 25Z"},
		{"relative repeats", "M10 10 L30 10 L30 25 Z", "m10 10 20 0 0 15z"},
		{"level and upright", "M10 10 L30 10 L30 25 L10 25 Z", "M10,10H30V25H10Z"},
		{"level and upright, relative", "M10 10 L30 10 L30 25 L10 25 Z", "M10,10h20v15h-20z"},
		{"no separators", "M10 -10 L0.5 0.5 L0.5 -20 Z", "M10-10L.5.5.5-20Z"},
		{"exponents", "M100 0 L0 100 L0 0 Z", "M1e2 0L0 1E+2L0 0Z"},
		{"not closed", "M10 10 L30 10 L30 25 Z", "M10 10 L30 10 L30 25"},
		{"closed by a line of its own", "M10 10 L30 10 L30 25 Z", "M10 10 L30 10 L30 25 L10 10 Z"},
		{"mirrored control point", "M0 0 C0 10 10 10 10 0 C10 -10 30 -10 30 0 L-20 40 Z", "M0 0 C0 10 10 10 10 0 S30 -10 30 0 L-20 40 Z"},
		{"mirrored, relative", "M0 0 C0 10 10 10 10 0 C10 -10 30 -10 30 0 L-20 40 Z", "M0 0c0 10 10 10 10 0s20-10 20 0l-50 40z"},
		{"nothing to mirror", "M0 0 L10 0 C10 0 30 20 30 0 L30 -9 Z", "M0 0 L10 0 S30 20 30 0 L30 -9 Z"},
		{"degree two", "M0 0 C10 20 20 20 30 0 Z", "M0 0 Q15 30 30 0 Z"},
		{"degree two, mirrored", "M0 0 Q5 10 10 0 Q15 -10 20 0 L10 30 Z", "M0 0 Q5 10 10 0 T20 0 L10 30 Z"},
		{"degree two, mirrored, relative", "M0 0 Q5 10 10 0 Q15 -10 20 0 L10 30 Z", "M0 0q5 10 10 0t10 0l-10 30z"},
		{"flags run together", "M0 0 A5 5 0 0 1 10 0 Z", "M0 0a5 5 0 0110 0z"},
		{"a move after an end", "M0 0h9v9z M20 0h9v9z", "m0 0h9v9zm20 0h9v9z"},
		{"an end without a move", "M0 0h9v9z M0 0h-9v-9z", "M0 0h9v9zh-9v-9z"},
		{"points alone", "M0 0h9v9z", "M5 5M0 0h9v9zM7 7"},
		{"arc without radius", "M0 0 L10 0 L10 10 Z", "M0 0 A0 5 0 0 0 10 0 L10 10 Z"},
		{"arc with radii too small", "M0 0 A5 5 0 0 1 10 0 Z", "M0 0 A2 2 0 0 1 10 0 Z"},
	} {
		t.Run(test.name, func(t *testing.T) {
			one, err := ParsePath(test.one, 0.01)
			other, err2 := ParsePath(test.other, 0.01)
			if test.name == "an end without a move" { // the two meet in a corner
				var fault *RegionError
				if !errors.As(err, &fault) || !errors.As(err2, &fault) || err.Error() != err2.Error() {
					t.Errorf("errors %v and %v", err, err2)
				}
				return
			}
			if err != nil || err2 != nil {
				t.Fatal(err, err2)
			}
			if len(one) != len(other) {
				t.Fatalf("%d and %d contours", len(one), len(other))
			}
			for i := range one {
				if a, b := one[i].loop(), other[i].loop(); !slices.Equal(a, b) {
					t.Errorf("loops %v and %v", a, b)
				}
			}
		})
	}
}

// Areas in closed form: circles pi r², ellipses pi a b, a segment under a curve
// of degree two two thirds of its box (Archimedes).
func TestParsePathAreas(t *testing.T) {
	for _, test := range []struct {
		d    string
		want float64
	}{
		{"M10 0 A10 10 0 0 1 -10 0 A10 10 0 0 1 10 0 Z", 100 * math.Pi},
		{"M10 0 A10 10 0 0 0 -10 0 A10 10 0 0 0 10 0 Z", 100 * math.Pi}, // the other way round
		{"M20 0 A20 10 0 0 1 -20 0 A20 10 0 0 1 20 0 Z", 200 * math.Pi},
		{"M0 0 A10 10 0 1 1 10 10 Z", 100*math.Pi*3/4 + 50},
		{"M0 0 A10 10 0 0 1 10 10 Z", 100*math.Pi/4 - 50},
		{"M0 0 Q15 30 30 0 Z", 30 * 15 * 2.0 / 3},
		{"M0 0H30V30H0Z M10 10H20V20H10Z", 800},
		{"M0 0H30V30H0Z M10 10V20H20V10Z M12 12H18V18H12Z", 836},
		{"M20 0 A20 10 30 0 1 -20 0 A20 10 30 0 1 20 0 Z", math.NaN()},
	} {
		r := parsed(t, test.d)
		if math.IsNaN(test.want) { // too small, so stretched: the ellipse x²/a² + y²/b² = 1, turned, through (20, 0)
			sin, cos := math.Sincos(math.Pi / 6)
			k := math.Hypot(20*cos/20, 20*sin/10)
			test.want = math.Pi * 200 * k * k
		}
		// The chord error along the outline, and the grid.
		if tol := 0.002 * 200; math.Abs(r.Area()-test.want) > tol {
			t.Errorf("%s: area %g, want %g", test.d, r.Area(), test.want)
		}
	}
}

// Each of the four arcs from p to q lies on an ellipse of the radii and the turn;
// the large ones go more than half round, and sweep tells which side they bulge
// to (SVG 1.1, section 8.3.8).
func TestArcThrough(t *testing.T) {
	p, q := Point{125, 75}, Point{225, 125}
	for _, turn := range []float64{0, 0.5} {
		for _, large := range []bool{false, true} {
			for _, sweep := range []bool{false, true} {
				e, ok := arcThrough(p, q, 100, 50, turn, large, sweep)
				if !ok {
					t.Fatal("no arc")
				}
				if (math.Abs(e.sweep) > math.Pi) != large || (e.sweep > 0) != sweep {
					t.Errorf("large %t, sweep %t: goes round by %g", large, sweep, e.sweep)
				}
				curves := e.under(same)
				if d := curves[0].Start().Sub(p).Len() + curves[len(curves)-1].End().Sub(q).Len(); d > 1e-9 {
					t.Errorf("large %t, sweep %t: misses its ends by %g", large, sweep, d)
				}
				for _, c := range NewContour(curves, 0.001).Points {
					v := c.Sub(e.centre).Rotate(-turn)
					if r := math.Hypot(v.X/100, v.Y/50); math.Abs(r-1) > 2e-7 {
						t.Fatalf("large %t, sweep %t: %v lies at %g of the ellipse", large, sweep, c, r)
					}
				}
			}
		}
	}
}

// A circle stays one Arc as long as it stays round.
func TestParsePathKeepsCircles(t *testing.T) {
	runs, err := pathRuns("M10 0 A10 10 0 0 1 -10 0 A10 10 0 0 1 10 0 Z", Affine{0, 2, -2, 0, 3, 4})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range runs[0] {
		arc, ok := c.(Arc)
		if !ok || math.Abs(arc.Radius-20) > 1e-12 || arc.Centre.Sub(Point{3, 4}).Len() > 1e-12 {
			t.Errorf("%#v, want an arc of 20 mm about (3, 4)", c)
		}
	}
}

func TestParsePathRefuses(t *testing.T) {
	for _, test := range []struct {
		d      string
		offset int
		want   string
	}{
		{"L10 10", 0, "begins with M"},
		{"M10 10 X5", 7, `"X" is no command`},
		{"M10 10 L5", 9, "the text ends"},
		{"M10 10 L5 Z", 10, `"Z" stands where a number`},
		{"M10 10 A5 5 0 2 0 9 9", 14, "a flag of an arc"},
		{"M10 10 Z 5 5", 9, `"5" is no command`},
		{"M10 10 L1e400 0", 8, "too large"},
		{"M10 10 Lé", 8, `"é" stands`},
		{"M10 10 L5,,5", 10, `"," stands`},
		{"M10 10 L,5 5", 8, "a comma stands"},
	} {
		_, err := ParsePath(test.d, 0.01)
		var fault *PathError
		if !errors.As(err, &fault) || fault.Offset != test.offset || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: error %v, want %q at %d", test.d, err, test.want, test.offset)
		}
	}
	for d, kind := range map[string]string{
		"": NoOutline, "M5 5": NoOutline, "M0 0 L5 5": ShortLoop, "M0 0H9V9H0V0L9 9": Touch,
		"M0 0L9 9V0L0 9Z": Crossing, "M0 0H9V9Z M3 -3V6H5Z": Crossing,
	} {
		_, err := ParsePath(d, 0.01)
		var fault *RegionError
		if !errors.As(err, &fault) || !strings.Contains(kind+Spike+Coincidence, fault.Kind) {
			t.Errorf("%q: error %v, want %s", d, err, kind)
		}
	}
}

// Elementary: where each transform takes (2, 1), and that lists go from right to
// left.
func TestParseTransform(t *testing.T) {
	for _, test := range []struct {
		text string
		want Point
	}{
		{"", Point{2, 1}},
		{"translate(10)", Point{12, 1}},
		{"translate(10, -5)", Point{12, -4}},
		{"scale(3)", Point{6, 3}},
		{"scale(3 -1)", Point{6, -1}},
		{"rotate(90)", Point{-1, 2}},
		{"rotate(90 2 1)", Point{2, 1}},
		{"rotate(180, 5, 5)", Point{8, 9}},
		{"skewX(45)", Point{3, 1}},
		{"skewY(45)", Point{2, 3}},
		{"matrix(1 2 3 4 5 6)", Point{2 + 3 + 5, 4 + 4 + 6}},
		{" translate(10) , scale(2) rotate(90)", Point{8, 4}},
	} {
		m, err := ParseTransform(test.text)
		if err != nil {
			t.Fatal(err)
		}
		if got := m.Map(Point{2, 1}); got.Sub(test.want).Len() > 1e-12 {
			t.Errorf("%s: (2, 1) to %v, want %v", test.text, got, test.want)
		}
	}
	for text, want := range map[string]string{
		"turn(3)": "turn of 1 numbers", "rotate(1 2)": "rotate of 2 numbers", "scale(": "not closed", "scale 3": "a name and numbers in brackets", "scale(x)": `"x" stands`,
	} {
		if _, err := ParseTransform(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q", text, err, want)
		}
	}
}

// Whatever the text, there is an error or contours that bound a region, and
// mirroring the text's senses does not matter: areas are above zero.
func FuzzParsePath(f *testing.F) {
	for _, d := range []string{"M10 10h20v15h-20z", "M0 0a5 5 0 0110 0z", "M0 0C0 10 10 10 10 0S30-10 30 0", "M0 0Q5 10 10 0T20 0L10 30Z", "M20 0 A20 10 30 0 1 -20 0 A20 10 30 0 1 20 0 Z M2 0h1v1z", "M0 0H30V30H0Z M10 10H20V20H10Z"} {
		f.Add(d)
	}
	f.Fuzz(func(t *testing.T, d string) {
		contours, err := ParsePath(d, 0.5)
		if err != nil {
			return
		}
		if r, err := RegionOf(contours); err != nil || !(r.Area() > 0) {
			t.Errorf("%q: %v, area %g", d, err, r.Area())
		}
	})
}

package geom

import (
	"math"
	"strings"
	"testing"
)

func read(t testing.TB, file string) Region {
	t.Helper()
	contours, err := ReadOutline([]byte(file), 0.001)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	r, err := RegionOf(contours)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	return r
}

// How large a unit is: CSS 2.1, section 4.3.2 (1 in = 25.4 mm = 96 px = 72 pt);
// how the view lies on the page: SVG 1.1, section 7.8.
func TestReadOutlineUnits(t *testing.T) {
	const path = `<path d="M10 20H40V30H10Z"/>`
	for _, test := range []struct {
		name, head string
		lo, hi     Point
	}{
		{"mm", `width="100mm" height="50mm" viewBox="0 0 100 50"`, Point{10, 20}, Point{40, 30}},
		{"half size", `width="50mm" height="25mm" viewBox="0 0 100 50"`, Point{5, 10}, Point{20, 15}},
		{"cm", `width="10cm" height="5cm" viewBox="0 0 100 50"`, Point{10, 20}, Point{40, 30}},
		{"inches", `width="1in" height="1in" viewBox="0 0 50.8 50.8"`, Point{5, 10.4}, Point{20, 15.4}},
		{"points", `width="72pt" height="72pt" viewBox="0 0 50.8 50.8"`, Point{5, 10.4}, Point{20, 15.4}},
		{"px", `width="96px" height="96" viewBox="0 0 50.8 50.8"`, Point{5, 10.4}, Point{20, 15.4}},
		{"no view", `width="96" height="96"`, Point{10.0 / 96 * 25.4, 66.0 / 96 * 25.4}, Point{40.0 / 96 * 25.4, 76.0 / 96 * 25.4}},
		{"no size", `viewBox="0 0 96 96"`, Point{10.0 / 96 * 25.4, 66.0 / 96 * 25.4}, Point{40.0 / 96 * 25.4, 76.0 / 96 * 25.4}},
		{"percent is no size", `width="100%" height="100%" viewBox="0 0 96 96"`, Point{10.0 / 96 * 25.4, 66.0 / 96 * 25.4}, Point{40.0 / 96 * 25.4, 76.0 / 96 * 25.4}},
		{"width alone", `width="100mm" viewBox="0 0 100 50"`, Point{10, 20}, Point{40, 30}},
		{"view elsewhere", `width="100mm" height="50mm" viewBox="10 -20 100 50"`, Point{0, 0}, Point{30, 10}},
		{"centred in a wide page", `width="200mm" height="50mm" viewBox="0 0 100 50"`, Point{60, 20}, Point{90, 30}},
		{"stretched", `width="200mm" height="50mm" viewBox="0 0 100 50" preserveAspectRatio="none"`, Point{20, 20}, Point{80, 30}},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := read(t, `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" `+test.head+`>`+path+`</svg>`)
			lo, hi := r.Bounds()
			if lo.Sub(test.lo).Len() > 3.0/PerMM || hi.Sub(test.hi).Len() > 3.0/PerMM {
				t.Errorf("from %v to %v, want %v to %v", lo, hi, test.lo, test.hi)
			}
		})
	}
}

// Areas of the simple shapes, under the transforms of groups.
func TestReadOutlineShapes(t *testing.T) {
	for _, test := range []struct {
		shapes string
		want   float64
		holes  int
	}{
		{`<rect x="5" y="5" width="20" height="10"/>`, 200, 0},
		{`<rect x="5" y="5" width="20" height="10" rx="2"/>`, 200 - (4-math.Pi)*4, 0},
		{`<rect x="5" y="5" width="20" height="10" rx="50" ry="2"/>`, 200 - (4-math.Pi)*20, 0},
		{`<circle cx="20" cy="20" r="9"/>`, 81 * math.Pi, 0},
		{`<ellipse cx="20" cy="20" rx="9" ry="4"/>`, 36 * math.Pi, 0},
		{`<polygon points="5,5 25,5 25,15"/>`, 100, 0},
		{`<polygon points="5 5 25 5 25 15"/><circle cx="22" cy="8" r="1"/>`, 100 - math.Pi, 1},
		{`<g transform="translate(50 50)"><g transform="rotate(30)"><rect width="20" height="10"/></g></g>`, 200, 0},
		{`<g transform="scale(2 0.5)"><circle cx="20" cy="20" r="9"/></g>`, 81 * math.Pi, 0},
		{`<g transform="skewX(20)"><circle cx="20" cy="20" r="9"/></g>`, 81 * math.Pi, 0},
		{`<rect x="5" y="5" width="20" height="10"/><defs><rect x="7" y="7" width="2" height="2"/></defs><g display="none"><rect x="7" y="7" width="2" height="2"/></g><path style="fill:red; display : none" d="M7 7h2v2z"/><title>t</title>`, 200, 0},
	} {
		r := read(t, `<svg width="100mm" height="100mm" viewBox="0 0 100 100">`+test.shapes+`</svg>`)
		if math.Abs(r.Area()-test.want) > 0.1 || r.Holes() != test.holes {
			t.Errorf("%s: area %g with %d holes, want %g with %d", test.shapes, r.Area(), r.Holes(), test.want, test.holes)
		}
	}
}

func TestReadOutlineRefuses(t *testing.T) {
	const head = "<svg width=\"100mm\" height=\"50mm\"\n  viewBox=\"0 0 100 50\">\n"
	for _, test := range []struct{ name, file, want string }{
		{"a letter", "Dear reader,", "no SVG file"},
		{"another language", "<html></html>", "line 1, column 1: no SVG file: its first element is html"},
		{"path", head + "  <path id=\"a\"\n   d=\"M0 0 L5 x\"/></svg>", "line 4, column 15: \"x\" stands where a number should"},
		{"transform", head + "<g transform='turn(3)'/></svg>", "line 3, column 15: turn of 1 numbers is no transform"},
		{"text", head + "<text>Ahoy</text></svg>", "line 3, column 1: text is no outline"},
		{"unit", "<svg width=\"3 ells\"/>", "line 1, column 15: \"ells\" is no unit"},
		{"size", head + "<circle r=\"-3\"/></svg>", `line 3, column 1: r="-3" of a circle is no size`},
		{"points", head + "<polygon points=\"1,2 3;4\"/></svg>", "line 3, column 23: \";\" stands"},
		{"view", "<svg viewBox=\"0 0 0 10\"/>", "the viewBox has no size"},
		{"broken", head + "<path", "line 3"},
		{"nothing", head + "</svg>", "a region needs an outline"},
		{"crossing", head + "<path d=\"M0 0L9 9V0L0 9Z\"/></svg>", "two edges cross at (4.5000, 45.5000) mm"},
		{"far", head + "<path d=\"M0 0L9 9V9999Z\"/></svg>", "beyond 1000 mm"},
	} {
		t.Run(test.name, func(t *testing.T) {
			if _, err := ReadOutline([]byte(test.file), 0.01); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want %q", err, test.want)
			}
		})
	}
}

// Whatever the bytes, reading ends with an error or a region.
func FuzzReadOutline(f *testing.F) {
	f.Add([]byte(`<svg width="100mm" viewBox="0 0 100 50"><g transform="rotate(30 2 2)"><path d="M10 20H40V30H10Z"/></g><circle cx="9" cy="9" r="1"/></svg>`))
	f.Add([]byte(`<svg><rect x="5" y="5" width="20" height="10" rx="2"/><polygon points="1,2 3,4 9,1"/></svg>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		contours, err := ReadOutline(data, 0.5)
		if err != nil {
			return
		}
		if _, err := RegionOf(contours); err != nil {
			t.Errorf("%q: %v", data, err)
		}
	})
}

package lettering_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/geom"
	"pintle/geom/lettering"
	"pintle/mesh"
)

const chord = 0.02

func letters(t testing.TB, text string, height float64) ([]geom.Contour, geom.Region, float64) {
	t.Helper()
	contours, width, err := lettering.Text(text, height, chord)
	if err != nil {
		t.Fatal(err)
	}
	r, err := geom.RegionOf(contours)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return contours, r, width
}

// Bodies and counters of letters are what everyone sees on this line; an H is as
// high as the cap height says.
func TestTextShapes(t *testing.T) {
	for _, test := range []struct {
		text             string
		bodies, counters int
	}{{"H", 1, 0}, {"O", 1, 1}, {"B", 1, 2}, {"8", 1, 2}, {"i", 2, 0}, {"%", 3, 2}, {"A1b", 3, 2}, {"this side down", 14, 4}, {"é", 2, 1}} {
		_, r, width := letters(t, test.text, 6)
		if got := len(r.Loops()) - r.Holes(); got != test.bodies || r.Holes() != test.counters {
			t.Errorf("%q: %d bodies with %d counters, want %d with %d", test.text, got, r.Holes(), test.bodies, test.counters)
		}
		if lo, hi := r.Bounds(); !(lo.X >= 0 && hi.X <= width) {
			t.Errorf("%q: from %g to %g in a width of %g", test.text, lo.X, hi.X, width)
		}
	}
	_, r, _ := letters(t, "H", 6)
	if lo, hi := r.Bounds(); lo.Y != 0 || math.Abs(hi.Y-6) > 1.0/geom.PerMM {
		t.Errorf("an H of 6 mm stands from %g to %g", lo.Y, hi.Y)
	}
}

// At the least height no stroke is thinner than the rule says: the bar of an e,
// between its counter and the gap below, is its thinnest place. Neighbouring
// letters keep a bead apart.
func TestLeastHeight(t *testing.T) {
	for _, bead := range []float64{0.3, 0.45, 0.8} {
		height := lettering.LeastHeight(bead)
		want := max(lettering.LeastStroke, 1.5*bead)
		_, e, _ := letters(t, "e", height)
		lo, hi := e.Bounds()
		middle, thinnest := (lo.X+hi.X)/2, math.Inf(1)
		var crossed []float64
		for y := lo.Y; y < hi.Y; y += 0.001 {
			inside := e.Contains(geom.Snap(geom.Point{X: middle, Y: y}))
			if inside == (len(crossed)%2 == 0) {
				crossed = append(crossed, y)
			}
		}
		for i := 1; i < len(crossed); i += 2 {
			thinnest = min(thinnest, crossed[i]-crossed[i-1])
		}
		if height > lettering.LeastCap && math.Abs(thinnest-want) > 0.005 {
			t.Errorf("bead %g: the thinnest stroke of an e %g mm high is %g, want %g", bead, height, thinnest, want)
		}
		for _, pair := range []string{"AV", "rn", "II", "lj", "fi", "WA", "OO", "To", "/7", "ij"} {
			_, first, _ := letters(t, pair[:1], height)
			_, both, _ := letters(t, pair, height)
			var rest []geom.Loop
			for i, l := range both.Loops() {
				if i >= len(first.Loops()) {
					rest = append(rest, l)
				}
			}
			second, err := geom.NewRegion(rest)
			if err != nil {
				t.Fatal(err)
			}
			if gap := geom.Distance(first, second).Width; gap < bead {
				t.Errorf("%q at %g mm: %g mm apart, less than a bead of %g", pair, height, gap, bead)
			}
		}
	}
}

func TestTextRefuses(t *testing.T) {
	for _, test := range []struct {
		text   string
		height float64
		want   string
	}{{"", 6, "must have a letter"}, {"  ", 6, "must have a letter"}, {"漢", 6, "that the letters lack"}, {"A", 0, "above 0"}, {"A", math.NaN(), "above 0"}} {
		_, _, err := lettering.Text(test.text, test.height, chord)
		var fault *check.FieldError
		if !errors.As(err, &fault) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q at %g: error %v, want %q", test.text, test.height, err, test.want)
		}
	}
}

// Every character of ASCII is a region at small and large sizes.
func TestEveryCharacter(t *testing.T) {
	for r := '!'; r <= '~'; r++ {
		for _, height := range []float64{4, 7, 60} {
			letters(t, string(r), height)
		}
	}
}

// Raised, sunk and cut letters make closed meshes; the volumes follow from the
// letters' area, and a cut mark has no island.
func TestMarks(t *testing.T) {
	text, r, width := letters(t, "O8 down", 8)
	plate := geom.Rectangle(geom.Point{X: width / 2, Y: 4}, width+6, 16, 1, 0, chord)
	area := (width+6)*16 - (4-math.Pi)*1
	sheet := func(z0, z1 float64, more ...geom.Contour) geom.Slab {
		return geom.Slab{Z0: z0, Z1: z1, Bottom: append([]geom.Contour{plate}, more...)}
	}
	cut, err := lettering.Cut(text, 0.8, 0.4, chord)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name   string
		slabs  []geom.Slab
		want   float64
		tol    float64
		bodies int
	}{
		{"raised", []geom.Slab{sheet(0, 2), {Z0: 2, Z1: 2.6, Bottom: text}}, 2*area + 0.6*r.Area(), 1, 1},
		{"sunk", []geom.Slab{sheet(0, 2), sheet(2, 2.6, lettering.Sunk(text, chord)...)}, 2.6*area - 0.6*r.Area(), 1, 1},
		{"seen from behind", []geom.Slab{sheet(0, 0.4, lettering.Sunk(lettering.Mirrored(text, width), chord)...), sheet(0.4, 2)}, 2*area - 0.4*r.Area(), 1, 1},
		{"cut", []geom.Slab{sheet(0, 2, cut...)}, 2 * (area - r.Area()), 30, 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			p, err := geom.NewPart(test.name, test.slabs...)
			if err != nil {
				t.Fatal(err)
			}
			m, err := mesh.FromPart(p)
			if err != nil {
				t.Fatal(err)
			}
			e := mesh.Inspect(m.Soup())
			if err := m.Verify(); err != nil || !e.Sound() || e.Shells != test.bodies {
				t.Errorf("%v, %d bodies, %+v", err, e.Shells, e.Faults)
			}
			if math.Abs(p.Volume()-test.want) > test.tol {
				t.Errorf("volume %g, want %g", p.Volume(), test.want)
			}
		})
	}
	if holes, err := geom.NewPart("islands", sheet(0, 2, lettering.Sunk(text, chord)...)); err != nil || len(holes.Layers()[0].Bottom.Loops())-holes.Layers()[0].Bottom.Holes() != 6 {
		t.Errorf("without bridges there should be the plate and five islands: %v", err)
	}
}

// A text placed at an angle keeps its size.
func TestPlace(t *testing.T) {
	text, r, _ := letters(t, "Rk", 10)
	placed, err := geom.RegionOf(lettering.Place(text, geom.Point{X: 30, Y: -5}, 1))
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(placed.Area()-r.Area()) > 0.01 {
		t.Errorf("area %g, want %g", placed.Area(), r.Area())
	}
	c := r.Centroid().Rotate(1).Add(geom.Point{X: 30, Y: -5})
	if d := placed.Centroid().Sub(c).Len(); d > 0.001 {
		t.Errorf("centroid %g mm off", d)
	}
}

package geom

import (
	"math"
	"math/big"
	"testing"
)

// Elementary: a cuboid; a frustum of a square pyramid, h (A + sqrt(A B) + B) / 3,
// whose walls are planar, so that the fixed diagonal does not matter.
func TestVolume(t *testing.T) {
	square := func(side float64) Contour { return Rectangle(Point{3, -4}, side, side, 0, 0, ChordPlain) }
	diamond := func(tip float64) Contour {
		return Contour{Points: []Point{{tip, 0}, {0, 5}, {-5, 0}, {0, -5}}}
	}
	for _, test := range []struct {
		name  string
		slabs []Slab
		want  float64
	}{
		{"cuboid", []Slab{{0, 5, []Contour{square(10)}, nil}}, 500},
		{"frustum", []Slab{{0, 3, []Contour{square(10)}, []Contour{square(4)}}}, 156},
		{"frustum on its head", []Slab{{0, 3, []Contour{square(4)}, []Contour{square(10)}}}, 156},
		// One edge of a diamond's prism of 150 mm³ leans in by 2 mm at the top. By the
		// fixed diagonals that takes away, on one side, a tetrahedron over 5 mm² of the
		// top, and on the other a pyramid over a whole wall: 5 and 10 mm³.
		{"diamond with one edge that leans in", []Slab{{0, 3, []Contour{diamond(5)}, []Contour{diamond(3)}}}, 135},
		{"cuboid and frustum", []Slab{{0, 5, []Contour{square(10)}, nil}, {5, 8, []Contour{square(10)}, []Contour{square(4)}}}, 656},
	} {
		t.Run(test.name, func(t *testing.T) {
			p, err := NewPart("block", test.slabs...)
			if err != nil {
				t.Fatal(err)
			}
			if got := p.Volume(); got != test.want {
				t.Errorf("volume %.12g, want %g", got, test.want)
			}
			sum := 0.0
			for _, l := range p.Layers() {
				sum += l.Volume()
			}
			if sum != test.want {
				t.Errorf("the layers' volumes add up to %.12g, want %g", sum, test.want)
			}
		})
	}
}

// The largest part: 2 * 1000 mm each way is 2000^2 * 1000 mm³, and needs more
// than 64 bits on the grid.
func TestVolumeOfTheLargestPart(t *testing.T) {
	p, err := NewPart("block", Slab{0, 1000, []Contour{Rectangle(Point{}, 2000, 2000, 0, 0, ChordPlain)}, nil})
	if err != nil {
		t.Fatal(err)
	}
	want := new(big.Int).Mul(big.NewInt(6*2000*2000*1000), big.NewInt(PerMM*PerMM*PerMM))
	if got := p.SixVolume(); got.Cmp(want) != 0 {
		t.Errorf("six volumes %v, want %v", got, want)
	}
	if got := p.Volume(); got != 4e9 {
		t.Errorf("volume %g, want 4e9", got)
	}
}

// A loft whose walls stand upright at the bore and lean at the outline: a cone's
// frustum less a cylinder, to the chord error of many sides.
func TestLoftBesideAStraightBore(t *testing.T) {
	outline, bore := Peg(Point{}, 40, ChordFit), Bore(Point{}, 20, ChordFit)
	p, err := NewPart("ring", Slab{0, 2, []Contour{outline, bore}, []Contour{outline.Resize(36), bore}})
	if err != nil {
		t.Fatal(err)
	}
	want := math.Pi * 2 * ((20*20+20*18+18*18)/3.0 - 10*10)
	if got := p.Volume(); math.Abs(got-want) > 2*2*math.Pi*30*ChordFit { // height, both circumferences, chord error
		t.Errorf("volume %g, want %g", got, want)
	}
}

func TestLoftThatFolds(t *testing.T) {
	outline, bore := Peg(Point{}, 40, ChordFit), Bore(Point{}, 20, ChordFit)
	for name, top := range map[string][]Contour{
		"grows outside, shrinks the bore away": {outline.Resize(44), bore.Resize(24)},
		"turned":                               {outline.Map(func(p Point) Point { return p.Rotate(0.2) }), bore},
	} {
		if _, err := NewPart("ring", Slab{0, 2, []Contour{outline, bore}, top}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

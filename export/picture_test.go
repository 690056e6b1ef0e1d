package export

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"

	"pintle/geom"
	"pintle/mesh"
)

func block(t testing.TB, x, y, z float64) *mesh.Mesh {
	t.Helper()
	part, err := geom.NewPart("block", geom.Slab{Z1: z, Bottom: []geom.Contour{geom.Rectangle(geom.Point{}, x, y, 0, 0, geom.ChordPlain)}})
	if err != nil {
		t.Fatal(err)
	}
	m, err := mesh.FromPart(part)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func drawn(t *testing.T, p Picture) *image.Gray {
	t.Helper()
	var out bytes.Buffer
	if err := p.WritePNG(&out); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	return img.(*image.Gray)
}

// Seen from straight above, a block is a rectangle of its plan: its width in
// pixels over the scale bar's pixels per mm is its size, and of two blocks the
// upper hides the lower.
func TestPictureFromAbove(t *testing.T) {
	p := Picture{Width: 600, Azimuth: -math.Pi / 2, Rise: math.Pi / 2, Bodies: []Body{
		{Mesh: block(t, 40, 20, 5), Grey: 0.5},
		{Mesh: block(t, 10, 10, 5), Place: Placed{Z: 10}, Grey: 1},
	}}
	img := drawn(t, p)
	middle := img.Bounds().Dy() / 2
	for middle > 0 && img.GrayAt(300, middle).Y == 255 {
		middle--
	}
	lower, upper := img.GrayAt(60, middle-20).Y, img.GrayAt(300, middle-20).Y
	c := p.camera()
	if want := c.shade(vector{0, 0, 1}, 0.5); lower != want {
		t.Errorf("the lower block has shade %d, want %d", lower, want)
	}
	if want := c.shade(vector{0, 0, 1}, 1); upper != want {
		t.Errorf("the upper block has shade %d, want %d: it must hide the lower", upper, want)
	}
	left, right := 600, 0
	for x := range 600 {
		if img.GrayAt(x, middle-20).Y < 255 {
			left, right = min(left, x), max(right, x)
		}
	}
	bar := 0 // the 10 mm scale bar, counted along its middle
	y := img.Bounds().Dy() - 18
	for x := 24; img.GrayAt(x, y).Y == lineShade; x++ {
		bar++
	}
	if got := float64(right-left) / float64(bar) * 10; math.Abs(got-40) > 0.4 {
		t.Errorf("the block of 40 mm measures %.2f mm by the scale bar of %d px", got, bar)
	}
}

// A body that is flipped stands on its other face: the same block below the bed.
func TestPictureFlip(t *testing.T) {
	c := Picture{Azimuth: -1, Rise: 0.5}.camera()
	b := Body{Mesh: block(t, 10, 20, 5), Place: Placed{X: 3, Z: 7, TurnDeg: 90, Flip: true}}
	up := c.facets(b, &frame{})
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, f := range up {
		for _, v := range f.corner {
			z := v[1]*c.up[2] + v[2]*c.towards[2] // right has no height
			lo, hi = min(lo, z), max(hi, z)
		}
	}
	if math.Abs(lo-2) > 1e-6 || math.Abs(hi-7) > 1e-6 {
		t.Errorf("a block of 5 mm flipped at z = 7 stands from %.4f to %.4f", lo, hi)
	}
}

func BenchmarkPicture(b *testing.B) {
	p := Picture{Width: 960, Azimuth: -1, Rise: 0.55, Bodies: []Body{{Mesh: block(b, 40, 30, 10)}}}
	for b.Loop() {
		p.render()
	}
}

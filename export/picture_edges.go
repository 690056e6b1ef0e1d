package export

import (
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"math"
	"slices"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"pintle/check"
	"pintle/mesh"
)

// drawEdges draws the edges of a mesh where its faces crease or turn away from
// the viewer, as far as nothing stands before them.
func (r *raster) drawEdges(m *mesh.Mesh, facets []facet) {
	sides := sidesByEdge(m)
	for i := 0; i+1 < len(sides); i += 2 {
		f, g := facets[sides[i].facet], facets[sides[i+1].facet]
		if !f.front && !g.front {
			continue
		}
		if f.front == g.front && f.normal.dot(g.normal) > creaseCos {
			continue
		}
		k := sides[i].corner
		r.line(r.at(f.corner[k]), r.at(f.corner[(k+1)%3]))
	}
}

// A side is one edge of a facet, from the corner to the next.
type side struct {
	high   int32 // the higher of its two vertices
	facet  int32
	corner int8
}

// sidesByEdge returns the two sides of each edge of a closed mesh one after the
// other. They are counted into place by their lower vertex, of which few edges
// start.
func sidesByEdge(m *mesh.Mesh) []side {
	starts := make([]int32, len(m.Vertices)+1)
	for _, t := range m.Triangles {
		for k := range 3 {
			starts[min(t[k], t[(k+1)%3])+1]++
		}
	}
	for i := 1; i < len(starts); i++ {
		starts[i] += starts[i-1]
	}
	sides, next := make([]side, 3*len(m.Triangles)), slices.Clone(starts)
	for i, t := range m.Triangles {
		for k := range 3 {
			a, b := t[k], t[(k+1)%3]
			sides[next[min(a, b)]] = side{max(a, b), int32(i), int8(k)}
			next[min(a, b)]++
		}
	}
	for v := range m.Vertices {
		slices.SortFunc(sides[starts[v]:starts[v+1]], func(a, b side) int { return cmp.Compare(a.high, b.high) })
	}
	return sides
}

// line draws a visible straight line, a little more than one final pixel wide.
func (r *raster) line(a, b vector) {
	steps := int(math.Ceil(max(math.Abs(b[0]-a[0]), math.Abs(b[1]-a[1])))) + 1
	for i := range steps + 1 {
		t := float64(i) / float64(steps)
		x, y := int(a[0]+t*(b[0]-a[0])), int(a[1]+t*(b[1]-a[1]))
		depth := float32(a[2] + t*(b[2]-a[2]) + edgeDepth)
		for dy := range oversample {
			for dx := range oversample {
				p := image.Point{X: x + dx, Y: y + dy}
				if !p.In(r.img.Bounds()) {
					continue
				}
				if j := p.Y*r.img.Stride + p.X; depth >= r.depth[j] {
					r.img.Pix[j] = lineShade
				}
			}
		}
	}
}

// drawScaleBar draws a bar of a round length with its length beside it, and the
// caption, along the foot of the picture. scale is in px per mm.
func drawScaleBar(img *image.Gray, scale float64, caption string) {
	length := 1.0
	for _, l := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500} {
		if l*scale <= float64(img.Bounds().Dx())/4 {
			length = l
		}
	}
	x0, y := 24, img.Bounds().Max.Y-18
	x1 := x0 + int(math.Round(length*scale))
	ink := image.NewUniform(color.Gray{Y: lineShade})
	for _, bar := range []image.Rectangle{
		image.Rect(x0, y, x1, y+2), image.Rect(x0, y-5, x0+2, y+7), image.Rect(x1-2, y-5, x1, y+7),
	} {
		draw.Draw(img, bar, ink, image.Point{}, draw.Src)
	}
	end := text(img, x1+10, y+7, check.Number(length)+" mm")
	text(img, end+24, y+7, caption)
}

// lettersPx is the size of letters in px: legible where the page is printed.
const lettersPx = 19

// text writes a line with its baseline at x, y and returns where it ends.
func text(img draw.Image, x, y int, line string) int {
	face, err := opentype.NewFace(lettering(), &opentype.FaceOptions{Size: lettersPx, DPI: 72, Hinting: font.HintingFull})
	if err != nil {
		panic("export: the built-in font: " + err.Error())
	}
	d := font.Drawer{Dst: img, Src: image.NewUniform(color.Gray{Y: lineShade}), Face: face, Dot: fixed.P(x, y)}
	d.DrawString(line)
	return d.Dot.X.Ceil()
}

// lettering reads the font once. It ships with its package; that it cannot be
// read would be a defect of ours.
var lettering = sync.OnceValue(func() *sfnt.Font {
	parsed, err := opentype.Parse(goregular.TTF)
	if err != nil {
		panic("export: the built-in font: " + err.Error())
	}
	return parsed
})
